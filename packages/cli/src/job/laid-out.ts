import { type Finding, regionArea, signedArea } from "@keelcut/geometry";
import {
  type BatchPlan,
  type NestControl,
  type NestJob,
  type NestResult,
  nest,
  type Sheet,
  verify,
} from "@keelcut/nesting";
import { counted, percentText } from "../screen/number-text.js";
import type { Progress } from "../screen/progress.js";
import { planned } from "./batch.js";
import { type EarlierPlan, resumed, usedAgain } from "./earlier-plan.js";
import type { SheetGroup } from "./sheet-groups.js";

/** A group with its layout. */
export interface LaidOut extends SheetGroup {
  readonly result: NestResult;
  /** How the layout was chosen, when it was planned for many kits. */
  readonly plan?: BatchPlan;
  /** What became of layouts of an earlier plan. */
  readonly notes?: readonly Finding[];
}

/** A layout that the independent check refuses: a defect of this program, never of the input. */
class LayoutFault extends Error {
  override readonly name = "LayoutFault";
}

/**
 * Lays the plates of each material on its stock, for several numbers of kits side by side, and proves each layout by the
 * independent check.
 *
 * @param counts the groups of each number of kits: the same materials in the same order
 * @param earlier a plan to go on from: its layouts that still serve are used where they are better
 * @throws LayoutFault when the check refuses a layout: such a layout must never be written
 */
export async function layOutGroups(
  counts: readonly (readonly SheetGroup[])[],
  progress: Progress,
  signal: AbortSignal,
  earlier?: EarlierPlan,
): Promise<LaidOut[][]> {
  const done: LaidOut[][] = counts.map(() => []);
  for (const [index, { material }] of (counts[0] ?? []).entries()) {
    progress.stage(`laying out ${material.material} ${material.thickness} mm`);
    const control = {
      signal,
      onProgress: (best: NestResult): void => progress.detail(layoutText(best)),
    };
    const same = counts.flatMap((groups) => groups[index] ?? []);
    const [first] = same;
    const again = earlier && first && resumed(earlier, material, first.job);
    for (const [count, laid] of (await layOut(same, again?.sheets ?? [], control)).entries()) {
      refuseFaulty(laid);
      const used = earlier && again ? [usedAgain(earlier, again, laid)] : [];
      done[count]?.push({ ...laid, notes: [...used, ...(again?.findings ?? [])] });
    }
  }
  return done;
}

/** What needs no plan, as most single kits, is packed as it is; the rest is planned, all from one search for layouts. */
async function layOut(
  groups: readonly SheetGroup[],
  known: readonly Sheet[],
  control: { readonly signal: AbortSignal; readonly onProgress: (best: NestResult) => void },
): Promise<LaidOut[]> {
  const plans = await planned(
    groups.flatMap(({ job, batch }) => (batch === undefined ? [] : [{ job, batch: { ...batch, known } }])),
    control,
  );
  const laid: LaidOut[] = [];
  for (const group of groups) {
    const found =
      group.batch === undefined ? { result: await laidOnce(group.job, known, control) } : plans.shift();
    if (found === undefined) throw new RangeError("a group without a plan");
    laid.push({ ...group, ...found });
  }
  return laid;
}

/** One kit, by the search or as it was before where that is complete and no dearer. */
async function laidOnce(job: NestJob, known: readonly Sheet[], control: NestControl): Promise<NestResult> {
  const result = await nest(job, control);
  const before = sameAgain(job, known);
  return before !== undefined && (result.unplaced.length > 0 || before.cost <= result.cost) ? before : result;
}

/** The sheets as a result for just this job; undefined when they make more, less, or on more stock than there is. */
function sameAgain(job: NestJob, sheets: readonly Sheet[]): NestResult | undefined {
  if (sheets.length === 0) return undefined;
  const price = new Map(job.stock.map((stock) => [stock.id, stock]));
  const plates = new Map(job.parts.map((part) => [part.id, regionArea(part.region)]));
  let [cost, plateArea, sheetArea] = [0, 0, 0];
  for (const { stock, times, placements } of sheets) {
    cost += times * (price.get(stock)?.cost ?? 0);
    sheetArea += times * signedArea(price.get(stock)?.outline ?? []);
    for (const { part } of placements) plateArea += times * (plates.get(part) ?? 0);
  }
  const result = { sheets, unplaced: [], cost, yield: plateArea / sheetArea, steps: 0 };
  return verify(job, result).length === 0 ? result : undefined;
}

function refuseFaulty({ job, material, result }: LaidOut): void {
  const [violation] = verify(job, result);
  if (violation === undefined) return;
  throw new LayoutFault(
    `the layout of ${material.material} ${material.thickness} mm is wrong: ${violation.message}`,
  );
}

/** Plates that did not fit, limits that were not kept, and earlier layouts that were not used again. */
export function layoutFindings(groups: readonly LaidOut[]): Finding[] {
  return groups.flatMap(({ material, result, plan, batch, notes = [] }) => [
    ...(plan === undefined || plan.withinMaxLayouts
      ? []
      : [tooManyLayouts(material, plan.layoutCount, batch?.maxLayouts)]),
    ...result.unplaced.map(
      (part): Finding => ({
        id: `nest.${part.reason}`,
        severity: "error",
        place: part.part,
        message: `${part.message} (${material.material} ${material.thickness} mm, ${counted(part.count, "copy", "copies")})`,
        why: "a kit without this plate is no kit",
        source: "stock list",
      }),
    ),
    ...notes,
  ]);
}

function tooManyLayouts(
  { material, thickness }: LaidOut["material"],
  layouts: number,
  most: number | undefined,
): Finding {
  return {
    id: "nest.max-layouts",
    severity: "warning",
    place: `${material} ${thickness} mm`,
    message: `${counted(layouts, "layout")}, more than the ${most ?? "limit"} allowed: no plan with fewer was found; allow more, a surplus, or a longer search`,
    ...(most !== undefined && { measured: layouts, limit: most }),
    why: "every layout is set up and checked by itself",
    source: "--max-layouts",
  };
}

/** `2 sheets, 61 % used` */
function layoutText(result: NestResult): string {
  const sheets = result.sheets.reduce((sum, sheet) => sum + sheet.times, 0);
  return `${counted(sheets, "sheet")}, ${percentText(result.yield)} used`;
}
