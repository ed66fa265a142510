import { type Box, bounds, placeContour, signedArea } from "@keelcut/geometry";
import type { NestPart, PlacedPart, Stock } from "./job.js";
import { type Gaps, newGaps, resetGaps, takeOut } from "./sheets/gaps.js";

/** Sides a rest must have at least, mm, either way round. */
export interface LeastRest {
  readonly length: number;
  readonly width: number;
}

/**
 * The rest of a cut piece of stock that can be sawn off: the largest rectangle within its outline that no plate and no
 * keep-out touches, plates taken as their bounding boxes grown by the clearance; in the stock's coordinates, mm.
 * `undefined` when none is as large as wanted, and for stock that is no rectangle: a rest of a rest is not kept.
 */
export function largestRest(
  stock: Pick<Stock, "outline" | "keepOuts">,
  plates: readonly Box[],
  clearance: number,
  least: LeastRest,
): Box | undefined {
  const whole = bounds(stock.outline);
  const length = whole.maxX - whole.minX;
  const width = whole.maxY - whole.minY;
  const straight = stock.outline.every((vertex) => vertex.bulge === 0);
  const area = length * width;
  if (!straight || Math.abs(Math.abs(signedArea(stock.outline)) - area) > 1e-9 * area) return undefined;
  const taken = [...plates.map((plate) => grown(plate, clearance)), ...stock.keepOuts.map(bounds)];
  const free = largestFreeRectangle(
    length,
    width,
    taken.map((box) => moved(box, -whole.minX, -whole.minY)),
    least,
  );
  return free && moved(free, whole.minX, whole.minY);
}

/** The bounding boxes of plates where they lie on a sheet. */
export function placedBoxes(
  placements: readonly PlacedPart[],
  parts: readonly Pick<NestPart, "id" | "region">[],
): Box[] {
  const outlines = new Map(parts.map(({ id, region }) => [id, region.outer]));
  return placements.flatMap((placement) => {
    const outline = outlines.get(placement.part);
    return outline === undefined ? [] : [bounds(placeContour(outline, placement))];
  });
}

function grown(box: Box, by: number): Box {
  return { minX: box.minX - by, minY: box.minY - by, maxX: box.maxX + by, maxY: box.maxY + by };
}

function moved(box: Box, x: number, y: number): Box {
  return { minX: box.minX + x, minY: box.minY + y, maxX: box.maxX + x, maxY: box.maxY + y };
}

/**
 * The largest rectangle of a sheet that touches none of the boxes, with sides of at least `least` either way round;
 * `undefined` when there is none.
 *
 * Every maximal free rectangle has its lower and upper side on the sheet's edge or on a box. For each lower side the boxes
 * are met from there upwards: the gaps between those met so far are as high as the next box is low. O(n^2) looks at the
 * gaps for n boxes; on a full sheet the gaps are soon too narrow.
 */
function largestFreeRectangle(
  length: number,
  width: number,
  boxes: readonly Box[],
  least: LeastRest,
): Box | undefined {
  const upwards = boxes.toSorted((a, b) => a.minY - b.minY);
  const inside = (y: number): number => Math.min(width, Math.max(0, y));
  const bottoms = [...new Set([0, ...boxes.map((box) => inside(box.maxY))])].sort((a, b) => a - b);
  const small = Math.min(least.length, least.width);
  const large = Math.max(least.length, least.width);
  let best: Box | undefined;
  let bestArea = 0;
  const gaps = newGaps();
  for (const minY of bottoms) {
    resetGaps(gaps, 0, length);
    const offer = (maxY: number): void => {
      const height = maxY - minY;
      for (let k = 0; k < gaps.count; k++) {
        const minX = gaps.ends[2 * k] as number;
        const maxX = gaps.ends[2 * k + 1] as number;
        const span = maxX - minX;
        if (span * height <= bestArea || Math.min(span, height) < small || Math.max(span, height) < large)
          continue;
        best = { minX, minY, maxX, maxY };
        bestArea = span * height;
      }
    };
    for (const box of upwards) {
      if (box.maxY <= minY) continue;
      if (box.minY > minY) offer(inside(box.minY));
      takeOut(gaps, box.minX, box.maxX);
      const span = widest(gaps);
      if (span < small || span * (width - minY) <= bestArea) break;
    }
    offer(width);
  }
  return best;
}

function widest({ ends, count }: Gaps): number {
  let span = 0;
  for (let k = 0; k < count; k++)
    span = Math.max(span, (ends[2 * k + 1] as number) - (ends[2 * k] as number));
  return span;
}
