import { InputError } from "../input/input-error.js";
import { OutputError } from "../output/output-error.js";
import { problemsText } from "./problems-text.js";
import type { Screen } from "./screen.js";

/** Says on stderr why the program ends, in as few lines as it takes, and as data on stdout when asked for JSON. */
export function reportFailure(error: unknown, screen: Screen, json: boolean): void {
  const problems = problemsOf(error);
  if (json) screen.print(JSON.stringify({ format: "keelcut-error", version: 1, problems }, undefined, 2));
  screen.note(problemsText(problems.map(({ where, ...rest }) => ({ where: where ?? "keelcut", ...rest }))));
  if (screen.debug && error instanceof Error) screen.note(error.stack ?? "");
}

interface FailureProblem {
  readonly where?: string;
  readonly field?: string;
  readonly message: string;
}

function problemsOf(error: unknown): readonly FailureProblem[] {
  if (error instanceof InputError) return error.problems;
  if (error instanceof OutputError) return [{ message: error.message }];
  const message = error instanceof Error ? error.message : String(error);
  const line = message.split("\n")[0] ?? "";
  return [
    {
      message: `unexpected error: ${line === "" ? "no message" : line} (KEELCUT_DEBUG=1 shows where; please report it)`,
    },
  ];
}
