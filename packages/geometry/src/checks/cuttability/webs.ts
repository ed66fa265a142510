import { bounds } from "../../contour/bounds.js";
import { contourGapBelow } from "../../contour/distance.js";
import { asCircle } from "../../contour/segment.js";
import { TOLERANCE } from "../../contour/tolerance.js";
import type { FeatureKind } from "../../plates/plate.js";
import type { Finding } from "../finding.js";
import { numberText } from "../number-text.js";
import { type Cut, type CutContour, counted, grouped } from "./cut.js";
import { narrowestAtMost, narrowestExtent } from "./extent.js";

/** Material between two openings, or between an opening and the outline, that is too thin to survive the cutting. */
export function webFindings(cut: Cut): Finding[] {
  const limit = cut.limit("web");
  const lost = Math.min(cut.limit("lostWeb").value, limit.value);
  const thin = neighbours(cut, limit.value).flatMap(([a, b]) => {
    const gap = contourGapBelow(a.contour, b.contour, limit.value - TOLERANCE);
    if (gap === undefined) return [];
    const names = [a.name, b.name].sort();
    return [
      {
        alike: names.join(" and "),
        at: { x: (gap.from.x + gap.to.x) / 2, y: (gap.from.y + gap.to.y) / 2 },
        web: gap.distance,
        between: names[0] === names[1] ? `two of ${names[0]}` : `${a.name} and ${b.name}`,
      },
    ];
  });
  // One finding for each kind of pair, led by its thinnest web.
  const thinnestFirst = thin.sort((a, b) => a.web - b.web);
  return grouped(thinnestFirst).map((group): Finding => {
    const { web, between } = group[0];
    const isLost = web < lost - TOLERANCE;
    const about = isLost ? cut.limit("lostWeb") : limit;
    const value = isLost ? lost : limit.value;
    return {
      id: "cuttability.web",
      severity: isLost ? "error" : "warning",
      place: cut.plate.id,
      message: `${counted(`web between ${between}`, group, "thinnest")}: ${numberText(web)} mm of material, ${isLost ? "nothing stays standing below" : "this cut wants"} ${numberText(value)} mm; move them at least ${numberText(value - web)} mm farther apart`,
      measured: web,
      limit: value,
      why: about.why,
      source: about.source,
    };
  });
}

/** Holes and slots that are too close to the plate's edge for their size. Where the web itself is too thin, that is said instead. */
export function edgeDistanceFindings(cut: Cut): Finding[] {
  const web = cut.limit("web").value;
  const close = cut.openings.flatMap((opening) => {
    const kind = edgeKind(opening);
    if (kind === undefined) return [];
    const round = asCircle(opening.contour);
    const most = cut.limit(kind).value * (round ? 2 * round.radius : narrowestAtMost(opening.contour));
    const gap = contourGapBelow(opening.contour, cut.outline.contour, most);
    if (gap === undefined) return [];
    const width = round ? 2 * round.radius : narrowestExtent(opening.contour);
    const wanted = cut.limit(kind).value * width;
    if (gap.distance < web - TOLERANCE || gap.distance >= wanted - TOLERANCE) return [];
    return [
      {
        alike: `${opening.name} ${numberText(gap.distance)} ${numberText(width)}`,
        at: gap.from,
        name: opening.name,
        distance: gap.distance,
        wanted,
        kind,
      },
    ];
  });
  return grouped(close).map((group): Finding => {
    const { name, distance, wanted, kind } = group[0];
    const limit = cut.limit(kind);
    return {
      id: "cuttability.hole-to-edge",
      severity: "warning",
      place: cut.plate.id,
      message: `${counted(name, group)}: ${numberText(distance)} mm from the edge, ${numberText(limit.value)} of its width is ${numberText(wanted)} mm; move it ${numberText(wanted - distance)} mm inwards`,
      measured: distance,
      limit: wanted,
      why: limit.why,
      source: limit.source,
    };
  });
}

const holeKinds: readonly FeatureKind[] = ["screw-hole", "rod-hole", "hole"];
const slotKinds: readonly FeatureKind[] = ["slot", "tab-slot", "tie-slot"];

/** Which limit holds for an opening: windows and reliefs carry nothing and only need their web. */
function edgeKind(opening: CutContour): "holeToEdge" | "slotToEdge" | undefined {
  if (slotKinds.includes(opening.kind)) return "slotToEdge";
  return holeKinds.includes(opening.kind) ? "holeToEdge" : undefined;
}

/** Pairs of contours whose boxes come closer than `reach`; the outline is everybody's neighbour. */
function neighbours(cut: Cut, reach: number): readonly (readonly [CutContour, CutContour])[] {
  const boxed = cut.openings.map((opening) => ({ opening, box: bounds(opening.contour) }));
  return boxed.flatMap(({ opening, box }, index) => [
    [opening, cut.outline] as const,
    ...boxed
      .slice(index + 1)
      .filter(
        (other) =>
          other.box.minX - box.maxX < reach &&
          box.minX - other.box.maxX < reach &&
          other.box.minY - box.maxY < reach &&
          box.minY - other.box.maxY < reach,
      )
      .map((other) => [opening, other.opening] as const),
  ]);
}
