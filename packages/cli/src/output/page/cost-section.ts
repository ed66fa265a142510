import { COST_GROUPS, type CostEstimate, type CostLine } from "../../cost/cost-estimate.js";
import { changeText, compareKits, type KitStep } from "../../cost/index.js";
import { GROUP_NAMES, kitsChart, MOST_BARS, moneyChart } from "./cost-charts.js";
import { costText, costWithCurrency } from "./cost-text.js";
import type { KeyFigure } from "./header-section.js";
import { html, type Markup } from "./html.js";
import { countText, numberText, percentText, timeText } from "./number-text.js";
import { table } from "./table.js";

/** The seller's figures for the head of the page. */
export function costFigures(estimate: CostEstimate): readonly KeyFigure[] {
  const { totals, perKit } = estimate;
  const lacking = totals.unpriced > 0 ? `${countText(totals.unpriced, "line")} without a price` : undefined;
  const tax = totals.tax > 0 ? "tax included" : "no tax";
  const timed = estimate.cutting.filter((sheet) => sheet.minutes !== undefined);
  const minutes = timed.reduce((sum, sheet) => sum + (sheet.minutes?.machine ?? 0) * sheet.times, 0);
  const untimed = estimate.cutting.length - timed.length;
  const missing = untimed > 0 ? `${countText(untimed, "layout")} without a feed` : "machine time, all sheets";
  return [
    { name: "Cost a kit", value: costWithCurrency(perKit.total, estimate), more: lacking ?? tax },
    { name: "Cutting time", value: timeText(minutes * 60), more: missing },
  ];
}

/** What the job costs, line by line, where the money goes, and what the figures stand on. */
export function costSection(estimate: CostEstimate, batches: readonly CostEstimate[]): Markup {
  const { totals, perKit } = estimate;
  return html`<section id="cost" aria-labelledby="cost-h"><h2 id="cost-h">Cost</h2>
<p>${countText(estimate.kits, "kit")} from ${estimate.shop}: <strong>${costWithCurrency(totals.total, estimate)}</strong> in all, <strong>${costWithCurrency(perKit.total, estimate)}</strong> a kit.${sellingText(estimate)}${
    totals.unpriced > 0 &&
    html` <strong>${countText(totals.unpriced, "line")} without a price ${totals.unpriced === 1 ? "is" : "are"} missing from the totals.</strong>`
  }</p>
<div class="charts">
<figure><figcaption>Where the money of one kit goes, ${estimate.currency}</figcaption>${moneyChart(estimate)}</figure>
${
  batches.length > 1 &&
  html`<figure><figcaption>Cost of one kit by number of kits, ${estimate.currency}</figcaption>${kitsChart(batches)}${batches.length <= MOST_BARS && groupLegend(batches)}</figure>`
}</div>
${groupTable(estimate)}${batches.length > 1 && batchTable(batches)}${cuttingTable(estimate)}${lineTable(estimate)}${assumptionTable(estimate)}</section>
`;
}

function sellingText(estimate: CostEstimate): Markup | undefined {
  const { sellingPrice, marginPercent } = estimate.perKit;
  if (sellingPrice === undefined || marginPercent === undefined) return undefined;
  return html` Selling price at ${numberText(marginPercent)}&#160;% margin: <strong>${costWithCurrency(sellingPrice, estimate)}</strong> a kit.`;
}

function groupLegend(batches: readonly CostEstimate[]): Markup {
  const groups = COST_GROUPS.filter((group) => batches.some((e) => e.perKit.groups[group] > 0));
  return html`<ul class="legend" aria-label="Colours of the cost groups">${groups.map((group) => html`<li><span class="swatch cost-${group}"></span>${GROUP_NAMES[group]}</li>`)}</ul>`;
}

function groupTable(estimate: CostEstimate): Markup {
  const { totals, perKit } = estimate;
  const rows = COST_GROUPS.filter((group) => estimate.lines.some((line) => line.group === group));
  return table({
    caption: `Totals by group, ${estimate.currency}`,
    columns: [
      { heading: "Group" },
      { heading: `${countText(estimate.kits, "kit")}`, numeric: true },
      { heading: "A kit", numeric: true },
      { heading: "Share", numeric: true },
    ],
    rows: rows.map((group) => [
      GROUP_NAMES[group],
      costText(totals.groups[group], estimate),
      costText(perKit.groups[group], estimate),
      totals.total > 0 ? percentText(totals.groups[group] / totals.total) : undefined,
    ]),
    footer: ["Total", costText(totals.total, estimate), costText(perKit.total, estimate), undefined],
  });
}

/** Numbers of kits side by side, and which lines make the step from one to the next. */
function batchTable(batches: readonly CostEstimate[]): Markup {
  const { job, steps, currency } = compareKits(batches);
  const figure = (what: string, index: number): number =>
    job.find((row) => row.what === what)?.values[index] ?? 0;
  return table({
    caption: `Different numbers of kits, ${currency}`,
    columns: [
      { heading: "Kits", numeric: true },
      { heading: "Sheets", numeric: true },
      { heading: "Yield", numeric: true },
      { heading: "Machine, h", numeric: true },
      { heading: "Total", numeric: true },
      { heading: "A kit", numeric: true },
      { heading: "What changes a kit most" },
    ],
    rows: batches.map((e, index) => [
      numberText(e.kits),
      numberText(figure("sheets cut", index)),
      percentText(figure("yield", index)),
      numberText(figure("machine hours", index), 1),
      costText(e.totals.total, e),
      costText(e.perKit.total, e),
      stepText(steps[index - 1], e),
    ]),
    stacks: true,
  });
}

/** Lines named for one step; all of them are in the table of steps that `cost --out` writes. */
const MOST_STEP_LINES = 2;

function stepText(step: KitStep | undefined, estimate: CostEstimate): string | undefined {
  return step?.lines
    .slice(0, MOST_STEP_LINES)
    .map((line) => {
      const money = Math.round(line.perKit);
      return `${line.item}, ${changeText(line)}: ${money > 0 ? "+" : ""}${costText(money, estimate)}`;
    })
    .join("; ");
}

function cuttingTable(estimate: CostEstimate): Markup | false {
  if (estimate.cutting.length === 0) return false;
  return table({
    caption: "Cutting, one sheet of each layout",
    columns: [
      { heading: "Layout" },
      { heading: "Times", numeric: true },
      { heading: "Plates", numeric: true },
      { heading: "Starts", numeric: true },
      { heading: "Cut, m", numeric: true },
      { heading: "Travel, m", numeric: true },
      { heading: "Machine, min", numeric: true },
    ],
    rows: estimate.cutting.map((sheet) => [
      `${sheet.material} ${numberText(sheet.thickness)} mm, layout ${sheet.layout} on ${sheet.stock}`,
      numberText(sheet.times),
      numberText(sheet.plates),
      numberText(sheet.starts),
      numberText(sheet.metres.cut),
      numberText(sheet.metres.travel),
      sheet.minutes === undefined ? "no feed" : numberText(sheet.minutes.machine, 1),
    ]),
    stacks: true,
  });
}

function lineTable(estimate: CostEstimate): Markup {
  return table({
    caption: `Every line: quantity × rate, ${estimate.currency}`,
    columns: [
      { heading: "Item" },
      { heading: "Group" },
      { heading: "Quantity", numeric: true },
      { heading: "Rate", numeric: true },
      { heading: "Amount", numeric: true },
      { heading: "From" },
    ],
    rows: estimate.lines.map((line) => [
      line.item,
      GROUP_NAMES[line.group],
      `${numberText(line.quantity, WHOLE)}\u00A0${line.unit}`,
      line.rate === undefined ? "no price" : rateText(line.rate),
      amountText(line, estimate),
      line.from,
    ]),
    footer: ["Total", undefined, undefined, undefined, costText(estimate.totals.total, estimate), undefined],
    stacks: true,
  });
}

/** The most decimal places that a quantity or a rate has: those of a share of tax. */
const WHOLE = 10;

/** At least the two places of a price, more where the input has more: the printed factors give the printed amount. */
function rateText(rate: number): string {
  const text = numberText(rate, WHOLE);
  const [, fraction = ""] = text.split(".");
  return fraction.length >= 2 ? text : `${text.split(".")[0]}.${fraction.padEnd(2, "0")}`;
}

function amountText(line: CostLine, estimate: CostEstimate): string {
  return line.amount === undefined ? "not counted" : costText(line.amount, estimate);
}

function assumptionTable(estimate: CostEstimate): Markup | false {
  if (estimate.assumptions.length === 0) return false;
  return table({
    caption: "What the figures stand on",
    columns: [{ heading: "Assumption" }, { heading: "Value" }, { heading: "Stated" }, { heading: "Source" }],
    rows: estimate.assumptions.map(({ what, value, source, defaulted }) => [
      what,
      value,
      defaulted ? "no, a default" : "yes",
      source,
    ]),
    stacks: true,
  });
}
