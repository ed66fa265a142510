import {
  changeText,
  type EstimateComparison,
  type GroupChange,
  type KitComparison,
  type KitRow,
  type KitStep,
  moneyText,
} from "../cost/index.js";
import { groupNames } from "./money-text.js";
import { counted, numberText, percentText } from "./number-text.js";
import { table } from "./table.js";
import { wrapped } from "./wrapped.js";

/** Lines named for one step or difference; the rest is summed. */
const MOST_LINES = 4;

/** Numbers of kits side by side: the job, one kit, and what makes each step. */
export function kitsText(comparison: KitComparison, width: number): string {
  const columns = [
    { title: comparison.currency },
    ...comparison.kits.map((kits) => ({ title: counted(kits, "kit"), right: true })),
  ];
  const rows = [
    ...comparison.job
      .filter((row) => row.what !== "lines without a price" || row.values.some((value) => value > 0))
      .map((row) => cells(row, comparison)),
    ["a kit:"],
    ...comparison.perKit.map((row) => cells(row, comparison)),
  ];
  const steps = comparison.steps.map((step) => stepText(step, comparison.exponent, width));
  return [
    table(columns, rows),
    ...(steps.length > 0 ? ["", "What changes the cost of a kit", ...steps] : []),
  ].join("\n");
}

/** Two estimates side by side, and the lines that differ. */
export function differenceText(comparison: EstimateComparison, names: readonly [string, string]): string {
  const { currency, exponent, groups, total, perKit, lines, unpriced } = comparison;
  const row = (name: string, change: Omit<GroupChange, "group">): string[] => [
    name,
    moneyText(change.before, exponent),
    moneyText(change.after, exponent),
    signed(change.difference, exponent),
  ];
  const columns = [{ title: currency }, ...[...names, "difference"].map((title) => ({ title, right: true }))];
  const rows = [
    ...groups
      .filter(({ before, after }) => before !== 0 || after !== 0)
      .map((change) => row(groupNames[change.group], change)),
    row("total", total),
    row("a kit", perKit),
    ...(unpriced.before + unpriced.after > 0
      ? [["lines without a price", numberText(unpriced.before), numberText(unpriced.after), ""]]
      : []),
  ];
  const changed = lines.map((line) => [
    `${groupNames[line.group]}: ${line.item}`,
    changeText(line),
    signed(line.difference, exponent),
  ]);
  const lineTable = table(
    [{ title: "line" }, { title: "change" }, { title: currency, right: true }],
    changed,
  );
  return [table(columns, rows), ...(changed.length > 0 ? ["", lineTable] : ["", "No line differs."])].join(
    "\n",
  );
}

function cells(row: KitRow, { exponent }: KitComparison): string[] {
  const group = Object.entries(groupNames).find(([name]) => name === row.what);
  const show = (value: number): string => {
    if (row.unit === "money") return moneyText(value, exponent);
    if (row.unit === "share") return percentText(value);
    return numberText(value, row.unit === "hours" ? 2 : 0);
  };
  return [`  ${group?.[1] ?? row.what}`, ...row.values.map(show)];
}

function stepText(step: KitStep, exponent: number, width: number): string {
  const named = step.lines.slice(0, MOST_LINES).map((line) => {
    return `${line.item} ${signed(Math.round(line.perKit), exponent)} (${changeText(line)})`;
  });
  const rest = step.lines.slice(MOST_LINES);
  const other = Math.round(rest.reduce((sum, line) => sum + line.perKit, 0));
  const more = rest.length > 0 ? [`${counted(rest.length, "other line")} ${signed(other, exponent)}`] : [];
  const head = `${step.from} -> ${step.to} kits: ${signed(step.perKit, exponent)}`;
  return `  ${wrapped(`${head}: ${[...named, ...more].join("; ")}`, width - 2, "    ")}`;
}

function signed(money: number, exponent: number): string {
  return `${money > 0 ? "+" : ""}${moneyText(money, exponent)}`;
}
