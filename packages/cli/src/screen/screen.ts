/** What a command may use of the world around it. Tests hand in their own. */
export interface Screen {
  readonly cwd: string;
  /** Colours and moving lines are allowed for results. */
  readonly colour: boolean;
  /** A person watches: progress may be shown. */
  readonly watched: boolean;
  /** Columns of the terminal. */
  readonly width: number;
  /** Ends a search early with the best so far. */
  readonly signal: AbortSignal;
  /** Shows the stack of an unexpected error. */
  readonly debug: boolean;
  /** Asks a person; `undefined` when the answers have ended. Absent where nobody can answer. */
  readonly ask?: (question: string) => Promise<string | undefined>;
  /** Results, whole lines. */
  readonly print: (text: string) => void;
  /** Progress, cautions and errors, whole lines. */
  readonly note: (text: string) => void;
}

/** Columns for running text: neither a ribbon nor longer than an eye follows. */
export function textWidth({ width }: Screen): number {
  return Math.max(60, Math.min(width, 110));
}

/** The part of a process's streams that decides what a screen can do. */
interface Stream {
  readonly isTTY?: boolean;
  readonly columns?: number;
  write(text: string): unknown;
}

export interface ProcessSides {
  readonly cwd: string;
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly stdout: Stream;
  readonly stderr: Stream;
  readonly signal: AbortSignal;
  /** Only where a person sits at the input and sees the questions. */
  readonly ask?: (question: string) => Promise<string | undefined>;
}

/** Colour only on a terminal and never when NO_COLOR is non-empty (the convention of no-color.org). */
export function screenOf(sides: ProcessSides): Screen {
  const { env, stdout, stderr } = sides;
  const plain = (env["NO_COLOR"] ?? "") !== "" || env["TERM"] === "dumb";
  return {
    cwd: sides.cwd,
    colour: stdout.isTTY === true && !plain,
    watched: stderr.isTTY === true && env["TERM"] !== "dumb",
    width: stdout.columns ?? 100,
    signal: sides.signal,
    ...(sides.ask === undefined ? {} : { ask: sides.ask }),
    debug: env["KEELCUT_DEBUG"] === "1",
    print: (text) => stdout.write(`${text}\n`),
    note: (text) => stderr.write(`${text}\n`),
  };
}
