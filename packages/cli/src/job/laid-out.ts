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
 * Lays each group on its stock, and proves each layout by the independent check.
 *
 * @throws LayoutFault when the check refuses a layout: such a layout must never be written
 */
export async function layOutGroups(
  groups: readonly SheetGroup[],
  progress: Progress,
  signal: AbortSignal,
): Promise<LaidOut[]> {
  const done: LaidOut[] = [];
  for (const group of groups) {
    const { material, thickness } = group.material;
    progress.stage(`laying out ${material} ${thickness} mm`);
    const control = {
      signal,
      onProgress: (best: NestResult): void => progress.detail(layoutText(best)),
    };
    const { job, batch } = group;
    const laid = batch ? await planned(job, batch, control) : { result: await nest(job, control) };
    const [violation] = verify(job, laid.result);
    if (violation !== undefined) {
      throw new LayoutFault(`the layout of ${material} ${thickness} mm is wrong: ${violation.message}`);
    }
    done.push({ ...group, ...laid });
  }
  return done;
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
