import { COST_GROUPS, type CostEstimate, type CostGroup, type CostLine } from "./cost-estimate.js";
import { type Money, toDecimals } from "./money.js";

/** One figure of a line in two estimates. */
export interface LineChange {
  readonly group: CostGroup;
  readonly item: string;
  readonly unit: string;
  readonly before: LineFigures | undefined;
  readonly after: LineFigures | undefined;
  /** Amount after less amount before, minor units; a line that is absent or has no price counts nothing. */
  readonly difference: Money;
}

export type LineFigures = Pick<CostLine, "quantity" | "rate" | "amount">;

/** What changes from one estimate to another, in minor units. */
export interface EstimateComparison {
  readonly currency: string;
  readonly exponent: number;
  readonly groups: readonly GroupChange[];
  readonly total: Omit<GroupChange, "group">;
  readonly perKit: Omit<GroupChange, "group">;
  /** Lines whose figures differ, the largest change of money first. */
  readonly lines: readonly LineChange[];
  /** Lines without a price, which count nothing in the sums above. */
  readonly unpriced: { readonly before: number; readonly after: number };
}

export interface GroupChange {
  readonly group: CostGroup;
  readonly before: Money;
  readonly after: Money;
  readonly difference: Money;
}

/** The difference between two frames, two shops, two sets of prices. Throws RangeError for two currencies. */
export function compareEstimates(before: CostEstimate, after: CostEstimate): EstimateComparison {
  refuseTwoCurrencies([before, after]);
  return {
    currency: before.currency,
    exponent: before.exponent,
    groups: COST_GROUPS.map((group) => ({
      group,
      ...change(before.totals.groups[group], after.totals.groups[group]),
    })),
    total: change(before.totals.total, after.totals.total),
    perKit: change(before.perKit.total, after.perKit.total),
    lines: changedLines(before.lines, after.lines),
    unpriced: { before: before.totals.unpriced, after: after.totals.unpriced },
  };
}

/** One row of the table of kit counts: a value for each count. */
export interface KitRow {
  readonly what: string;
  readonly unit: "money" | "count" | "hours" | "share";
  readonly values: readonly number[];
}

/** What one line does to the cost of one kit between two numbers of kits. */
export interface StepLine extends LineChange {
  /** Its share of a kit after less its share before, minor units, not rounded: they add up to the change of a kit. */
  readonly perKit: number;
}

/** The same frame at several kit counts, side by side. */
export interface KitComparison {
  readonly currency: string;
  readonly exponent: number;
  readonly kits: readonly number[];
  /** Of the whole job: money in minor units, sheets, machine hours, yield. */
  readonly job: readonly KitRow[];
  /** Of one kit, in minor units. */
  readonly perKit: readonly KitRow[];
  readonly steps: readonly KitStep[];
}

/** From one number of kits to the next: the lines that make the step, the largest change of a kit first. */
export interface KitStep {
  readonly from: number;
  readonly to: number;
  /** What the cost of a kit changes by, minor units, rounded. */
  readonly perKit: Money;
  readonly lines: readonly StepLine[];
}

/** A table of several estimates by kit count, ascending. Throws RangeError for two currencies. */
export function compareKits(estimates: readonly CostEstimate[]): KitComparison {
  const ordered = [...estimates].sort((a, b) => a.kits - b.kits);
  const [first] = ordered;
  if (first === undefined) throw new RangeError("nothing to compare");
  refuseTwoCurrencies(ordered);
  const row = (what: string, unit: KitRow["unit"], value: (estimate: CostEstimate) => number): KitRow => ({
    what,
    unit,
    values: ordered.map(value),
  });
  const groups = COST_GROUPS.filter((group) =>
    ordered.some((estimate) => estimate.totals.groups[group] !== 0),
  );
  const priced = ordered.some((estimate) => estimate.perKit.sellingPrice !== undefined);
  return {
    currency: first.currency,
    exponent: first.exponent,
    kits: ordered.map((estimate) => estimate.kits),
    job: [
      row("sheets cut", "count", (estimate) => sum(estimate.material.map((use) => use.sheetCount))),
      row("sheets at least", "count", (estimate) => sum(estimate.material.map((use) => use.leastSheets))),
      row("sheets bought", "count", (estimate) =>
        sum(estimate.material.flatMap((use) => use.sheets.map((entry) => entry.bought))),
      ),
      row("yield", "share", wholeYield),
      row("machine hours", "hours", machineHours),
      ...groups.map((group) => row(group, "money", (estimate) => estimate.totals.groups[group])),
      row("total", "money", (estimate) => estimate.totals.total),
      row("lines without a price", "count", (estimate) => estimate.totals.unpriced),
    ],
    perKit: [
      ...groups.map((group) => row(group, "money", (estimate) => estimate.perKit.groups[group])),
      row("total", "money", (estimate) => estimate.perKit.total),
      ...(priced ? [row("selling price", "money", (estimate) => estimate.perKit.sellingPrice ?? 0)] : []),
    ],
    steps: ordered.slice(1).map((after, index) => stepOf(ordered[index] ?? first, after)),
  };
}

function stepOf(before: CostEstimate, after: CostEstimate): KitStep {
  // A charge that stays the same is shared by more kits, so unchanged lines count too.
  const lines = linesOfBoth(before.lines, after.lines)
    .map((line): StepLine => {
      const perKit = (line.after?.amount ?? 0) / after.kits - (line.before?.amount ?? 0) / before.kits;
      return { ...line, perKit };
    })
    .filter((line) => line.perKit !== 0 || !sameFigures(line));
  return {
    from: before.kits,
    to: after.kits,
    perKit: after.perKit.total - before.perKit.total,
    lines: lines.sort((a, b) => Math.abs(b.perKit) - Math.abs(a.perKit)),
  };
}

/** Hours the machine runs for the whole job; sheets without a feed are not counted. */
export function machineHours(estimate: CostEstimate): number {
  return sum(estimate.cutting.map((sheet) => (sheet.times * (sheet.minutes?.machine ?? 0)) / 60));
}

/** Share of the area of all sheets that is plates. */
function wholeYield({ material }: CostEstimate): number {
  const area = sum(material.map((use) => use.sheetArea));
  return area === 0 ? 0 : sum(material.map((use) => use.yield * use.sheetArea)) / area;
}

function changedLines(before: readonly CostLine[], after: readonly CostLine[]): LineChange[] {
  return linesOfBoth(before, after)
    .filter((line) => !sameFigures(line))
    .sort((a, b) => Math.abs(b.difference) - Math.abs(a.difference));
}

function linesOfBoth(before: readonly CostLine[], after: readonly CostLine[]): LineChange[] {
  const old = mergedLines(before);
  const fresh = mergedLines(after);
  return [...new Set([...old.keys(), ...fresh.keys()])].flatMap((key): LineChange[] => {
    const [was, is] = [old.get(key), fresh.get(key)];
    const line = is ?? was;
    if (line === undefined) return [];
    return [
      {
        group: line.group,
        item: line.item,
        unit: line.unit,
        before: figures(was),
        after: figures(is),
        difference: (is?.amount ?? 0) - (was?.amount ?? 0),
      },
    ];
  });
}

/** Lines by what they are of; pieces at hand and bought pieces of an item differ by their rate. */
function mergedLines(lines: readonly CostLine[]): Map<string, CostLine> {
  const merged = new Map<string, CostLine>();
  for (const line of lines) {
    const item = line.comparedAs ?? line.item;
    const key = JSON.stringify([line.group, item, line.unit, line.rate === 0]);
    const before = merged.get(key);
    merged.set(key, before === undefined ? { ...line, item } : added(before, line));
  }
  return merged;
}

/** Without a rate where the two differ; a line that has no price adds nothing. */
function added({ rate, amount, ...a }: CostLine, b: CostLine): CostLine {
  const priced = amount !== undefined || b.amount !== undefined;
  return {
    ...a,
    // Lines give quantities to a millionth at most: a sum of them has no more decimals.
    quantity: toDecimals(a.quantity + b.quantity, 6),
    ...(rate === undefined || rate !== b.rate ? {} : { rate }),
    ...(priced ? { amount: (amount ?? 0) + (b.amount ?? 0) } : {}),
  };
}

function sameFigures({ before, after }: LineChange): boolean {
  return (
    before?.quantity === after?.quantity && before?.rate === after?.rate && before?.amount === after?.amount
  );
}

function figures(line: CostLine | undefined): LineFigures | undefined {
  if (line === undefined) return undefined;
  const { quantity, rate, amount } = line;
  return { quantity, ...(rate === undefined ? {} : { rate }), ...(amount === undefined ? {} : { amount }) };
}

function change(before: Money, after: Money): Omit<GroupChange, "group"> {
  return { before, after, difference: after - before };
}

function refuseTwoCurrencies(estimates: readonly CostEstimate[]): void {
  const currencies = [...new Set(estimates.map((estimate) => estimate.currency))];
  if (currencies.length > 1)
    throw new RangeError(`estimates in ${currencies.join(" and ")} cannot be compared`);
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
