import { circle } from "../../contour/build.js";
import type { Point } from "../../contour/contour.js";
import { placePoint } from "../../contour/transform.js";
import { boltCentres } from "../../features/bolt-pattern.js";
import type { HolePattern, OwnHoles } from "../../frame/own-plate-parameters.js";
import { clearanceHole } from "../../standards/index.js";
import type { Cut } from "../compose.js";

/** Every hole of a pattern. A hole for a screw has the diameter of ISO 273. */
export function holeCuts({ at, hole, pattern, rotation, why }: OwnHoles): readonly Cut[] {
  const diameter = hole.kind === "diameter" ? hole.diameter : clearanceHole(hole.thread, hole.fit);
  const reason =
    why ??
    (hole.kind === "diameter"
      ? `${diameter} mm, as described`
      : `${hole.thread} screw (ISO 273 ${hole.fit})`);
  return patternCentres(pattern).map(
    (centre): Cut => ({
      contour: circle(placePoint(centre, { ...at, rotation, mirrored: false }), diameter / 2),
      kind: hole.kind === "diameter" ? "hole" : "screw-hole",
      name: hole.kind === "diameter" ? "hole" : "screw hole",
      why: reason,
    }),
  );
}

/** Centres of a pattern around its middle. */
export function patternCentres(pattern: HolePattern): readonly Point[] {
  switch (pattern.kind) {
    case "single":
      return [{ x: 0, y: 0 }];
    case "row":
      return spread(pattern.count, pattern.pitch).map((x) => ({ x, y: 0 }));
    case "grid":
      return spread(pattern.rows, pattern.pitch.y).flatMap((y) =>
        spread(pattern.columns, pattern.pitch.x).map((x) => ({ x, y })),
      );
    case "ring":
      return boltCentres({ kind: "circle", diameter: pattern.diameter, holes: pattern.count });
    case "cross":
      return boltCentres({ kind: "cross", diameters: pattern.diameters });
  }
}

function spread(count: number, pitch: number): readonly number[] {
  return Array.from({ length: count }, (_, index) => (index - (count - 1) / 2) * pitch);
}
