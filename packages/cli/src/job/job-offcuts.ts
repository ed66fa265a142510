import { type LeastRest, largestRest, placedBoxes } from "@keelcut/nesting";
import type { MaterialUse } from "../cost/cost-estimate.js";
import { stockListId } from "../cost/nest-stock.js";
import { fileWord } from "../output/file-names.js";
import type { OutputFile } from "../output/folder.js";
import type { Job } from "./job.js";
import type { LaidOut } from "./laid-out.js";

/** Least rest worth keeping where the stock list names none, mm: common practice. */
const LEAST = { length: 300, width: 200 };

/**
 * The rests this job leaves, as a stock list for the next one: from every bought or whole sheet the largest rectangle that
 * holds no plate, plates taken as their bounding boxes grown by the clearance, so that it can be sawn off. Undefined when
 * none is large enough to keep and nothing at hand is used. Comments tell what to take out of the present list.
 */
export function jobOffcuts({ input, groups }: Job, material: readonly MaterialUse[]): OutputFile | undefined {
  const least = input.stock.offcutWorth ?? LEAST;
  const name = fileWord(input.parameters.name);
  const taken = new Set([...input.stock.sheets, ...input.stock.offcuts].map(({ id }) => id));
  const entries = groups.flatMap((group) =>
    offcutsOf(group, input.stock, least, () => freeId(`offcut-${name}`, taken)),
  );
  const changes = material.flatMap(({ sheets }) => sheets.flatMap((use) => changesOf(use, input.stock)));
  if (entries.length === 0 && changes.length === 0) return undefined;
  const lines = [
    "# Offcuts that this job leaves, for the next one. Measure them before you rely on them; then name this file as the",
    "# stock of the next job, with a line `extends:` and the path of the stock list, or copy them into that list.",
    ...changes.map((change) => `# ${change}`),
    "keelcut: 1",
    `currency: ${input.stock.currency}`,
    // Without the key where there are none: an empty list would take away those of the list that is extended.
    ...(entries.length === 0 ? [] : ["offcuts:", ...entries]),
  ];
  return { path: "offcuts.yaml", content: `${lines.join("\n")}\n` };
}

/** The first free id of a name and a number: offcuts of earlier jobs may still be in the list. */
function freeId(name: string, taken: Set<string>): string {
  for (let number = 1; ; number++) {
    const id = `${name}-${number}`;
    if (taken.has(id)) continue;
    taken.add(id);
    return id;
  }
}

/** What cutting this job changes in the stock list beside its rests. */
function changesOf(
  { stock, atHand, bought, used }: MaterialUse["sheets"][number],
  list: Job["input"]["stock"],
): string[] {
  const offcut = list.offcuts.some(({ id }) => id === stock);
  const left = bought + atHand - used;
  return [
    ...(atHand > 0 && offcut
      ? [`Used up: ${atHand} of the offcut ${stock}; lower its count or take it out.`]
      : []),
    ...(atHand > 0 && !offcut ? [`Used up: ${atHand} of ${stock} at hand; lower its atHand.`] : []),
    ...(left > 0 ? [`Bought beyond need: ${left} whole ${stock}; raise its atHand.`] : []),
  ];
}

function offcutsOf(
  { material, job, result }: LaidOut,
  list: Job["input"]["stock"],
  least: LeastRest,
  nextId: () => string,
): string[] {
  return result.sheets.flatMap((sheet, index): string[] => {
    const stock = job.stock.find((each) => each.id === sheet.stock);
    // A rest of a rest is not kept: only whole sheets, which are rectangles, are sawn again.
    if (stock === undefined || !list.sheets.some((entry) => entry.id === stockListId(stock.id))) return [];
    const plates = placedBoxes(sheet.placements, job.parts);
    const rest = largestRest(stock, plates, job.clearance, least);
    if (rest === undefined) return [];
    const length = Math.floor(rest.maxX - rest.minX);
    const width = Math.floor(rest.maxY - rest.minY);
    return [
      `  - id: ${nextId()}   # of layout ${index + 1} of ${material.material} ${material.thickness} mm`,
      `    material: ${JSON.stringify(material.material)}`,
      `    thickness: ${material.thickness}`,
      `    outline: [[0, 0], [${length}, 0], [${length}, ${width}], [0, ${width}]]`,
      `    count: ${sheet.times}`,
    ];
  });
}
