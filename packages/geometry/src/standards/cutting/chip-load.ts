import { lookUp, type Table } from "../table.js";

/** Least and largest chip, mm per tooth. */
export type ChipLoad = readonly [least: number, largest: number];

/**
 * Feed of a routed cut, mm/min: spindle speed x cutting edges x chip load (Machinery's Handbook, milling feeds).
 *
 * @param spindle 1/min
 * @param chipLoad mm per tooth
 * Throws RangeError unless all three are above 0.
 */
export function routerFeed(spindle: number, flutes: number, chipLoad: number): number {
  for (const value of [spindle, flutes, chipLoad]) {
    if (!(Number.isFinite(value) && value > 0))
      throw new RangeError(`spindle, flutes and chip load must be above 0, not ${value}`);
  }
  return spindle * flutes * chipLoad;
}

/**
 * Usual chip load, mm per tooth, of a router cutter of that diameter, mm (3.175 to 12.7), linear between the printed
 * diameters. Light machines run a third of it; 2 diameters deep in one pass a quarter less, 3 diameters half.
 * Throws UnknownEntry for an unknown kind of material, RangeError for another diameter.
 */
export function chipLoad(kind: string, diameter: number): ChipLoad {
  const row = lookUp(chipLoads, kind);
  const end = chipDiameters.findIndex((d) => d >= diameter);
  if (end < 0 || !(diameter >= chipDiameters[0])) {
    throw new RangeError(
      `chip loads are known for cutters from ${chipDiameters[0]} to ${chipDiameters.at(-1)} mm, not ${diameter}`,
    );
  }
  const high = row[end] as ChipLoad;
  if (end === 0) return high;
  const low = row[end - 1] as ChipLoad;
  const [d0, d1] = [chipDiameters[end - 1] as number, chipDiameters[end] as number];
  const share = (diameter - d0) / (d1 - d0);
  return [low[0] + share * (high[0] - low[0]), low[1] + share * (high[1] - low[1])];
}

/** Diameters of the columns, mm: 1/8, 1/4, 3/8 and 1/2 inch. */
export const chipDiameters = [3.175, 6.35, 9.53, 12.7] as const;

/**
 * "Soft plastic": ABS, PC, PE, PVC, PP and extruded acrylic; "hard plastic": cast acrylic and the like. Other advice for
 * 1/4 inch in plastics runs from 0.05 to 0.25 mm, so this is a starting point.
 */
export const chipLoads: Table<readonly ChipLoad[]> = {
  id: "chip-loads",
  title: "Chip load of router cutters",
  source: "Chip load chart of the cutter trade, inches converted; common practice",
  basis: "common practice",
  unit: "mm per tooth, by cutter diameter",
  key: "kind",
  columns: [],
  rows: {
    "hard plastic": [
      [0.05, 0.1],
      [0.15, 0.23],
      [0.2, 0.25],
      [0.25, 0.3],
    ],
    "soft plastic": [
      [0.08, 0.15],
      [0.18, 0.25],
      [0.25, 0.3],
      [0.3, 0.41],
    ],
    acrylic: [
      [0.08, 0.13],
      [0.2, 0.25],
      [0.25, 0.3],
      [0.3, 0.38],
    ],
    aluminium: [
      [0.08, 0.1],
      [0.13, 0.18],
      [0.15, 0.2],
      [0.2, 0.25],
    ],
    "soft plywood": [
      [0.1, 0.15],
      [0.28, 0.33],
      [0.43, 0.51],
      [0.53, 0.58],
    ],
  },
};
