import { rememberedFor } from "../remember.js";
import type { Contour, Point, Region } from "./contour.js";
import { arcParameter, type Segment, segments } from "./segment.js";

/** The upright rectangle around something, mm. */
export interface Box {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/** The tightest upright box around a contour, arcs included. Throws RangeError on a contour without vertices. */
export function bounds(contour: Contour): Box {
  if (contour.length === 0) throw new RangeError("a contour without vertices has no bounds");
  return boxOf(contour);
}

const boxOf = rememberedFor((contour: Contour) => pieceBounds(contour).reduce(boxAround));

/** The boxes of the pieces of a contour, in the order of `segments`. */
export const pieceBounds: (contour: Contour) => readonly Box[] = rememberedFor((contour: Contour) =>
  segments(contour).map(segmentBounds),
);

/** The box of a region is that of its outer contour. */
export function regionBounds(region: Region): Box {
  return bounds(region.outer);
}

export function segmentBounds(segment: Segment): Box {
  const { from, to } = segment;
  let minX = Math.min(from.x, to.x);
  let minY = Math.min(from.y, to.y);
  let maxX = Math.max(from.x, to.x);
  let maxY = Math.max(from.y, to.y);
  if (segment.kind === "arc") {
    const { center, radius } = segment;
    if (arcParameter(segment, 0) !== undefined) maxX = Math.max(maxX, center.x + radius);
    if (arcParameter(segment, Math.PI / 2) !== undefined) maxY = Math.max(maxY, center.y + radius);
    if (arcParameter(segment, Math.PI) !== undefined) minX = Math.min(minX, center.x - radius);
    if (arcParameter(segment, -Math.PI / 2) !== undefined) minY = Math.min(minY, center.y - radius);
  }
  return { minX, minY, maxX, maxY };
}

export function boxAround(a: Box, b: Box): Box {
  return {
    minX: Math.min(a.minX, b.minX),
    minY: Math.min(a.minY, b.minY),
    maxX: Math.max(a.maxX, b.maxX),
    maxY: Math.max(a.maxY, b.maxY),
  };
}

export function grownBox(box: Box, by: number): Box {
  return { minX: box.minX - by, minY: box.minY - by, maxX: box.maxX + by, maxY: box.maxY + by };
}

export function boxesMeet(a: Box, b: Box): boolean {
  return a.minX <= b.maxX && b.minX <= a.maxX && a.minY <= b.maxY && b.minY <= a.maxY;
}

/** A lower bound for the distance of anything in one box to anything in the other. */
export function boxDistance(a: Box, b: Box): number {
  const dx = Math.max(0, a.minX - b.maxX, b.minX - a.maxX);
  const dy = Math.max(0, a.minY - b.maxY, b.minY - a.maxY);
  return dx === 0 ? dy : dy === 0 ? dx : Math.hypot(dx, dy);
}

export function pointBoxDistance(point: Point, box: Box): number {
  return boxDistance({ minX: point.x, minY: point.y, maxX: point.x, maxY: point.y }, box);
}
