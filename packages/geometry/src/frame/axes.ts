import type { Layout } from "../fit/layout.js";
import type { FittedDuct } from "../fit/rod-runs.js";
import { rodLength } from "../fit/screw-length.js";
import { thread } from "../standards/index.js";
import type { AxisPart } from "./frame.js";
import type { FrameParameters } from "./parameters.js";

/** Rods and pipes as they lie in the vehicle. */
export function deriveAxes(
  parameters: FrameParameters,
  layout: Layout,
  ducts: readonly FittedDuct[],
): readonly AxisPart[] {
  const halfRod = rodHalf(parameters, layout);
  const rods = layout.runs.flatMap((run, index) =>
    run.z.map(
      (z, level): AxisPart => ({
        kind: "rod",
        place: `rods.${index + 1}.${level === 0 ? "lower" : "upper"}`,
        from: [run.x, -halfRod, z],
        to: [run.x, halfRod, z],
        diameter: thread(parameters.rods.thread).major,
      }),
    ),
  );
  const pipes = ducts.map((fitted): AxisPart => {
    const { x, y, z } = fitted.middle;
    const half = fitted.duct.length / 2;
    const surge = fitted.duct.axis === "surge";
    return {
      kind: "pipe",
      place: fitted.duct.id,
      from: surge ? [x - half, y, z] : [x, y, z - half],
      to: surge ? [x + half, y, z] : [x, y, z + half],
      diameter: fitted.pipe.outsideMean,
      bore: (fitted.pipe.boreMin + fitted.pipe.boreMax) / 2,
    };
  });
  return [...pipes, ...rods];
}

function rodHalf(parameters: FrameParameters, layout: Layout): number {
  return rodLength(parameters.rods.thread, overCheeks(layout)) / 2;
}

/** Distance over the outer faces of the cheeks at the thickest sheet, mm. */
export function overCheeks(layout: Layout): number {
  return layout.innerWidth + 2 * layout.structure.max;
}
