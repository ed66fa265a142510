import { bounds, type Contour } from "../../packages/geometry/dist/index.js";
import type { BatchJob, BatchStock } from "../../packages/nesting/dist/index.js";

/** The parts of maxrects-packer used here; its own declarations do not compile with this compiler. */
interface PackerModule {
  MaxRectsPacker: new (
    width: number,
    height: number,
    padding: number,
    options: Record<"smart" | "pot" | "square" | "allowRotation", boolean>,
  ) => {
    readonly bins: readonly unknown[];
    readonly rects: readonly { readonly oversized?: boolean }[];
    addArray(rectangles: readonly object[]): void;
  };
  Rectangle: new (
    width: number,
    height: number,
    x: number,
    y: number,
    turned: boolean,
    allowRotation: boolean,
  ) => object;
}
// The package's main file is no module although it says so; the one named here is.
const packerFile: string = "maxrects-packer/dist/maxrects-packer.mjs";
const { MaxRectsPacker, Rectangle: PackedRectangle } = (await import(packerFile)) as PackerModule;

/** Sheets and money of a simple way to do a job. */
export interface Baseline {
  readonly sheets: number;
  readonly cost: number;
}

interface Rectangle {
  readonly length: number;
  readonly width: number;
  readonly turns: boolean;
}

/**
 * Bounding rectangles of the plates packed by maxrects-packer, a general packer of rectangles, either way round where
 * the plate may turn. One kind of bought sheet throughout, whichever is cheapest.
 */
export function rectangleBaseline(job: BatchJob): Baseline | undefined {
  const rectangles = job.parts.flatMap((part) => {
    const box = boxOf(part.region.outer);
    const turns = part.rotations === "any" || part.rotations.some((angle) => angle % 180 !== 0);
    const grown = { length: box.length + job.clearance, width: box.width + job.clearance, turns };
    return Array.from({ length: part.demand }, () => grown);
  });
  const found = job.stock.flatMap((stock): Baseline[] => {
    if (stock.available !== "unlimited") return [];
    const room = boxOf(stock.outline);
    const inset = job.clearance - 2 * job.edgeMargin;
    const sheets = packed(rectangles, room.length + inset, room.width + inset);
    return sheets === undefined ? [] : [{ sheets, cost: sheets * priceAt(stock, sheets) }];
  });
  return found.sort((a, b) => a.cost - b.cost)[0];
}

/** How many sheets the rectangles take; undefined when one is larger than a sheet. */
function packed(rectangles: readonly Rectangle[], length: number, width: number): number | undefined {
  const packer = new MaxRectsPacker(length, width, 0, {
    smart: false,
    pot: false,
    square: false,
    allowRotation: true,
  });
  const notTurned = false;
  packer.addArray(
    rectangles.map(
      (rectangle) => new PackedRectangle(rectangle.length, rectangle.width, 0, 0, notTurned, rectangle.turns),
    ),
  );
  if (packer.rects.some((rectangle) => rectangle.oversized)) return undefined;
  return packer.bins.length;
}

function boxOf(contour: Contour): { length: number; width: number } {
  const box = bounds(contour);
  return { length: box.maxX - box.minX, width: box.maxY - box.minY };
}

export function priceAt(stock: BatchStock, count: number): number {
  const tiers = stock.tiers ?? [{ from: 1, each: stock.cost }];
  return (tiers.findLast((tier) => tier.from <= count) ?? (tiers[0] as { each: number })).each;
}
