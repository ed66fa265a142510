import type { Finding } from "@keelcut/geometry";
import { type BatchPlan, type NestResult, nest, verify } from "@keelcut/nesting";
import { counted, percentText } from "../screen/number-text.js";
import type { Progress } from "../screen/progress.js";
import { planned } from "./batch.js";
import type { SheetGroup } from "./sheet-groups.js";

/** A group with its layout. */
export interface LaidOut extends SheetGroup {
  readonly result: NestResult;
  /** How the layout was chosen, when it was planned for many kits. */
  readonly plan?: BatchPlan;
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
 * @throws LayoutFault when the check refuses a layout: such a layout must never be written
 */
export async function layOutGroups(
  counts: readonly (readonly SheetGroup[])[],
  progress: Progress,
  signal: AbortSignal,
): Promise<LaidOut[][]> {
  const done: LaidOut[][] = counts.map(() => []);
  for (const [index, { material }] of (counts[0] ?? []).entries()) {
    progress.stage(`laying out ${material.material} ${material.thickness} mm`);
    const control = {
      signal,
      onProgress: (best: NestResult): void => progress.detail(layoutText(best)),
    };
    const same = counts.flatMap((groups) => groups[index] ?? []);
    for (const [count, laid] of (await layOut(same, control)).entries()) {
      refuseFaulty(laid);
      done[count]?.push(laid);
    }
  }
  return done;
}

/** One kit is packed as it is; several are planned, all from one search for layouts. */
async function layOut(
  groups: readonly SheetGroup[],
  control: { readonly signal: AbortSignal; readonly onProgress: (best: NestResult) => void },
): Promise<LaidOut[]> {
  const plans = await planned(
    groups.flatMap(({ job, batch }) => (batch === undefined ? [] : [{ job, batch }])),
    control,
  );
  const laid: LaidOut[] = [];
  for (const group of groups) {
    const found = group.batch === undefined ? { result: await nest(group.job, control) } : plans.shift();
    if (found === undefined) throw new RangeError("a group without a plan");
    laid.push({ ...group, ...found });
  }
  return laid;
}

function refuseFaulty({ job, material, result }: LaidOut): void {
  const [violation] = verify(job, result);
  if (violation === undefined) return;
  throw new LayoutFault(
    `the layout of ${material.material} ${material.thickness} mm is wrong: ${violation.message}`,
  );
}

/** Plates that did not fit, as findings. */
export function unplacedFindings(groups: readonly LaidOut[]): Finding[] {
  return groups.flatMap(({ material, result }) =>
    result.unplaced.map(
      (part): Finding => ({
        id: `nest.${part.reason}`,
        severity: "error",
        place: part.part,
        message: `${part.message} (${material.material} ${material.thickness} mm, ${counted(part.count, "copy", "copies")})`,
        why: "a kit without this plate is no kit",
        source: "stock list",
      }),
    ),
  );
}

/** `2 sheets, 61 % used` */
function layoutText(result: NestResult): string {
  const sheets = result.sheets.reduce((sum, sheet) => sum + sheet.times, 0);
  return `${counted(sheets, "sheet")}, ${percentText(result.yield)} used`;
}
