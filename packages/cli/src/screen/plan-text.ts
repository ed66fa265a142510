import type { BatchPlan } from "@keelcut/nesting";
import type { LaidOut } from "../job/laid-out.js";
import { counted, numberText } from "./number-text.js";

/** For each planned material what it takes and how far from the best it can be; nothing when none was planned. */
export function planText(groups: readonly LaidOut[]): readonly string[] {
  return groups.flatMap(({ material, plan }) =>
    plan === undefined ? [] : [`Plan ${material.material} ${material.thickness} mm: ${factsText(plan)}`],
  );
}

function factsText(plan: BatchPlan): string {
  const { sheetCount, leastSheets, layoutCount, cost, leastCost } = plan;
  const sheets = `${counted(sheetCount, "sheet")} (at least ${leastSheets.value}) of ${counted(layoutCount, "layout")}`;
  if (plan.unplaced.length > 0) {
    return `${counted(sheetCount, "sheet")} of ${counted(layoutCount, "layout")}, and not every plate has a place`;
  }
  const limit = plan.withinMaxLayouts ? "" : "; more layouts than allowed";
  if (plan.optimal) return `${sheets}, and no plan is cheaper${limit}`;
  if (cost === 0) return `${sheets}, by the prices given for nothing${limit}`;
  const saving =
    leastCost.value > 0 ? `at most ${numberText(100 * (1 - leastCost.value / cost), 1)} %` : "anything";
  return `${sheets}; a cheaper plan could save ${saving}${limit}`;
}

/** The same for programs; empty when nothing was planned. */
export function planJson(groups: readonly LaidOut[]): readonly object[] {
  return groups.flatMap(({ material, plan }) => {
    if (plan === undefined) return [];
    const { sheets: _, unplaced: __, ...facts } = plan;
    return [{ material: material.material, thickness: material.thickness, ...facts }];
  });
}
