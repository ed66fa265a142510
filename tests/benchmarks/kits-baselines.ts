import { bounds, type Contour } from "../../packages/geometry/dist/index.js";
import type { BatchJob, BatchStock } from "../../packages/nesting/dist/index.js";

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
 * Bounding rectangles of the plates, largest first, each on the first sheet that has room at the lowest place of its
 * skyline, either way round where the plate may turn. One kind of bought sheet throughout, whichever is cheapest.
 */
export function rectangleBaseline(job: BatchJob): Baseline | undefined {
  const rectangles = job.parts.flatMap((part) => {
    const box = boxOf(part.region.outer);
    const turns = part.rotations === "any" || part.rotations.some((angle) => angle % 180 !== 0);
    const grown = { length: box.length + job.clearance, width: box.width + job.clearance, turns };
    return Array.from({ length: part.demand }, () => grown);
  });
  rectangles.sort((a, b) => b.length * b.width - a.length * a.width);
  const found = job.stock.flatMap((stock): Baseline[] => {
    if (stock.available !== "unlimited") return [];
    const room = boxOf(stock.outline);
    const inset = job.clearance - 2 * job.edgeMargin;
    const sheets = packed(rectangles, room.length + inset, room.width + inset);
    return sheets === undefined ? [] : [{ sheets, cost: sheets * priceAt(stock, sheets) }];
  });
  return found.sort((a, b) => a.cost - b.cost)[0];
}

function packed(rectangles: readonly Rectangle[], length: number, width: number): number | undefined {
  const sheets: Skyline[] = [];
  // What found no room on a sheet finds none later: equal rectangles begin where the last one went.
  const first = new Map<Rectangle, number>();
  for (const rectangle of rectangles) {
    let at = first.get(rectangle) ?? 0;
    while (at < sheets.length && !(sheets[at] as Skyline).lay(rectangle)) at++;
    if (at === sheets.length) {
      const sheet = new Skyline(length, width);
      if (!sheet.lay(rectangle)) return undefined;
      sheets.push(sheet);
    }
    first.set(rectangle, at);
  }
  return sheets.length;
}

/** The upper edge of what lies on a sheet, as level stretches from left to right. */
class Skyline {
  private readonly length: number;
  private readonly width: number;
  private steps: { x: number; y: number; length: number }[];

  constructor(length: number, width: number) {
    this.length = length;
    this.width = width;
    this.steps = [{ x: 0, y: 0, length }];
  }

  lay({ length, width, turns }: Rectangle): boolean {
    const ways = turns
      ? [
          { length, width },
          { length: width, width: length },
        ]
      : [{ length, width }];
    let best: { x: number; y: number; length: number; width: number } | undefined;
    for (const way of ways) {
      for (const { x } of this.steps) {
        if (x + way.length > this.length + 1e-9) continue;
        const y = this.heightOver(x, way.length);
        if (y + way.width > this.width + 1e-9) continue;
        if (best === undefined || y + way.width < best.y + best.width) best = { x, y, ...way };
      }
    }
    if (best === undefined) return false;
    this.raise(best.x, best.length, best.y + best.width);
    return true;
  }

  private heightOver(x: number, length: number): number {
    const over = this.steps.filter((step) => step.x < x + length - 1e-9 && step.x + step.length > x + 1e-9);
    return Math.max(...over.map((step) => step.y));
  }

  private raise(x: number, length: number, y: number): void {
    const end = x + length;
    this.steps = [
      ...this.steps.flatMap((step) => {
        const before = Math.min(step.length, x - step.x);
        const after = Math.min(step.length, step.x + step.length - end);
        return [
          ...(before > 1e-9 ? [{ x: step.x, y: step.y, length: before }] : []),
          ...(after > 1e-9 ? [{ x: step.x + step.length - after, y: step.y, length: after }] : []),
        ];
      }),
      { x, y, length },
    ].sort((a, b) => a.x - b.x);
  }
}

function boxOf(contour: Contour): { length: number; width: number } {
  const box = bounds(contour);
  return { length: box.maxX - box.minX, width: box.maxY - box.minY };
}

export function priceAt(stock: BatchStock, count: number): number {
  const tiers = stock.tiers ?? [{ from: 1, each: stock.cost }];
  return (tiers.findLast((tier) => tier.from <= count) ?? (tiers[0] as { each: number })).each;
}
