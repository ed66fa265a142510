import {
  type Contour,
  circle,
  clockwise,
  obround,
  type Plate,
  polygon,
  type Region,
  rectangle,
  roundedPolygon,
} from "@keelcut/geometry";
import type { Sheet, Stock } from "@keelcut/nesting";
import type { Drawing, DrawingOptions, DrawingResult } from "../../packages/cli/src/output/drawing.js";

export const nominal: DrawingOptions = { size: { state: "nominal" }, marks: true, stockOutline: true };

export function plate(id: string, region: Region, extra: Partial<Plate> = {}): Plate {
  return {
    id,
    name: id,
    template: "custom",
    sheet: { material: "PE-HD", thickness: 10 },
    count: 1,
    region,
    features: [],
    marks: [],
    rotations: "any",
    mirrorable: false,
    made: "cut",
    seats: [],
    ...extra,
  };
}

export function opening(contour: Contour): Contour {
  return clockwise(contour);
}

/** A plate with every kind of contour: circles, slots, arcs both ways, an opening large enough for another plate. */
export const deck: Plate = plate(
  "deck",
  {
    outer: roundedPolygon([
      { x: -150, y: -90, radius: 12 },
      { x: 150, y: -90, radius: 12 },
      { x: 150, y: 90, radius: 40 },
      { x: 20, y: 90 },
      { x: 20, y: 60, radius: 6 },
      { x: -20, y: 60, radius: 6 },
      { x: -20, y: 90 },
      { x: -150, y: 90, radius: 12 },
    ]),
    openings: [
      opening(circle({ x: 70, y: 0 }, 50)),
      opening(circle({ x: -130, y: -70 }, 3.3)),
      opening(circle({ x: -130, y: 70 }, 3.3)),
      opening(obround({ x: -100, y: -20 }, { x: -60, y: 15 }, 9)),
      opening(
        polygon([
          { x: -110, y: 30 },
          { x: -70, y: 30 },
          { x: -70, y: 50 },
          { x: -110, y: 50 },
        ]),
      ),
    ],
  },
  {
    marks: [
      { kind: "text", text: "bow", at: { x: 110, y: -80 }, height: 5, rotation: 0 },
      {
        kind: "line",
        path: {
          closed: false,
          vertices: [
            { x: -40, y: -85, bulge: 0 },
            { x: -40, y: -30, bulge: 0 },
          ],
        },
      },
    ],
  },
);

export const ring: Plate = plate("ring", {
  outer: circle({ x: 0, y: 0 }, 30),
  openings: [opening(circle({ x: 0, y: 0 }, 16))],
});

export const plug: Plate = plate("plug", {
  outer: roundedPolygon([
    { x: 0, y: 0 },
    { x: 12, y: 0, radius: 3 },
    { x: 12, y: 12 },
    { x: 0, y: 12 },
  ]),
  openings: [],
});

export const plates: ReadonlyMap<string, Plate> = new Map([deck, ring, plug].map((each) => [each.id, each]));

export const stock: Stock = {
  id: "pe-600x400",
  outline: rectangle(0, 0, 600, 400),
  keepOuts: [rectangle(560, 360, 40, 40)],
  available: "unlimited",
  cost: 30,
};

/** Two decks, a ring in the opening of one and a plug in the ring's: three depths. */
export const nestedSheet: Sheet = {
  stock: stock.id,
  times: 3,
  placements: [
    { part: "deck", x: 175, y: 115, rotation: 0, mirrored: false },
    { part: "ring", x: 245, y: 115, rotation: 30, mirrored: false },
    { part: "plug", x: 239, y: 109, rotation: 0, mirrored: false },
    { part: "deck", x: 250, y: 300, rotation: 180, mirrored: true },
    { part: "ring", x: 500.1234567, y: 300, rotation: 17, mirrored: false },
    { part: "plug", x: 450, y: 40, rotation: 33.3, mirrored: true },
  ],
};

/** The drawing of a result, or a failure with its findings. */
export function drawn(result: DrawingResult): Drawing {
  if (!result.ok) throw new Error(result.findings.map((finding) => finding.message).join("; "));
  return result.drawing;
}
