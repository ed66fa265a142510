import {
  asCircle,
  bounds,
  type Contour,
  type FeatureKind,
  featureContour,
  type Plate,
  placeContour,
  segments,
} from "@keelcut/geometry";
import { numberText } from "./page/number-text.js";

/** Features of a plate that are there for the same reason and have the same size, under one letter on page and paper. */
export interface FeatureGroup {
  /** Empty for the outline. */
  readonly letter: string;
  readonly kind: FeatureKind;
  readonly name: string;
  readonly why: string;
  /** `Ø6.6` for a circle, else the sides of its tightest box. */
  readonly size: string;
  readonly contours: readonly Contour[];
  /** Which of the plate's openings these are; none for the outline. */
  readonly openings: readonly number[];
}

/** Groups a plate's features in the order they were stated; openings no feature explains come last, so that nothing is hidden. */
export function featureGroups(plate: Plate): readonly FeatureGroup[] {
  const groups = new Map<string, Omit<FeatureGroup, "letter">>();
  const add = (kind: FeatureKind, name: string, why: string, contour: Contour, index?: number): void => {
    const size = sizeText(contour);
    const key = JSON.stringify([kind, name, why, size]);
    const { contours = [], openings = [] } = groups.get(key) ?? {};
    groups.set(key, {
      kind,
      name,
      why,
      size,
      contours: [...contours, contour],
      openings: index === undefined ? openings : [...openings, index],
    });
  };
  const explained = new Set<number>();
  for (const feature of plate.features) {
    const { kind, name, why, contour } = feature;
    if (contour !== "outline") explained.add(contour);
    add(kind, name, why, featureContour(plate, feature), contour === "outline" ? undefined : contour);
  }
  plate.region.openings.forEach((opening, i) => {
    if (!explained.has(i)) add("hole", "opening", "No reason was given for it.", opening, i);
  });
  let lettered = 0;
  return [...groups.values()].map((group) => ({
    letter: group.kind === "outline" ? "" : letterOf(lettered++),
    ...group,
  }));
}

/** The kind that colours each opening: the first feature that names it. */
export function openingKinds(plate: Plate): readonly FeatureKind[] {
  return plate.region.openings.map(
    (_, i) => plate.features.find((feature) => feature.contour === i)?.kind ?? "hole",
  );
}

function sizeText(contour: Contour): string {
  const circle = asCircle(contour);
  if (circle !== undefined) return `Ø${numberText(circle.radius * 2)}`;
  const { length, width } = tightBox(contour);
  return `${numberText(length)} × ${numberText(width)}`;
}

/** Size of a contour, mm, and the direction of its length, degrees from 0 to less than 90. */
interface TightBox {
  readonly length: number;
  readonly width: number;
  readonly degrees: number;
}

/** The smallest box along one of the contour's own straight edges, so that a slot at 45 degrees keeps its true size; ties go to the axes. */
export function tightBox(contour: Contour): TightBox {
  const angles = segments(contour).flatMap((segment) =>
    segment.kind === "line"
      ? [(Math.atan2(segment.to.y - segment.from.y, segment.to.x - segment.from.x) * 180) / Math.PI]
      : [],
  );
  const boxes = [0, ...angles].map((angle) => {
    const box = bounds(placeContour(contour, { x: 0, y: 0, rotation: -angle, mirrored: false }));
    const [along, across] = [box.maxX - box.minX, box.maxY - box.minY];
    const degrees = ((angle % 180) + 180) % 180;
    return degrees < 90
      ? { length: along, width: across, degrees }
      : { length: across, width: along, degrees: degrees - 90 };
  });
  return boxes.reduce((best, box) => (box.length * box.width < best.length * best.width - 1e-6 ? box : best));
}

/** A, B, ... Z, AA, AB, ... */
function letterOf(index: number): string {
  const last = String.fromCharCode(65 + (index % 26));
  return index < 26 ? last : letterOf(Math.floor(index / 26) - 1) + last;
}
