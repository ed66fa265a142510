import { moneyText } from "../cost/index.js";
import { painted } from "../screen/colour.js";
import { counted, numberText } from "../screen/number-text.js";
import { type Screen, textWidth } from "../screen/screen.js";
import { table } from "../screen/table.js";
import { wrapped } from "../screen/wrapped.js";
import { type Comparison, ENDED_EARLY } from "./comparison.js";
import type { CostFigures, Figures, Variant } from "./variant.js";

/** The comparison as a table, and below it why variants do not work, each reason once. */
export function comparisonText(comparison: Comparison, screen: Screen): string {
  const { varied, variants } = comparison;
  const currency = variants.find(({ figures }) => figures?.cost)?.figures?.cost?.currency;
  const reasons = reasonGroups(variants);
  const columns = [
    ...varied.map(({ path }) => ({ title: path, right: true })),
    { title: "fits" },
    { title: "plates", right: true },
    { title: "mass, kg", right: true },
    ...materialTitles(variants).map((title) => ({ title: `${title}, sheets`, right: true })),
    ...(currency === undefined ? [] : [{ title: `${currency} a kit`, right: true }]),
  ];
  const titles = materialTitles(variants);
  const rows = variants.map((variant) => [
    ...variant.values,
    ...fitCell(variant, reasons),
    ...figureCells(variant.figures, titles, currency !== undefined),
  ]);
  const width = textWidth(screen);
  const why = reasons.map(({ letter, text }) => wrapped(`(${letter}) ${text}`, width, "    "));
  const fitting = variants.filter(({ fits }) => fits).length;
  return [
    table(columns, rows),
    ...(why.length > 0 ? ["", ...why] : []),
    "",
    `${fitting} of ${counted(variants.length, "variant")} fit.`,
    ...(comparison.stoppedEarly ? [ENDED_EARLY] : []),
    ...comparison.basis.map((line) => painted(wrapped(line, width, "  "), "dim", screen.colour)),
  ].join("\n");
}

interface ReasonGroup {
  readonly letter: string;
  readonly text: string;
}

function reasonGroups(variants: readonly Variant[]): readonly ReasonGroup[] {
  const texts = new Set(variants.flatMap(({ reason }) => (reason === undefined ? [] : [reasonText(reason)])));
  return [...texts].map((text, index) => ({ letter: String(index + 1), text }));
}

function reasonText({ place, message }: NonNullable<Variant["reason"]>): string {
  return `${place}: ${message}`;
}

function fitCell({ fits, reason, figures }: Variant, reasons: readonly ReasonGroup[]): string[] {
  if (fits) return [figures?.warnings ? `yes, ${counted(figures.warnings, "warning")}` : "yes"];
  const found = reason && reasons.find(({ text }) => text === reasonText(reason));
  return [`no (${found?.letter ?? "?"})`];
}

/** Materials of all variants, in the order they come. */
export function materialTitles(variants: readonly Variant[]): readonly string[] {
  const all = variants.flatMap(({ figures }) => figures?.materials ?? []);
  return [...new Set(all.map(({ material, thickness }) => `${material} ${thickness}`))];
}

function figureCells(figures: Figures | undefined, titles: readonly string[], priced: boolean): string[] {
  if (figures === undefined) return [];
  return [
    String(figures.plates),
    numberText(figures.mass / 1000, 2),
    ...titles.map((title) => sheetsText(figures, title)),
    ...(priced ? [figures.cost === undefined ? "-" : costText(figures.cost)] : []),
  ];
}

/** `362.12`, or `362.12 + 2 unpriced` where lines lack a price: such a figure is not to be compared. */
export function costText({ perKit, exponent, unpriced }: CostFigures): string {
  return moneyText(perKit, exponent) + (unpriced === 0 ? "" : ` + ${unpriced} unpriced`);
}

/** `2`, or `1..2` where a search may find fewer. */
export function sheetsText({ materials }: Figures, title: string): string {
  const found = materials.find(({ material, thickness }) => `${material} ${thickness}` === title);
  if (found === undefined) return "";
  const { leastSheets, sheets } = found;
  if (leastSheets === undefined) return "-";
  if (sheets === undefined) return `${leastSheets}+`;
  return sheets === leastSheets ? String(sheets) : `${leastSheets}..${sheets}`;
}
