import type { CostEstimate } from "../../cost/cost-estimate.js";
import { picture } from "./canvas.js";
import { costText } from "./cost-text.js";
import { html, type Markup } from "./html.js";
import { numberText } from "./number-text.js";
import { coordinate } from "./path-data.js";

const WIDTH = 560;
const HEIGHT = 330;
const LEFT = 78;
const RIGHT = 16;
const TOP = 20;
const BASE = HEIGHT - 52;

/** Cost of one kit over many kit counts as a stepped line, with a mark wherever a further sheet, pack or bar is needed. */
export function kitsLine(estimates: readonly CostEstimate[]): Markup {
  const first = estimates[0];
  const last = estimates.at(-1);
  if (first === undefined || last === undefined) throw new RangeError("a chart of no kit count");
  const highest = Math.max(...estimates.map((e) => e.perKit.total), 1);
  // Counts spread over orders of magnitude, and the first few matter most.
  const span = Math.log(last.kits / first.kits) || 1;
  const x = (kits: number): number => LEFT + (Math.log(kits / first.kits) / span) * (WIDTH - LEFT - RIGHT);
  const y = (money: number): number => BASE - (money / highest) * (BASE - TOP);

  const line = estimates
    .map(
      (e, i) =>
        `${i === 0 ? "M" : `H${coordinate(x(e.kits))}V`}${i === 0 ? `${coordinate(x(e.kits))} ` : ""}${coordinate(y(e.perKit.total))}`,
    )
    .join("");
  const marks = estimates
    .filter((e, i) => i > 0 && sheetsOf(e) > sheetsOf(estimates[i - 1] ?? e))
    .map((e) => `M${coordinate(x(e.kits))} ${BASE}V${BASE - 10}`)
    .join("");
  const packs = estimates
    .filter((e, i) => i > 0 && packsOf(e) > packsOf(estimates[i - 1] ?? e))
    .map((e) => `M${coordinate(x(e.kits))} ${BASE + 2}v6`)
    .join("");
  const levels = [0.25, 0.5, 0.75, 1].map((share) => {
    const money = Math.round(highest * share);
    const level = coordinate(y(money));
    return html`<path class="grid" d="M${LEFT} ${level}H${WIDTH - RIGHT}"/><text x="${LEFT - 8}" y="${level}" dy="0.36em" text-anchor="end">${costText(money, first)}</text>`;
  });
  const counts = [...new Set([first.kits, ...roundCounts(first.kits, last.kits), last.kits])].map(
    (kits) =>
      html`<text x="${coordinate(x(kits))}" y="${BASE + 24}" text-anchor="middle">${numberText(kits)}</text>`,
  );
  return picture(
    { width: WIDTH, height: HEIGHT },
    {
      id: "kits-chart",
      kind: "chart",
      title: `Cost of one kit by number of kits, ${first.currency}`,
      description: `From ${costText(first.perKit.total, first)} for ${first.kits} to ${costText(last.perKit.total, last)} for ${last.kits} kits. Marks above the base line: a further sheet is needed; below: a further pack or bar.`,
    },
    html`${levels}<path class="base" d="M${LEFT} ${BASE}H${WIDTH - RIGHT}"/><path class="sheet-mark" d="${marks}"/><path class="sheet-mark" d="${packs}"/><path class="cost-line" d="${line}"/>${counts}<text x="${(LEFT + WIDTH - RIGHT) / 2}" y="${HEIGHT - 6}" text-anchor="middle">kits in one order (logarithmic); marks: a further sheet above, pack or bar below</text>`,
  );
}

function sheetsOf(estimate: CostEstimate): number {
  return estimate.material.reduce((sum, material) => sum + material.sheetCount, 0);
}

/** Packs of hardware with more than one piece, and bars, that are bought. */
function packsOf(estimate: CostEstimate): number {
  return estimate.lines
    .filter(
      ({ group, unit, rate }) =>
        rate !== 0 && (group === "length" || (group === "hardware" && unit !== "piece")),
    )
    .reduce((sum, { quantity }) => sum + quantity, 0);
}

/** 1, 2, 5, 10, ... strictly between, thinned so that their labels keep clear of each other and of the ends. */
function roundCounts(from: number, to: number): readonly number[] {
  const counts: number[] = [];
  for (let power = 1; power <= to; power *= 10) {
    for (const step of [1, 2, 5])
      if (step * power > from * 1.5 && step * power < to / 1.5) counts.push(step * power);
  }
  return counts;
}
