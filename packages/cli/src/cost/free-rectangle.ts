import type { Box } from "@keelcut/geometry";

/**
 * The largest rectangle of a sheet that touches none of the boxes, with sides of at least `least` either way round;
 * `undefined` when there is none.
 *
 * Every maximal free rectangle has its lower and upper side on the sheet's edge or on a box, so trying all pairs of these
 * heights and the widest gap between the boxes in that strip finds the largest. O(n^3) for n boxes, mostly pruned.
 */
export function largestFreeRectangle(
  length: number,
  width: number,
  boxes: readonly Box[],
  least: { readonly length: number; readonly width: number },
): Box | undefined {
  const blocks = [...boxes].sort((a, b) => a.minX - b.minX);
  const inside = (y: number): number => Math.min(width, Math.max(0, y));
  const heights = [...new Set([0, width, ...boxes.flatMap((box) => [inside(box.minY), inside(box.maxY)])])];
  heights.sort((a, b) => a - b);
  const small = Math.min(least.length, least.width);
  const large = Math.max(least.length, least.width);
  let best: Box | undefined;
  let bestArea = 0;
  for (const minY of heights) {
    for (const maxY of heights) {
      const height = maxY - minY;
      if (height < small || height * length <= bestArea) continue;
      const gap = widestGap(length, blocks, minY, maxY);
      const span = gap.to - gap.from;
      if (span * height <= bestArea || Math.min(span, height) < small || Math.max(span, height) < large)
        continue;
      best = { minX: gap.from, minY, maxX: gap.to, maxY };
      bestArea = span * height;
    }
  }
  return best;
}

function widestGap(
  length: number,
  blocks: readonly Box[],
  minY: number,
  maxY: number,
): { from: number; to: number } {
  let best = { from: 0, to: 0 };
  let free = 0;
  const offer = (to: number): void => {
    if (to - free > best.to - best.from) best = { from: free, to };
  };
  for (const block of blocks) {
    if (block.minY >= maxY || block.maxY <= minY) continue;
    offer(Math.min(block.minX, length));
    free = Math.max(free, block.maxX);
  }
  offer(length);
  return best;
}
