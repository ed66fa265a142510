import {
  type Contour,
  circle,
  clockwise,
  type Feature,
  type Frame,
  type FrameParameters,
  obround,
  type Plate,
  rectangle,
  roundedPolygon,
} from "@keelcut/geometry";
import type { PageModel, PageNest } from "../../../packages/cli/src/output/page/index.js";

/** A hand-made vehicle of four kinds of plate: small, but with a bore, a turned and a mirrored placement, an offcut. */
export function smallJob(changes: Partial<PageModel> = {}): PageModel {
  const frame = smallFrame();
  return {
    frame,
    findings: frame.findings,
    nests: [structureNest, carrierNest],
    plates: frame.plates,
    kits: 2,
    files: ["sheets/pe-hd-10-01-x2.dxf", "plates/deck.svg", "cost.csv"],
    shop: "Bay router",
    stock: "Shed",
    compensation: "shop",
    kerf: 3.175,
    ...changes,
  };
}

export function smallFrame(changes: Partial<Frame> = {}): Frame {
  return {
    parameters,
    plates: [deck, cheek, carrierFront, carrierBack, wrap],
    hardware: [
      {
        item: "screw ISO 4762 M3x10",
        kind: "screw",
        count: 8,
        uses: [
          { place: "port.motor", count: 4, why: "plate 5.00, then 4.00 of 4 mm thread" },
          { place: "lift.motor", count: 4, why: "plate 5.00, then 4.00 of 4 mm thread" },
        ],
      },
      {
        item: "nut ISO 4032 M6",
        kind: "nut",
        count: 12,
        uses: [
          { place: "rods.1", count: 8, why: "one on each side of each cheek" },
          { place: "rods.1", count: 4, why: "one on each side of each pipe" },
        ],
      },
      {
        item: "tie 3.6x200",
        kind: "tie",
        count: 2,
        uses: [{ place: "lift.ties", count: 2, why: "through deck and pipe wall" }],
      },
      {
        item: "motor m22",
        kind: "motor",
        count: 2,
        uses: [
          { place: "port.motor", count: 1, why: "drives the duct" },
          { place: "lift.motor", count: 1, why: "drives the duct" },
        ],
      },
    ],
    lengths: [
      {
        item: "rod DIN 976 M6",
        kind: "rod",
        length: 212,
        mass: 37.6,
        count: 2,
        uses: [{ place: "rods.1", count: 2, why: "over the cheeks" }],
      },
      {
        item: "pipe EN 1329-1 75x3",
        kind: "pipe",
        length: 120,
        mass: 114,
        count: 2,
        uses: [
          { place: "port", count: 1, why: "the duct" },
          { place: "lift", count: 1, why: "the duct" },
        ],
      },
    ],
    axes: [
      { kind: "pipe", place: "port", from: [-100, 0, 45], to: [20, 0, 45], diameter: 75, bore: 69 },
      { kind: "pipe", place: "lift", from: [90, 0, 0], to: [90, 0, 120], diameter: 75, bore: 69 },
      { kind: "rod", place: "rods.1.lower", from: [-40, -106, 19], to: [-40, 106, 19], diameter: 6 },
      { kind: "rod", place: "rods.1.upper", from: [-40, -106, 71], to: [-40, 106, 71], diameter: 6 },
    ],
    dimensions: [
      {
        name: "port.carrier.rimDiameter",
        value: 67.4,
        unit: "mm",
        from: "bore at least 68.2 less twice the fit gap of 0.4",
      },
      { name: "port.carrier.openFraction", value: 0.615, unit: "1", from: "windows over bore" },
    ],
    findings: [
      {
        id: "fit.rod-inside-bore",
        severity: "warning",
        place: "port.carrier",
        message: "the rods leave 1.2 mm of pipe wall beside their hole; 2 mm would be better",
        measured: 1.2,
        limit: 2,
        why: "thin walls crack",
        source: "common practice",
      },
      {
        id: "fit.note",
        severity: "note",
        place: "deck",
        message: "tabs follow the nominal thickness",
        why: "no sheet was measured",
        source: "own choice",
      },
    ],
    ...changes,
  };
}

const parameters: FrameParameters = {
  name: "Heron",
  revision: "B",
  sheets: {
    structure: { material: "PE-HD", thickness: 10, grain: false },
    carrier: { material: "PVC-U", thickness: 5, grain: false },
  },
  ducts: [duct("port", "surge", -40), duct("lift", "heave", 90)],
  motors: {
    m22: {
      pattern: { kind: "cross", diameters: [16, 19] },
      screw: "M3",
      body: { diameter: 28, length: 30 },
      threadDepth: 4,
      shaftHole: 8,
    },
  },
  rods: { thread: "M6", gapAllowance: 0.5 },
  deck: { length: 300, cornerRadius: 8, tabLength: 40, tabsPerSide: 2, ductGap: 5 },
  cheek: { below: 60, above: 20, footLength: 60, cornerRadius: 12, handle: true },
  ties: { width: 3.6, places: 2 },
  cutting: { method: "router", kerf: 3.175, clearance: 5.175, edgeMargin: 12, compensation: "shop" },
};

function duct(id: string, axis: "surge" | "heave", x: number): FrameParameters["ducts"][number] {
  return {
    id,
    axis,
    at: { x, y: 0 },
    pipe: { standard: "EN 1329-1", size: "75" },
    length: 120,
    motor: "m22",
    carrier: {
      rodPitch: 52,
      fitGap: 0.4,
      spokes: 4,
      spokeWidth: 8,
      rimWidth: 5,
      spacerScrew: "M3",
      stations: [0],
    },
  };
}

const deck: Plate = plate("deck", "Deck", "PE-HD", 10, {
  outer: roundedPolygon([
    { x: -150, y: -90, radius: 8 },
    { x: 150, y: -90, radius: 8 },
    { x: 150, y: 90, radius: 8 },
    { x: -150, y: 90, radius: 8 },
  ]),
  openings: [
    [clockwise(circle({ x: 90, y: 0 }, 33)), "window", "flow window", "water for lift passes here"],
    [
      clockwise(obround({ x: 60, y: 52 }, { x: 120, y: 52 }, 4)),
      "tie-slot",
      "tie slot",
      "cable tie that holds lift",
    ],
    [
      clockwise(obround({ x: 60, y: -52 }, { x: 120, y: -52 }, 4)),
      "tie-slot",
      "tie slot",
      "cable tie that holds lift",
    ],
    [clockwise(rectangle(-110, -40, 120, 80)), "window", "window", "saves weight under port"],
  ],
  seats: [{ origin: [0, 0, -10], u: [1, 0, 0], v: [0, 1, 0] }],
});

const cheek: Plate = plate("cheek", "Cheek", "PE-HD", 10, {
  outer: roundedPolygon([
    { x: -150, y: -60, radius: 12 },
    { x: 150, y: -60, radius: 12 },
    { x: 110, y: 110, radius: 12 },
    { x: -110, y: 110, radius: 12 },
  ]),
  openings: [
    [
      clockwise(circle({ x: -40, y: 19 }, 3.3)),
      "rod-hole",
      "rod hole",
      "M6 rod that locks port (ISO 273 medium)",
    ],
    [
      clockwise(circle({ x: -40, y: 71 }, 3.3)),
      "rod-hole",
      "rod hole",
      "M6 rod that locks port (ISO 273 medium)",
    ],
    [clockwise(rectangle(-100, -10, 40, 10)), "tab-slot", "tab slot", "takes a tab of the deck"],
    [clockwise(rectangle(60, -10, 40, 10)), "tab-slot", "tab slot", "takes a tab of the deck"],
  ],
  seats: [
    { origin: [0, 100, 0], u: [1, 0, 0], v: [0, 0, 1] },
    { origin: [0, -90, 0], u: [1, 0, 0], v: [0, 0, 1] },
  ],
});

const carrierFront = carrier("carrier-front", "Carrier, front", -33);
const carrierBack = carrier("carrier-back", "Carrier, back", -46);

function carrier(id: string, name: string, x: number): Plate {
  return plate(id, name, "PVC-U", 5, {
    outer: circle({ x: 0, y: 0 }, 33.7),
    openings: [
      [clockwise(circle({ x: 0, y: 0 }, 4)), "hole", "shaft hole", "room for the end of the shaft"],
      [clockwise(circle({ x: 8, y: 0 }, 1.7)), "screw-hole", "motor screw hole", "M3 screw into the motor"],
      [clockwise(circle({ x: -8, y: 0 }, 1.7)), "screw-hole", "motor screw hole", "M3 screw into the motor"],
      [clockwise(circle({ x: 0, y: 9.5 }, 1.7)), "screw-hole", "motor screw hole", "M3 screw into the motor"],
      [
        clockwise(circle({ x: 0, y: -9.5 }, 1.7)),
        "screw-hole",
        "motor screw hole",
        "M3 screw into the motor",
      ],
      [
        clockwise(obround({ x: 18, y: 16 }, { x: 22, y: 10 }, 7)),
        "window",
        "flow window",
        "lets the water through",
      ],
    ],
    seats: [
      { origin: [x, 0, 45], u: [0, 1, 0], v: [0, 0, 1] },
      { origin: [90, 0, 60], u: [1, 0, 0], v: [0, 1, 0] },
    ],
  });
}

const wrap: Plate = {
  ...plate("wrap-port", "Wrap, port", "paper", 0.1, {
    outer: rectangle(0, 0, 236, 60),
    openings: [],
    seats: [],
  }),
  count: 1,
  made: "printed",
};

interface Drawn {
  readonly outer: Contour;
  readonly openings: readonly (readonly [Contour, Feature["kind"], string, string])[];
  readonly seats: Plate["seats"];
}

function plate(id: string, name: string, material: string, thickness: number, drawn: Drawn): Plate {
  const { outer, openings, seats } = drawn;
  return {
    id,
    name,
    template: id.split("-")[0] ?? id,
    sheet: { material, thickness },
    count: seats.length,
    region: { outer, openings: openings.map(([contour]) => contour) },
    features: [
      { contour: "outline", kind: "outline", name: "outline", why: `outline of the ${name.toLowerCase()}` },
      ...openings.map(([, kind, feature, why], contour): Feature => ({ contour, kind, name: feature, why })),
    ],
    marks:
      id === "deck"
        ? [
            {
              kind: "line",
              path: {
                vertices: [
                  { x: 20, y: 60, bulge: 0 },
                  { x: 40, y: 60, bulge: 0 },
                ],
                closed: false,
              },
            },
            { kind: "text", text: "FWD <1>", at: { x: 140, y: -30 }, height: 6, rotation: 90 },
          ]
        : [],
    rotations: id === "cheek" ? [0, 180] : "any",
    mirrorable: id !== "deck",
    made: "cut",
    seats,
  };
}

const structureNest: PageNest = {
  material: "PE-HD",
  thickness: 10,
  clearance: 6,
  stock: [
    {
      id: "PE 1000x500",
      outline: rectangle(0, 0, 1000, 500),
      keepOuts: [rectangle(960, 0, 40, 60)],
      available: 4,
      cost: 42,
    },
  ],
  result: {
    sheets: [
      {
        stock: "PE 1000x500",
        times: 2,
        placements: [
          { part: "deck", x: 165, y: 105, rotation: 0, mirrored: false },
          { part: "cheek", x: 480, y: 270, rotation: 0, mirrored: false },
          { part: "cheek", x: 750, y: 285, rotation: 90, mirrored: true },
        ],
      },
    ],
    unplaced: [],
    cost: 84,
    yield: 0.3,
    steps: 10,
  },
};

const carrierNest: PageNest = {
  material: "PVC-U",
  thickness: 5,
  clearance: 6,
  stock: [
    {
      id: "PVC corner",
      outline: [
        { x: 0, y: 0, bulge: 0 },
        { x: 320, y: 0, bulge: 0 },
        { x: 320, y: 90, bulge: 0 },
        { x: 90, y: 200, bulge: 0 },
        { x: 0, y: 200, bulge: 0 },
      ],
      keepOuts: [],
      available: 1,
      cost: 0,
    },
  ],
  result: {
    sheets: [
      {
        stock: "PVC corner",
        times: 1,
        placements: [
          { part: "carrier-front", x: 50, y: 50, rotation: 0, mirrored: false },
          { part: "carrier-front", x: 125, y: 50, rotation: 45, mirrored: false },
          { part: "carrier-front", x: 200, y: 50, rotation: 0, mirrored: false },
          { part: "carrier-front", x: 275, y: 50, rotation: 0, mirrored: false },
          { part: "carrier-back", x: 50, y: 125, rotation: 30, mirrored: true },
        ],
      },
    ],
    unplaced: [
      {
        part: "carrier-back",
        count: 3,
        reason: "stock-used-up",
        message: "3 copies are left and no PVC-U 5 mm stock is",
      },
    ],
    cost: 0,
    yield: 0.4,
    steps: 4,
  },
  sheetFiles: ["sheets/pvc-u-5-01-x1.dxf"],
};
