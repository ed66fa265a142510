import type { ModelRow, ModelSolution, ModelVariable, SolverLimits } from "@keelcut/nesting";
import type { LegacyHighs } from "highs";

/** Nodes when no limit is given. */
const MOST_NODES = 20_000;
/** Only for a search that hangs within one node. */
const MOST_SECONDS = 30;

let loading: Promise<LegacyHighs> | undefined;

/**
 * Solves a linear or integer model with HiGHS, which is loaded at first use. Values are what the solver says: the caller
 * checks them against its own data. `undefined` when there is no solution.
 */
export async function solveModel(
  variables: readonly ModelVariable[],
  rows: readonly ModelRow[],
  limits: SolverLimits = {},
): Promise<ModelSolution | undefined> {
  loading ??= loadHighs();
  const highs = await loading;
  const result = highs.solve(modelText(variables, rows), {
    output_flag: false,
    mip_rel_gap: 0,
    mip_abs_gap: limits.gap ?? 0,
    mip_max_nodes: limits.nodes ?? MOST_NODES,
    time_limit: MOST_SECONDS,
  });
  const status = String(result.Status);
  if (status === "Infeasible" || status === "Primal infeasible or unbounded") return undefined;
  const values = variables.map((_, i) => primalOf(result.Columns[`x${i}`]));
  if (values.some((value) => !Number.isFinite(value))) return undefined;
  const duals = rows.map((_, i) => dualOf(result.Rows[i]));
  return { status: status === "Optimal" ? "optimal" : "stopped", values, duals };
}

/** The package's types describe its CommonJS build, whose loader is the module itself; the ES build exports it as default. */
async function loadHighs(): Promise<LegacyHighs> {
  const module: unknown = await import("highs");
  return (module as { default: () => Promise<LegacyHighs> }).default();
}

function primalOf(column: object | undefined): number {
  return column !== undefined && "Primal" in column ? Number(column.Primal) : Number.NaN;
}

function dualOf(row: object | undefined): number {
  return row !== undefined && "Dual" in row ? Number(row.Dual) : 0;
}

/** The model in CPLEX LP text. Every number is checked, because HiGHS accepts malformed text silently. */
function modelText(variables: readonly ModelVariable[], rows: readonly ModelRow[]): string {
  const objective = variables.map((variable, i) => term(variable.cost, i)).join(" ");
  const constraints = rows.map((row, r) => {
    const terms = variables.flatMap((variable, i) => {
      const coefficient = variable.column.get(r) ?? 0;
      return coefficient === 0 ? [] : [term(coefficient, i)];
    });
    // A row without terms would be malformed text; it says 0 >= limit.
    return ` r${r}: ${terms.length === 0 ? "0 x0" : terms.join(" ")} ${row.sense} ${finite(row.limit)}`;
  });
  const limits = variables.map((variable, i) =>
    variable.upper === undefined ? ` x${i} >= 0` : ` 0 <= x${i} <= ${finite(variable.upper)}`,
  );
  const whole = variables.flatMap((variable, i) => (variable.kind === "integer" ? [` x${i}`] : []));
  return [
    "Minimize",
    ` obj: ${objective}`,
    "Subject To",
    ...constraints,
    "Bounds",
    ...limits,
    ...(whole.length > 0 ? ["General", ...whole] : []),
    "End",
    "",
  ].join("\n");
}

function term(coefficient: number, variable: number): string {
  return `${coefficient < 0 ? "-" : "+"} ${finite(Math.abs(coefficient))} x${variable}`;
}

function finite(value: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`a model needs finite numbers, not ${value}`);
  return String(value);
}
