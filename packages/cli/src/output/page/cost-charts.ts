import { COST_GROUPS, type CostEstimate, type CostGroup } from "../../cost/cost-estimate.js";
import { picture } from "./canvas.js";
import { costText } from "./cost-text.js";
import { html, type Markup } from "./html.js";
import { kitsLine } from "./kits-line.js";
import { numberText } from "./number-text.js";
import { coordinate } from "./path-data.js";

export const GROUP_NAMES: Readonly<Record<CostGroup, string>> = {
  sheet: "Sheets",
  cutting: "Cutting",
  handling: "Handling",
  setup: "Setup",
  minimum: "Minimum charge",
  hardware: "Hardware",
  length: "Rod and pipe",
  packing: "Packing",
  freight: "Freight",
  tax: "Tax",
};

const WIDTH = 560;

/** Where the money of one kit goes: one bar a group, longest first, each with its amount and share. */
export function moneyChart(estimate: CostEstimate): Markup {
  const groups = COST_GROUPS.map((group) => ({ group, money: estimate.perKit.groups[group] }))
    .filter(({ money }) => money > 0)
    .sort((a, b) => b.money - a.money);
  const total = groups.reduce((sum, { money }) => sum + money, 0);
  const largest = groups[0]?.money ?? 1;
  const step = 40;
  const left = 140;
  const room = 230;
  const bars = groups.map(({ group, money }, i) => {
    const y = 8 + i * step;
    const length = (money / largest) * room;
    const share = numberText((money / total) * 100, 1);
    return html`<text x="${left - 10}" y="${y + 15}" dy="0.36em" text-anchor="end">${GROUP_NAMES[group]}</text><rect class="cost-${group}" x="${left}" y="${y}" width="${coordinate(length)}" height="30"/><text class="amount" x="${coordinate(left + length + 8)}" y="${y + 15}" dy="0.36em">${costText(money, estimate)} · ${share} %</text>`;
  });
  return picture(
    { width: WIDTH, height: 16 + groups.length * step },
    {
      id: "money-chart",
      kind: "chart",
      title: `Where the money of one kit goes, ${estimate.currency}`,
      description: groups
        .map(({ group, money }) => `${GROUP_NAMES[group]} ${costText(money, estimate)}`)
        .join("; "),
    },
    bars,
  );
}

/** More kit counts than this are drawn as a line. */
export const MOST_BARS = 8;

/** Cost of one kit at several kit counts: stacked bars for a few, a stepped line for many. */
export function kitsChart(estimates: readonly CostEstimate[]): Markup {
  return estimates.length > MOST_BARS ? kitsLine(estimates) : kitsBars(estimates);
}

/** Stacked by group in a fixed order. */
function kitsBars(estimates: readonly CostEstimate[]): Markup {
  const first = estimates[0];
  if (first === undefined) throw new RangeError("a chart of no kit count");
  const stackOf = (e: CostEstimate): number =>
    COST_GROUPS.reduce((sum, g) => sum + Math.max(0, e.perKit.groups[g]), 0);
  const highest = Math.max(...estimates.map(stackOf), 1);
  const height = 330;
  const base = height - 52;
  const room = base - 40;
  const slot = WIDTH / estimates.length;
  const bar = Math.min(84, slot * 0.62);
  const bars = estimates.map((estimate, i) => {
    const x = coordinate(slot * (i + 0.5) - bar / 2);
    let y = base;
    const pieces = COST_GROUPS.filter((group) => estimate.perKit.groups[group] > 0).map((group) => {
      const money = estimate.perKit.groups[group];
      const part = (money / highest) * room;
      y -= part;
      return html`<rect class="cost-${group}" x="${x}" y="${coordinate(y)}" width="${coordinate(bar)}" height="${coordinate(part)}"><title>${GROUP_NAMES[group]}: ${costText(money, estimate)}</title></rect>`;
    });
    const middle = coordinate(slot * (i + 0.5));
    return html`${pieces}<text class="amount" x="${middle}" y="${coordinate(y - 10)}" text-anchor="middle">${costText(estimate.perKit.total, estimate)}</text><text x="${middle}" y="${base + 24}" text-anchor="middle">${numberText(estimate.kits)}</text>`;
  });
  return picture(
    { width: WIDTH, height },
    {
      id: "kits-chart",
      kind: "chart",
      title: `Cost of one kit by number of kits, ${first.currency}`,
      description: estimates.map((e) => `${e.kits} kits: ${costText(e.perKit.total, e)} each`).join("; "),
    },
    html`${bars}<path class="base" d="M0 ${base}H${WIDTH}"/><text x="${WIDTH / 2}" y="${height - 6}" text-anchor="middle">kits in one order</text>`,
  );
}
