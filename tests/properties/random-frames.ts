import type { BoltPattern, DuctParameters, FrameParameters } from "@keelcut/geometry";
import fc from "fast-check";

/** Frames as a designer might draw them up: most can be built, some cannot, and the checks tell which. */
export function randomFrames(seed: number, count: number): readonly FrameParameters[] {
  return fc.sample(frame, { seed, numRuns: count });
}

const oneOf = <const T>(...values: readonly T[]): fc.Arbitrary<T> => fc.constantFrom(...values);

/** Whole steps between two limits: sizes that people write. */
const stepped = (least: number, most: number, step: number): fc.Arbitrary<number> =>
  fc.integer({ min: 0, max: Math.round((most - least) / step) }).map((count) => least + count * step);

const pipe: fc.Arbitrary<DuctParameters["pipe"]> = oneOf(
  { standard: "EN 1329-1", size: "75" },
  { standard: "EN 1329-1", size: "90" },
  { standard: "EN 1329-1", size: "110" },
  { standard: "EN 1401-1", size: "125", series: "SN4" },
  { standard: "EN 1451-1", size: "90", series: "S20" },
  { standard: "DIN 8062", size: "90", series: "PN6" },
  { standard: "ASTM D1785", size: "4", series: "Schedule 40" },
  { outside: 80, wall: 2.5, ovality: 0.5 },
);

const pattern: fc.Arbitrary<BoltPattern> = fc.oneof(
  oneOf<BoltPattern>(
    { kind: "cross", diameters: [16, 19] },
    { kind: "cross", diameters: [19, 25] },
    { kind: "rectangle", width: 16, height: 12 },
  ),
  stepped(14, 22, 1).map((diameter): BoltPattern => ({ kind: "circle", diameter, holes: 4 })),
);

const structure: fc.Arbitrary<FrameParameters["sheets"]["structure"]> = oneOf(
  { material: "PE-HD", thickness: 8, grain: false },
  { material: "PE-HD", thickness: 10, grain: false },
  { material: "PE-HD", thickness: 12, grain: false, measured: 12.2 },
  { material: "PVC-U", thickness: 8, grain: false },
  { material: "birch plywood", thickness: 12, grain: true },
  { material: "PP-H", thickness: 10, grain: false },
);

const cutting: fc.Arbitrary<FrameParameters["cutting"]> = oneOf(
  ...([
    ["router", 2],
    ["router", 3],
    ["router", 3.175],
    ["router", 4],
    ["waterjet", 1],
  ] as const),
).map(([method, kerf]) => ({
  method,
  kerf,
  clearance: kerf + 2,
  edgeMargin: 15,
  compensation: "shop" as const,
}));

const parts = fc.record({
  pipe,
  heavePipe: pipe,
  pattern,
  structure,
  cutting,
  rod: oneOf("M5", "M6"),
  spacerScrew: oneOf("M3", "M4"),
  body: stepped(24, 32, 1),
  spokes: oneOf(3, 4, 5, 6),
  surgeX: stepped(-110, -60, 5),
  surgeY: stepped(90, 130, 5),
  heaveX: stepped(70, 120, 5),
  ductLength: stepped(110, 150, 5),
  deckLength: stepped(360, 520, 10),
  tabs: oneOf(2, 3),
  tabLength: stepped(30, 50, 5),
  ductGap: stepped(6, 26, 2),
  below: stepped(55, 90, 5),
  handle: fc.boolean(),
  ties: oneOf(3.6, 4.8, 7.6),
  bulkheadX: fc.option(stepped(-120, -20, 5), { nil: undefined }),
  skids: fc.option(stepped(50, 80, 10), { nil: undefined }),
  bar: fc.boolean(),
  ballast: fc.boolean(),
});

const frame: fc.Arbitrary<FrameParameters> = parts.map((part): FrameParameters => {
  const duct = (id: string, axis: DuctParameters["axis"], at: DuctParameters["at"]): DuctParameters => ({
    id,
    axis,
    at,
    pipe: axis === "heave" ? part.heavePipe : part.pipe,
    length: part.ductLength,
    motor: "motor",
    propeller: { diameter: 50, height: 10 },
    carrier: {
      fitGap: 0.3,
      spokes: part.spokes,
      rimWidth: 4.5,
      spacerScrew: part.spacerScrew,
      stations: [0],
    },
  });
  return {
    name: "Random",
    revision: "A",
    sheets: { structure: part.structure, carrier: { material: "PVC-U", thickness: 5, grain: false } },
    motors: {
      motor: {
        pattern: part.pattern,
        screw: "M3",
        body: { diameter: part.body, length: 28 },
        threadDepth: 4,
        shaftHole: 6,
      },
    },
    ducts: [
      duct("port", "surge", { x: part.surgeX, y: part.surgeY }),
      duct("starboard", "surge", { x: part.surgeX, y: -part.surgeY }),
      duct("heave", "heave", { x: part.heaveX, y: 0 }),
    ],
    rods: { thread: part.rod, gapAllowance: 0.3 },
    deck: {
      length: part.deckLength,
      cornerRadius: 8,
      tabLength: part.tabLength,
      tabsPerSide: part.tabs,
      ductGap: part.ductGap,
    },
    cheek: { below: part.below, footLength: 70, cornerRadius: 15, handle: part.handle },
    ties: { width: part.ties, places: 4 },
    ...(part.bulkheadX === undefined ? {} : { bulkheads: [{ id: "mid", x: part.bulkheadX }] }),
    ...(part.skids === undefined ? {} : { skids: { width: part.skids } }),
    ...(part.bar ? { handles: [{ id: "bow", x: part.deckLength / 2 - 50, z: 60, width: 70 }] } : {}),
    ...(part.ballast
      ? {
          ballast: [
            {
              id: "stern",
              at: { x: 25 - part.deckLength / 2, y: 0 },
              count: 2,
              pitch: 20,
              slotLength: 40,
              along: "y" as const,
              screw: "M5",
            },
          ],
        }
      : {}),
    cutting: part.cutting,
  };
});
