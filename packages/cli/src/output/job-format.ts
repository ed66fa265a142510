import { z } from "zod";

/** Name of the job record in an output folder. */
export const jobFileName = "job.json";

/** First field of a job record: by it an output folder is known as ours. */
export const jobFormat = "keelcut-job";

/** Raised when a reader of older records could misunderstand a new one. */
export const jobVersion = 1;

/** The data of a job record, or why a text is none that this program can read, as the end of a sentence about it. */
export function jobRecordData(text: string): { readonly data: unknown } | { readonly fault: string } {
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch {
    return { fault: "is not JSON" };
  }
  const head = z.object({ format: z.literal(jobFormat), version: z.int() }).safeParse(data);
  if (!head.success) return { fault: "is not a job record of this program" };
  const { version } = head.data;
  if (version === jobVersion) return { data };
  return { fault: `is a job record of version ${version}; this program reads ${jobVersion}` };
}
