import type { Contour, Point } from "../contour/contour.js";
import { pointDistance } from "../contour/distance.js";
import { locate, type Side } from "../contour/locate.js";
import { pointAt, segments } from "../contour/segment.js";
import { type RegionFault, regionFaults } from "../contour/validate.js";
import type { Plate } from "../plates/plate.js";
import type { Finding } from "./finding.js";
import { numberText } from "./number-text.js";

/** Whether a plate is one piece with separate openings; where it is not, which features are in each other's way and how far. */
export function regionFindings(plate: Pick<Plate, "id" | "region" | "features">): readonly Finding[] {
  return regionFaults(plate.region).map((fault) => {
    const depth = depthOf(fault, plate.region.outer, plate.region.openings);
    const where = `at (${fault.at.x.toFixed(2)}, ${fault.at.y.toFixed(2)}) mm`;
    const cure =
      depth === undefined
        ? "change the sizes that place them"
        : `move them by at least ${numberText(depth.mm)} mm, and by the web that the cut wants`;
    const second = depth?.with === undefined ? "" : ` and ${nameOf(plate, depth.with)}`;
    return {
      id: "plate.region",
      severity: "error",
      place: plate.id,
      message: `${fault.what} ${where}: features of this plate run into each other (${nameOf(plate, fault.contour)}${second}); ${cure}`,
      ...(depth === undefined ? {} : { measured: -depth.mm, limit: 0 }),
      why: "a plate must be one piece with separate openings",
      source: "geometry",
    };
  });
}

function nameOf({ features }: Pick<Plate, "features">, contour: RegionFault["contour"]): string {
  return features.find((feature) => feature.contour === contour)?.name ?? String(contour);
}

interface Depth {
  readonly mm: number;
  readonly with: RegionFault["contour"];
}

/** How far an opening reaches into another or out of the plate: it has to move no less. */
function depthOf(
  { what, contour }: RegionFault,
  outline: Contour,
  openings: readonly Contour[],
): Depth | undefined {
  const opening = contour === "outline" ? undefined : openings[contour];
  if (opening === undefined) return undefined;
  if (what === "opening-not-inside") {
    return { mm: farthest(opening, outline, "outside"), with: "outline" };
  }
  if (what !== "openings-overlap") return undefined;
  const depths = openings.flatMap((other, index): Depth[] => {
    if (other === opening) return [];
    return [
      { mm: Math.max(farthest(opening, other, "inside"), farthest(other, opening, "inside")), with: index },
    ];
  });
  return depths.sort((a, b) => b.mm - a.mm)[0];
}

/** How far the corners and the middles of the sides of a contour lie on one side of another, at most, mm. */
function farthest(contour: Contour, other: Contour, side: Side): number {
  const points: readonly Point[] = segments(contour).flatMap((piece) => [piece.from, pointAt(piece, 0.5)]);
  return Math.max(
    0,
    ...points.filter((point) => locate(other, point) === side).map((point) => pointDistance(other, point)),
  );
}
