import type { Layout } from "../fit/layout.js";
import type { Machine } from "../fit/machine.js";
import { rodLength } from "../hardware/screw-length.js";
import { thread } from "../standards/index.js";
import type { AxisPart } from "./frame.js";

/** Pipes, and the rods across the vehicle, as they lie in it. */
export function deriveAxes({ parameters, layout, ducts }: Machine): readonly AxisPart[] {
  const halfRod = rodLength(parameters.rods.thread, overCheeks(layout), parameters.nuts) / 2;
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
    const [dx, dy, dz] = {
      surge: [half, 0, 0] as const,
      sway: [0, half, 0] as const,
      heave: [0, 0, half] as const,
    }[fitted.duct.axis];
    return {
      kind: "pipe",
      place: fitted.duct.id,
      from: [x - dx, y - dy, z - dz],
      to: [x + dx, y + dy, z + dz],
      diameter: fitted.pipe.outsideMean,
      bore: (fitted.pipe.boreMin + fitted.pipe.boreMax) / 2,
    };
  });
  return [...pipes, ...rods];
}

/** Distance over the outer faces of the cheeks at the thickest sheet, mm. */
export function overCheeks(layout: Layout): number {
  return layout.innerWidth + 2 * layout.structure.max;
}
