/** A variable of a linear or integer programme to be minimised; its lower bound is 0. */
export interface ModelVariable {
  readonly cost: number;
  readonly upper?: number;
  readonly kind: "continuous" | "integer";
  /** Coefficient in each row, by row index. */
  readonly column: ReadonlyMap<number, number>;
}

export interface ModelRow {
  readonly sense: ">=" | "<=";
  readonly limit: number;
}

export interface ModelSolution {
  /** `optimal`, or `stopped` at a limit with the best values so far. */
  readonly status: "optimal" | "stopped";
  readonly values: readonly number[];
  /** Duals of the rows, for a programme without integer variables. */
  readonly duals: readonly number[];
}

export interface SolverLimits {
  /** Nodes of the branching search: the same stop on every machine. */
  readonly nodes?: number;
  /** The search may stop once no better answer can be better by this much. */
  readonly gap?: number;
}

/**
 * Minimises a programme; `undefined` when there is no solution or none was found within the limits. Answers are not
 * believed: whoever asks checks them against its own data.
 */
export type Solver = (
  variables: readonly ModelVariable[],
  rows: readonly ModelRow[],
  limits?: SolverLimits,
) => Promise<ModelSolution | undefined>;
