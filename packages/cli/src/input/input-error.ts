/** One thing that is wrong with what a person gave. */
export interface Problem {
  /** `frame.yaml:12:18`, or the option as typed. */
  readonly where: string;
  /** Dotted path of the field, with the ids of list entries: `ducts.port.pipe.size`. */
  readonly field?: string;
  /** What is wrong and what would be right. */
  readonly message: string;
}

/** Something a person gave cannot be used: the program ends with exit code 2 and these problems, nothing else. */
export class InputError extends Error {
  readonly problems: readonly Problem[];

  constructor(problems: readonly Problem[]) {
    super(problems.map(problemLine).join("\n"));
    this.name = "InputError";
    this.problems = problems;
  }
}

/** A single problem as an error. */
export function inputError(where: string, message: string, field?: string): InputError {
  return new InputError([field === undefined ? { where, message } : { where, field, message }]);
}

/** One line: place, field, what is wrong. */
export function problemLine(problem: Problem): string {
  const field = problem.field === undefined || problem.field === "" ? "" : `${problem.field}: `;
  return `${problem.where}: ${field}${problem.message}`;
}
