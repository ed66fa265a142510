import type { Box } from "./bounds.js";

/** Indexes of all pairs of boxes that overlap or touch, by one sweep along x. */
export function overlappingPairs(boxes: readonly Box[]): [number, number][] {
  const order = boxes.map((_, index) => index).sort((i, j) => (boxes[i]?.minX ?? 0) - (boxes[j]?.minX ?? 0));
  const pairs: [number, number][] = [];
  let open: number[] = [];
  for (const index of order) {
    const box = boxes[index];
    if (box === undefined) continue;
    open = open.filter((other) => (boxes[other]?.maxX ?? 0) >= box.minX);
    for (const other of open) {
      const against = boxes[other];
      if (against !== undefined && against.minY <= box.maxY && box.minY <= against.maxY)
        pairs.push([other, index]);
    }
    open.push(index);
  }
  return pairs;
}
