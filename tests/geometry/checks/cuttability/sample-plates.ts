import {
  type Contour,
  type CuttingMethod,
  type CuttingParameters,
  circle,
  clockwise,
  type Feature,
  type FeatureKind,
  type Finding,
  type Plate,
  type Point,
  rectangle,
} from "@keelcut/geometry";

/** A hair: less than any shop can measure, more than the kernel's tolerance. */
export const hair = 0.001;

export interface Opening {
  readonly contour: Contour;
  readonly kind?: FeatureKind;
  readonly name?: string;
}

export function plate(outer: Contour, openings: readonly Opening[] = [], more: Partial<Plate> = {}): Plate {
  const features: Feature[] = openings.map(({ kind = "window", name = "window" }, index) => ({
    contour: index,
    kind,
    name,
    why: "a test",
  }));
  return {
    id: "sample",
    name: "sample",
    template: "custom",
    sheet: { material: "PE-HD", thickness: 10 },
    count: 1,
    region: { outer, openings: openings.map(({ contour }) => clockwise(contour)) },
    features: [{ contour: "outline", kind: "outline", name: "outline", why: "a test" }, ...features],
    marks: [],
    rotations: "any",
    mirrorable: true,
    made: "cut",
    seats: [],
    ...more,
  };
}

export function by(
  method: CuttingMethod,
  kerf: number,
  more: Partial<CuttingParameters> = {},
): CuttingParameters {
  return { method, kerf, clearance: kerf + 2, edgeMargin: 15, compensation: "shop", ...more };
}

export const router = by("router", 3.175);
export const laser = by("laser", 0.2);
export const waterjet = by("waterjet", 1);
export const square = rectangle(0, 0, 200, 200);
export const acrylic = { sheet: { material: "PMMA cast", thickness: 6 } };

export function found(findings: readonly Finding[], what: string): Finding[] {
  return findings.filter(({ id }) => id === `cuttability.${what}`);
}

/** The middle of the square, where no edge is near. */
export function hole(diameter: number, at: Point = { x: 100, y: 100 }): Opening {
  return { contour: circle(at, diameter / 2), kind: "screw-hole", name: "screw hole" };
}
