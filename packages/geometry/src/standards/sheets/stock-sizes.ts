import type { Table } from "../table.js";

/** Sheets as they are commonly sold, mm: never assume more than nominal. */
export interface StockSizes {
  /** Length x width. */
  readonly sizes: readonly string[];
  readonly thicknesses: readonly number[];
}

export const stockSizes: Table<StockSizes> = {
  id: "stock-sizes",
  title: "Sheet sizes commonly sold",
  source:
    "Common practice of the sheet trade; largest PE, PP and PVC-U size, acrylic, square plywood and aluminium sizes from memory",
  basis: "common practice",
  unit: "mm",
  note: "Plywood: 1220 and 1250 +-3, 2440 and 2500 +-4, squareness 2 mm/m. Usable size is nominal less the trim.",
  key: "materials",
  columns: ["sizes", "thicknesses"],
  rows: {
    "PE-HD, PP-H, PVC-U": {
      sizes: ["2000 x 1000", "2440 x 1220", "3000 x 1500", "4000 x 2000"],
      thicknesses: [2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30],
    },
    "PMMA, PC": {
      sizes: ["3050 x 2050", "3050 x 2030", "2440 x 1220", "2000 x 1000"],
      thicknesses: [1.5, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25],
    },
    "PVC foamed": {
      sizes: ["2440 x 1220", "3050 x 1560", "3050 x 2050"],
      thicknesses: [],
    },
    "birch plywood": {
      sizes: ["2440 x 1220", "2500 x 1250", "1525 x 1525", "3050 x 1525"],
      thicknesses: [4, 6.5, 9, 12, 15, 18, 21],
    },
    aluminium: {
      sizes: ["2000 x 1000", "2500 x 1250", "3000 x 1500"],
      thicknesses: [],
    },
  },
};
