/** How serious a finding is: an error stops `make`, a warning asks for a look, a note informs. */
export type Severity = "error" | "warning" | "note";

/** One result of a check. Everything a person needs to act on it, and nothing hidden in the text alone. */
export interface Finding {
  /** Stable name of the check, `family.what`, for example `fit.rod-inside-bore`. */
  readonly id: string;
  readonly severity: Severity;
  /** What it is about: a duct, plate, joint or field, for example `port.carrier` or `deck`. */
  readonly place: string;
  /** One sentence that names the numbers and what would be right. */
  readonly message: string;
  readonly measured?: number;
  readonly limit?: number;
  /** Unit of `measured` and `limit`; millimetres when absent. */
  readonly unit?: string;
  /** Why the limit exists. */
  readonly why: string;
  /** Standard, handbook or "common practice" behind the limit. */
  readonly source: string;
  /** The sizes that `measured` is made of, when it is a tolerance stack or a sum; or the joints it sums up, a line each. */
  readonly contributions?: readonly Contribution[];
}

/** One size in a stack, with how far it may be off and who says so. `unit` of the finding; signs as they add up. */
export interface Contribution {
  readonly name: string;
  readonly nominal: number;
  /** Upward and downward deviation, both as positive numbers. */
  readonly plus: number;
  readonly minus: number;
  readonly source: string;
}
