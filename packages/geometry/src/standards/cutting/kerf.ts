import type { CuttingMethod } from "../../frame/parameters.js";
import { numberTable, type Table } from "../table.js";

/**
 * Kerf, mm, taken where nothing is known of the machine: a 1/8 inch router cutter, a carbon dioxide laser, an abrasive
 * waterjet (0.5 and 0.76 are also offered). Common practice: ask the shop, or measure a test cut.
 */
export const usualKerf: Readonly<Record<CuttingMethod, number>> = {
  router: 3.175,
  laser: 0.2,
  waterjet: 1,
};

/**
 * 3 mm acrylic is printed as 0.15, 0.20 and 0.23: kerf differs by machine, along x and y, on curves and across one
 * sheet. It stays an input.
 */
export const laserKerfs: Table<{ readonly thickness: number; readonly kerf: number }> = numberTable(
  {
    id: "laser-kerf",
    title: "Kerf of carbon dioxide lasers",
    source: "Public guides of cutting shops; common practice",
    basis: "common practice",
    unit: "mm",
    note: "Any material: 0.08 to 0.45.",
  },
  "sheet",
  ["thickness", "kerf"],
  {
    "acrylic 1.6": [1.6, 0.18],
    "acrylic 3.2": [3.2, 0.23],
    "acrylic 6.35": [6.35, 0.25],
    "cast acrylic 3": [3, 0.15],
    "cast acrylic 6": [6, 0.18],
    "cast acrylic 10": [10, 0.25],
    "clear acrylic 3": [3, 0.2],
    "birch plywood 1.6": [1.6, 0.15],
    "birch plywood 3.2": [3.2, 0.2],
    "birch plywood 6.35": [6.35, 0.25],
    "plywood 3": [3, 0.2],
    "plywood 6": [6, 0.25],
  },
);

/** Router cutters that are commonly sold, mm (from memory). */
export const routerCutters: readonly number[] = [1.5, 2, 3, 3.175, 4, 5, 6, 6.35, 8];
