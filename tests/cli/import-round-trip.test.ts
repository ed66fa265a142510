import {
  type Contour,
  circle,
  clockwise,
  obround,
  placeRegion,
  pointAt,
  pointDistance,
  type Region,
  regionArea,
  roundedPolygon,
  segments,
} from "@keelcut/geometry";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { defaultImportOptions, importRegions } from "../../packages/cli/src/input/import/index.js";
import { defaultDxfOptions, plateDrawing, writeDxf, writeSvg } from "../../packages/cli/src/output/index.js";
import { drawn, nominal, plate } from "./dxf-samples.js";

const decimal = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });

/** Plates of rounded outlines with a circle and a slot, at any angle, mirrored or not. */
const region: fc.Arbitrary<Region> = fc
  .record({
    width: decimal(80, 400),
    height: decimal(60, 300),
    corner: decimal(0.5, 25),
    hole: decimal(1, 12),
    slot: decimal(2, 10),
    rotation: decimal(0, 360),
    mirrored: fc.boolean(),
  })
  .map(({ width, height, corner, hole, slot, rotation, mirrored }) => {
    const radius = Math.min(corner, width / 10);
    const outer = roundedPolygon([
      { x: 0, y: 0, radius },
      { x: width, y: 0 },
      { x: width, y: height, radius },
      { x: width / 2, y: height * 0.8, radius: 5 },
      { x: 0, y: height },
    ]);
    const openings = [
      clockwise(circle({ x: width * 0.25, y: height * 0.4 }, hole)),
      clockwise(obround({ x: width * 0.5, y: height * 0.3 }, { x: width * 0.7, y: height * 0.35 }, slot)),
    ];
    return placeRegion({ outer, openings }, { x: 0, y: 0, rotation, mirrored });
  });

/** Where a plate's own file puts it. */
function home(placed: Region): Region {
  const drawing = drawn(
    plateDrawing(plate("p", placed), 1, { ...nominal, marks: false, stockOutline: false }),
  );
  const contours = drawing.entities.flatMap((entity) => (entity.kind === "contour" ? [entity.contour] : []));
  const outer = contours.at(-1);
  if (outer === undefined) throw new Error("no outline");
  return { outer, openings: contours.slice(0, -1) };
}

function largestDistance(a: Contour, b: Contour): number {
  const points = segments(a).flatMap((piece) => [0, 0.3, 0.6, 0.9].map((t) => pointAt(piece, t)));
  return Math.max(...points.map((point) => pointDistance(b, point)));
}

describe("written and read back", () => {
  it.each([
    [
      "DXF R12",
      (text: ReturnType<typeof drawing>) => writeDxf(text, { ...defaultDxfOptions, flavour: "R12" }),
    ],
    ["DXF R2000", (text: ReturnType<typeof drawing>) => writeDxf(text)],
    ["SVG", (text: ReturnType<typeof drawing>) => writeSvg(text)],
  ] as const)("%s gives the same region to 1e-6", (name, write) => {
    fc.assert(
      fc.property(region, (placed) => {
        const wanted = home(placed);
        const { regions, findings } = importRegions(write(drawing(placed)), {
          ...defaultImportOptions,
          layers: ["outline", "opening"],
        });
        expect(findings.filter(({ id }) => id !== "import.layer")).toEqual([]);
        expect(regions).toHaveLength(1);
        const [found] = regions;
        if (found === undefined) return;
        expect(found.openings).toHaveLength(wanted.openings.length);
        expect(Math.abs(regionArea(found) - regionArea(wanted))).toBeLessThan(2e-3);
        expect(largestDistance(found.outer, wanted.outer)).toBeLessThan(1e-6);
        for (const opening of found.openings) {
          const least = Math.min(...wanted.openings.map((other) => largestDistance(opening, other)));
          expect(least).toBeLessThan(1e-6);
        }
        if (name === "SVG") return;
        // DXF keeps the vertices themselves; circles come back as two half arcs.
        expect(found.outer).toHaveLength(wanted.outer.length);
      }),
      { numRuns: 100, seed: 6 },
    );
  });
});

function drawing(placed: Region): ReturnType<typeof drawn> {
  return drawn(plateDrawing(plate("p", placed), 1, { ...nominal, marks: false }));
}
