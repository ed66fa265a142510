/** Why nothing could be written, in one sentence. Nothing half-written is left behind. */
export class OutputError extends Error {
  override readonly name = "OutputError";
}

const reasons: Readonly<Record<string, string>> = {
  EACCES: "no permission to write there",
  EPERM: "no permission to write there",
  EROFS: "the disk is read-only",
  ENOSPC: "the disk is full",
  EDQUOT: "the disk quota is used up",
  ENOTDIR: "a file stands where a folder is needed",
  EEXIST: "a file stands where a folder is needed",
  ENAMETOOLONG: "the path is too long",
  EBUSY: "it is in use by another program",
  ENOTEMPTY: "something was written there meanwhile; try again",
  ELOOP: "its links go round in a circle",
  EINVAL: "the path cannot be used",
};

/** A file system's error in words; errors that are no such thing are handed back as they are. */
export function outputError(out: string, error: unknown): unknown {
  if (error instanceof OutputError) return error;
  const code = error instanceof Error && "code" in error ? String(error.code) : undefined;
  if (code === undefined) return error;
  return new OutputError(`${out} could not be written: ${reasons[code] ?? code}; nothing was written`);
}
