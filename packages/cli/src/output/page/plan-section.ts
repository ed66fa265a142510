import type { BatchPlan } from "@keelcut/nesting";
import { html, type Markup } from "./html.js";
import type { PageModel, PageNest } from "./model.js";
import { numberText, percentText } from "./number-text.js";
import { type NumberedPlate, plateNamed } from "./numbering.js";
import { table } from "./table.js";

interface Planned {
  readonly nest: PageNest;
  readonly plan: BatchPlan;
}

/** How many sheets of how many layouts the kits take, how far from the best that can be, and what fewer layouts cost. */
export function planSection(model: PageModel, plates: readonly NumberedPlate[]): Markup | undefined {
  const planned = model.nests.flatMap((nest): Planned[] => (nest.plan ? [{ nest, plan: nest.plan }] : []));
  if (planned.length === 0) return undefined;
  return html`<section id="plan" aria-labelledby="plan-h"><h2 id="plan-h">Plan</h2>
${overview(planned)}${bounds(planned)}${trade(planned)}${surplus(planned, plates)}</section>
`;
}

function leavesRests(planned: readonly Planned[]): boolean {
  return planned.some(({ plan }) => plan.restWorth > 0 || plan.trade.some((row) => row.restWorth > 0));
}

function overview(planned: readonly Planned[]): Markup {
  const rests = leavesRests(planned);
  return table({
    caption: "Sheets and layouts for all kits",
    columns: [
      { heading: "Material" },
      { heading: "Sheets", numeric: true },
      { heading: "At least", numeric: true },
      { heading: "Different layouts", numeric: true },
      { heading: "Cost", numeric: true },
      { heading: "At least", numeric: true },
      { heading: "Above it", numeric: true },
      ...(rests ? [{ heading: "Rests worth", numeric: true }] : []),
      { heading: "Used", numeric: true },
    ],
    rows: planned.map(({ nest, plan }) => [
      materialText(nest),
      numberText(plan.sheetCount),
      numberText(plan.leastSheets.value),
      numberText(plan.layoutCount),
      numberText(plan.cost),
      numberText(plan.leastCost.value),
      gapText(plan),
      ...(rests ? [numberText(plan.restWorth, 2)] : []),
      percentText(plan.yield),
    ]),
  });
}

/** The share by which the cost exceeds its bound; only a plan that meets the bound is called the best. */
function gapText({ cost, leastCost, optimal, unplaced }: BatchPlan): string {
  if (unplaced.length > 0) return "not known: not every plate has a place";
  if (optimal) return "none: no plan is cheaper";
  if (cost === 0) return "none: by the prices given it costs nothing";
  return leastCost.value > 0 ? percentText(cost / leastCost.value - 1) : "not known";
}

function bounds(planned: readonly Planned[]): Markup {
  const rests = leavesRests(planned)
    ? " The rests kept are worth what stands beside it; of two plans the one with less cost after that is taken."
    : "";
  return html`<p>Cost is that of the stock and of the shop's handling of sheets and layouts.${rests} No plan can need less than the bound, which counts:</p>
<ul>${planned.map(({ nest, plan }) => html`<li>${materialText(nest)}: ${plan.leastCost.because}.</li>`)}</ul>
`;
}

function trade(planned: readonly Planned[]): Markup | undefined {
  const rows = planned.flatMap(({ nest, plan }) =>
    plan.trade.length < 2
      ? []
      : plan.trade.map((row) => ({ nest, row, chosen: isChosen(plan, row.layouts) })),
  );
  if (rows.length === 0) return undefined;
  const rests = leavesRests(planned);
  return table({
    caption: "Fewer layouts against more sheets",
    columns: [
      { heading: "Material" },
      { heading: "Different layouts", numeric: true },
      { heading: "Sheets", numeric: true },
      { heading: "Cost", numeric: true },
      ...(rests ? [{ heading: "Rests worth", numeric: true }] : []),
      { heading: "" },
    ],
    rows: rows.map(({ nest, row, chosen }) => [
      materialText(nest),
      numberText(row.layouts),
      numberText(row.sheets),
      numberText(row.cost),
      ...(rests ? [numberText(row.restWorth, 2)] : []),
      chosen ? "this plan" : "",
    ]),
  });
}

function isChosen(plan: BatchPlan, layouts: number): boolean {
  return layouts === plan.layoutCount;
}

function surplus(planned: readonly Planned[], plates: readonly NumberedPlate[]): Markup | undefined {
  const rows = planned.flatMap(({ plan }) => plan.surplus);
  if (rows.length === 0) return undefined;
  return table({
    caption: "Spare plates that come out beside",
    columns: [{ heading: "Plate" }, { heading: "Copies", numeric: true }],
    rows: rows.map(({ part, count }) => [plateNamed(plates, part).plate.name, numberText(count)]),
  });
}

function materialText({ material, thickness }: PageNest): string {
  return `${material} ${numberText(thickness)}\u00A0mm`;
}
