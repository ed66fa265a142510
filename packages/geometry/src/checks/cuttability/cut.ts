import type { Contour, Point } from "../../contour/contour.js";
import { clockwise, counterClockwise } from "../../contour/orient.js";
import type { CuttingParameters } from "../../frame/parameters.js";
import type { FeatureKind, Plate } from "../../plates/plate.js";
import { featureLimits, type LimitKind, limitFor } from "../../standards/cutting/feature-limits.js";
import { numberText } from "../number-text.js";

/** What a shop says of its own machine, mm; each replaces the built-in limit. */
export interface CuttabilityLimits {
  readonly smallestOpening?: number | undefined;
  readonly smallestWeb?: number | undefined;
  readonly smallestPlate?: number | undefined;
  /** Diameters the shop drills: round openings of these are not cut. */
  readonly drills?: readonly number[] | undefined;
}

/** A limit with its value for this plate and this cut. */
export interface Limit {
  readonly value: number;
  readonly why: string;
  readonly source: string;
}

/** One contour of a plate, turned so that the material lies to the left of it. */
export interface CutContour {
  readonly contour: Contour;
  readonly isOutline: boolean;
  readonly name: string;
  readonly kind: FeatureKind;
}

/** A plate, the cut that makes it, and the limits that hold for both. */
export interface Cut {
  readonly plate: Plate;
  readonly cutting: CuttingParameters;
  readonly outline: CutContour;
  readonly openings: readonly CutContour[];
  /** Diameters that are drilled, mm. */
  readonly drills: readonly number[];
  limit(kind: LimitKind): Limit;
}

export function cutOf(plate: Plate, cutting: CuttingParameters, limits: CuttabilityLimits): Cut {
  refuseNotPositive(plate, "kerf", cutting.kerf);
  refuseNotPositive(plate, "thickness", plate.sheet.thickness);
  const stated: Partial<Record<LimitKind, number | undefined>> = {
    opening: limits.smallestOpening,
    web: limits.smallestWeb,
    plate: limits.smallestPlate,
  };
  for (const value of Object.values(stated)) {
    if (value !== undefined) refuseNotPositive(plate, "a stated limit", value);
  }
  return {
    plate,
    cutting,
    outline: { ...named(plate, "outline"), contour: counterClockwise(plate.region.outer), isOutline: true },
    openings: plate.region.openings.map((opening, index) => ({
      ...named(plate, index),
      contour: clockwise(opening),
      isOutline: false,
    })),
    drills: cutting.method === "router" ? (limits.drills ?? []) : [],
    limit: (kind) => {
      const limit = featureLimits[cutting.method][kind];
      const value = stated[kind];
      if (value !== undefined) return { value, why: limit.why, source: "Shop profile" };
      return {
        value: limitFor(limit, plate.sheet.thickness, cutting.kerf),
        why: limit.why,
        source: limit.source,
      };
    },
  };
}

/** Drills are ground to a hundredth; an opening of any other size is cut, mm. */
const DRILL_FIT = 0.01;

/** Whether a round opening is made by one of these drills. All diameters, mm. */
export function isDrilled(diameter: number, drills: readonly number[]): boolean {
  return drills.some((drill) => Math.abs(drill - diameter) <= DRILL_FIT);
}

/** One of several alike things that a check found on a plate. */
export interface Sighting {
  /** Sightings with the same text become one finding. */
  readonly alike: string;
  readonly at: Point;
}

/** Groups sightings that are alike, in the order in which they first appear. */
export function grouped<S extends Sighting>(sightings: readonly S[]): readonly (readonly [S, ...S[]])[] {
  const groups = new Map<string, [S, ...S[]]>();
  for (const sighting of sightings) {
    const group = groups.get(sighting.alike);
    if (group === undefined) groups.set(sighting.alike, [sighting]);
    else group.push(sighting);
  }
  return [...groups.values()];
}

/**
 * For example `tab slot at (10, 25)` or `4 x tab slot, the first at (10, 25)`; `which` is what the first of the group is
 * among its likes.
 */
export function counted(name: string, group: readonly Sighting[], which = "first"): string {
  const first = group[0];
  if (first === undefined) return name;
  const at = `at (${numberText(first.at.x)}, ${numberText(first.at.y)})`;
  return group.length === 1 ? `${name} ${at}` : `${group.length} x ${name}, the ${which} ${at}`;
}

function named(plate: Plate, reference: "outline" | number): { name: string; kind: FeatureKind } {
  const feature = plate.features.find(({ contour }) => contour === reference);
  if (feature !== undefined) return { name: feature.name, kind: feature.kind };
  return reference === "outline" ? { name: "outline", kind: "outline" } : { name: "opening", kind: "hole" };
}

function refuseNotPositive(plate: Plate, what: string, value: number): void {
  if (!(Number.isFinite(value) && value > 0)) {
    throw new RangeError(`plate ${plate.id}: ${what} must be above 0 mm, not ${value}`);
  }
}
