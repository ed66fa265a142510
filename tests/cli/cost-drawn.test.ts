import { circle, obround, type Region, reversed, roundedPolygon } from "@keelcut/geometry";
import { describe, expect, it } from "vitest";
import type { Bridge } from "../../packages/cli/src/bridges/bridge-places.js";
import { cuttingRate } from "../../packages/cli/src/cost/feed.js";
import { type HeldPlate, plateProgram } from "../../packages/cli/src/cost/plate-program.js";
import { sheetDrawing, writeDxf } from "../../packages/cli/src/output/index.js";
import { estimateOf, frameOf, nestsOf, plate, shopOf, stockOf } from "./cost-fixture.js";
import { parseDxf } from "./dxf-outside.js";

/** A plate with every kind of contour: rounded corners, a round hole and a slot with round ends. */
const BRACKET: Region = {
  outer: roundedPolygon([
    { x: 0, y: 0, radius: 12 },
    { x: 180, y: 0, radius: 12 },
    { x: 180, y: 60 },
    { x: 90, y: 95, radius: 30 },
    { x: 0, y: 60, radius: 5 },
  ]),
  openings: [
    reversed(circle({ x: 30, y: 30 }, 8)),
    reversed(obround({ x: 70, y: 30 }, { x: 130, y: 40 }, 14)),
  ],
};

/** Length of all closed contours of a DXF on the cut layers and how many there are, by another program's reader. */
function readCuts(dxf: string): { metres: number; contours: number } {
  const parsed = parseDxf(dxf);
  let millimetres = 0;
  let contours = 0;
  for (const entity of (parsed?.entities ?? []) as readonly object[] as readonly DxfEntity[]) {
    if (entity.layer !== "outline" && entity.layer !== "opening") continue;
    contours++;
    if (entity.type === "CIRCLE") {
      millimetres += 2 * Math.PI * (entity.radius ?? 0);
      continue;
    }
    const vertices = entity.vertices ?? [];
    for (const [i, from] of vertices.entries()) {
      if (i === vertices.length - 1 && entity.shape === false) continue;
      const to = vertices[(i + 1) % vertices.length] ?? from;
      const chord = Math.hypot(to.x - from.x, to.y - from.y);
      const quarter = Math.atan(from.bulge ?? 0);
      // Arc of sweep 4 q over a chord c: c / (2 sin 2q) x 4q.
      millimetres += quarter === 0 ? chord : (chord * 2 * quarter) / Math.sin(2 * quarter);
    }
  }
  return { metres: millimetres / 1000, contours };
}

interface DxfEntity {
  readonly type: string;
  readonly layer: string;
  readonly radius?: number;
  /** Whether a polyline is closed. */
  readonly shape?: boolean;
  readonly vertices?: readonly { readonly x: number; readonly y: number; readonly bulge?: number }[];
}

const BRIDGES: readonly Bridge[] = [
  { part: "outline", at: { x: 90, y: 0 } },
  { part: "outline", at: { x: 0, y: 30 } },
  { part: "outline", at: { x: 180, y: 30 } },
];

describe("what is charged is what is drawn", () => {
  it.each([
    ["whole contours", undefined],
    ["contours with bridges", { gap: 8, of: (id: string) => (id === "panel" ? BRIDGES : []) }],
  ])("counts the length and the starts of the written DXF: %s", async (_, bridges) => {
    const stockList = stockOf();
    const frame = frameOf({
      plates: [plate("panel", BRACKET, "PE-HD", 10, 2), ...frameOf().plates.slice(1)],
    });
    const nests = nestsOf(7, stockList).map((nest) => ({
      ...nest,
      parts: nest.parts.map((part) => (part.id === "panel" ? { ...part, region: BRACKET } : part)),
    }));
    const found = await estimateOf(7, {
      frame,
      nests,
      stockList,
      shop: shopOf({ charges: { perMetre: 1.5, perPierce: 0.15 } }),
      ...(bridges && { bridges }),
    });
    const plates = new Map(frame.plates.map((each) => [each.id, each]));
    let metres = 0;
    let starts = 0;
    let checked = 0;
    for (const nest of nests) {
      const material = { material: nest.material, thickness: nest.thickness };
      for (const [index, sheet] of nest.result.sheets.entries()) {
        const stock = nest.stock.find((each) => each.id === sheet.stock);
        if (stock === undefined) throw new Error("no stock");
        const size = { state: "nominal" } as const;
        const options = { size, marks: true, stockOutline: true, ...(bridges && { bridges }) };
        const drawn = sheetDrawing({ sheet, number: index + 1, stock, material, plates }, options);
        if (!drawn.ok) throw new Error(drawn.findings[0]?.message);
        const layerNames = { outline: "outline", opening: "opening", mark: "mark", stock: "stock" };
        const read = readCuts(
          writeDxf(drawn.drawing, { layers: "by-operation", layerNames, flavour: "R2000" }),
        );
        const ours = found.cutting.filter(
          (each) => each.material === nest.material && each.plates === sheet.placements.length,
        );
        expect(ours).toHaveLength(1);
        expect(read.contours).toBe(ours[0]?.starts);
        expect(read.metres).toBeCloseTo(ours[0]?.metres.drawn ?? 0, 6);
        metres += sheet.times * read.metres;
        starts += sheet.times * read.contours;
        checked++;
      }
    }
    expect(checked).toBe(4);
    const charged = found.lines
      .filter((line) => line.unit === "m")
      .reduce((sum, line) => sum + line.quantity, 0);
    expect(charged).toBeCloseTo(metres, 2);
    const pierced = found.lines.filter((line) => line.unit === "start");
    expect(pierced.reduce((sum, line) => sum + line.quantity, 0)).toBe(starts);
  });
});

describe("the machine's work on a plate held by bridges", () => {
  it("enters once for each line that is left, and cuts all but the gaps", () => {
    const shop = shopOf();
    const rate = cuttingRate(shop, "PE-HD", 10);
    const outlineOf = (held?: HeldPlate) =>
      plateProgram(BRACKET, 10, rate, shop, held).contours.find(({ contour }) => contour === "outline");
    const [whole, held] = [outlineOf(), outlineOf({ bridges: BRIDGES, gap: 8 })];
    const passes = rate?.passes ?? 0;
    expect(passes).toBeGreaterThan(1);
    expect(held?.paths).toHaveLength(3);
    expect(held?.seconds?.enter).toBeCloseTo(3 * (whole?.seconds?.enter ?? 0), 9);
    expect(held?.cut).toBeCloseTo((whole?.cut ?? 0) - passes * 3 * 8, 6);
    expect(held?.drawn).toBeCloseTo((whole?.drawn ?? 0) - 3 * 8, 9);
    // Two bridges lie between the three lines; the third is where they begin and end.
    expect(held?.hops).toHaveLength(2);
    for (const hop of held?.hops ?? []) expect(hop).toBeCloseTo(8, 9);
  });
});
