import { circle, type Frame, type Plate, type Region, rectangle, reversed } from "@keelcut/geometry";
import type { NestPart, PlacedPart, Stock } from "@keelcut/nesting";
import {
  type CostEstimate,
  type EstimateInput,
  estimate,
  type NestedMaterial,
  nestStock,
} from "../../packages/cli/src/cost/index.js";
import { type ShopProfile, shopProfileSchema } from "../../packages/cli/src/input/shop-profile.js";
import { type StockList, stockListSchema } from "../../packages/cli/src/input/stock-list.js";

/** A small frame made by hand: two panels with a hole, four rings, screws and rods. Prices are invented. */

export const PANEL: Region = {
  outer: rectangle(0, 0, 200, 100),
  openings: [reversed(circle({ x: 50, y: 50 }, 10))],
};
export const RING: Region = {
  outer: circle({ x: 0, y: 0 }, 40),
  openings: [reversed(circle({ x: 0, y: 0 }, 30))],
};

export function frameOf(parts: Partial<Frame> = {}): Frame {
  return {
    parameters: { name: "Fixture", sheets: {} } as unknown as Frame["parameters"],
    plates: [plate("panel", PANEL, "PE-HD", 10, 2), plate("ring", RING, "PVC-U", 5, 4)],
    hardware: [
      {
        item: "screw ISO 4762 M3x20",
        kind: "screw",
        count: 8,
        uses: [
          { place: "port", count: 4, why: "holds the motor" },
          { place: "starboard", count: 4, why: "holds the motor" },
        ],
      },
      {
        item: "nut ISO 4032 M6",
        kind: "nut",
        count: 12,
        uses: [{ place: "rods", count: 12, why: "clamps the cheek" }],
      },
    ],
    lengths: [
      {
        item: "rod DIN 976 M6",
        kind: "rod",
        length: 243.5,
        mass: 43.2,
        count: 3,
        uses: [{ place: "port", count: 3, why: "locks" }],
      },
      {
        item: "rod DIN 976 M6",
        kind: "rod",
        length: 118,
        mass: 21,
        count: 1,
        uses: [{ place: "heave", count: 1, why: "locks" }],
      },
    ],
    axes: [],
    dimensions: [],
    findings: [],
    ...parts,
  };
}

export function plate(id: string, region: Region, material: string, thickness: number, count: number): Plate {
  const seat = { origin: [0, 0, 0], u: [1, 0, 0], v: [0, 1, 0] } as const;
  return {
    id,
    name: id,
    template: "custom",
    sheet: { material, thickness },
    count,
    region,
    features: [],
    marks: [],
    rotations: "any",
    mirrorable: true,
    made: "cut",
    seats: Array.from({ length: count }, () => seat),
  };
}

interface ShopChanges {
  readonly charges?: object;
  readonly cutting?: object;
  readonly machine?: object;
  readonly currency?: string;
  readonly feeds?: readonly object[];
}

export function shopOf(changes: ShopChanges = {}): ShopProfile {
  const { charges, cutting, machine, ...rest } = changes;
  return shopProfileSchema.parse({
    keelcut: 1,
    name: "Fixture shop",
    currency: "EUR",
    cutting: { method: "router", kerf: 3.175, ...cutting },
    machine: { ...machine },
    feeds: [
      { material: "PE-HD", feed: 3000, depthPerPass: 4, plungeFeed: 600 },
      { material: "PVC-U", spindle: 18000, flutes: 2, chipLoad: 0.05, depthPerPass: 5 },
    ],
    charges: {
      perHour: 62.5,
      setupPerJob: 15,
      setupPerLayout: 4,
      loadPerSheet: 3.5,
      perPlate: 20,
      fixedPerJob: 12.5,
      taxPercent: 19,
      freight: 9.9,
      ...charges,
    },
    ...rest,
  });
}

export function stockOf(changes: object = {}): StockList {
  return stockListSchema.parse({
    keelcut: 1,
    currency: "EUR",
    sheets: [
      {
        id: "pe-full",
        material: "PE-HD",
        thickness: 10,
        length: 1000,
        width: 500,
        price: [
          { from: 1, each: 41.9 },
          { from: 5, each: 36.4 },
        ],
        atHand: 1,
      },
      { id: "pvc-full", material: "PVC-U", thickness: 5, length: 600, width: 300, price: 17.35 },
    ],
    hardware: [
      { item: "screw ISO 4762 M3x20", pack: 50, price: 4.2, atHand: 5, mass: 1.4 },
      { item: "screw ISO 4762 M3x20", pack: 10, price: 1.15 },
      { item: "nut ISO 4032 M6", pack: 100, price: 3.05, mass: 2.5 },
    ],
    lengths: [{ item: "rod DIN 976 M6", length: 1000, price: 1.79, massPerMetre: 177 }],
    ...changes,
  });
}

/** Layouts by hand: panels and rings in rows, as many a sheet as given, the last sheet partly filled. */
export function nestsOf(kits: number, stockList: StockList): NestedMaterial[] {
  return [
    rows(
      "PE-HD",
      10,
      { id: "panel", region: PANEL, demand: 2 * kits, rotations: "any", mirrorable: true },
      "pe-full",
      stockList,
      {
        perSheet: 12,
        perRow: 4,
        step: [210, 110],
        first: [20, 20],
      },
    ),
    rows(
      "PVC-U",
      5,
      { id: "ring", region: RING, demand: 4 * kits, rotations: "any", mirrorable: true },
      "pvc-full",
      stockList,
      {
        perSheet: 10,
        perRow: 5,
        step: [90, 90],
        first: [60, 60],
      },
    ),
  ];
}

interface Grid {
  readonly perSheet: number;
  readonly perRow: number;
  readonly step: readonly [number, number];
  readonly first: readonly [number, number];
}

function rows(
  material: string,
  thickness: number,
  part: NestPart,
  sheet: string,
  stockList: StockList,
  grid: Grid,
): NestedMaterial {
  const stock: Stock[] = nestStock(stockList, material, thickness);
  const owned = stock.find((entry) => entry.id === `${sheet}/at-hand`)?.available ?? 0;
  const placed = (count: number): PlacedPart[] =>
    Array.from({ length: count }, (_, i) => ({
      part: part.id,
      x: grid.first[0] + (i % grid.perRow) * grid.step[0],
      y: grid.first[1] + Math.floor(i / grid.perRow) * grid.step[1],
      rotation: 0,
      mirrored: false,
    }));
  const layouts = [
    { times: Math.floor(part.demand / grid.perSheet), placements: placed(grid.perSheet) },
    { times: part.demand % grid.perSheet === 0 ? 0 : 1, placements: placed(part.demand % grid.perSheet) },
  ];
  let left = typeof owned === "number" ? owned : 0;
  const sheets = layouts.flatMap((layout) => {
    const own = Math.min(left, layout.times);
    left -= own;
    return [
      { stock: `${sheet}/at-hand`, times: own, placements: layout.placements },
      { stock: sheet, times: layout.times - own, placements: layout.placements },
    ].filter((entry) => entry.times > 0);
  });
  return {
    material,
    thickness,
    parts: [part],
    stock,
    result: { sheets, unplaced: [], cost: 0, yield: 0, steps: 0 },
  };
}

export async function estimateOf(kits: number, changes: Partial<EstimateInput> = {}): Promise<CostEstimate> {
  const stockList = changes.stockList ?? stockOf();
  return estimate({
    frame: frameOf(),
    nests: nestsOf(kits, stockList),
    shop: shopOf(),
    stockList,
    kits,
    spares: { plates: 0, hardware: 0, lengths: 0 },
    ...changes,
  });
}
