import { type Contour, type Point, type Segment, segments } from "@keelcut/geometry";

/** A contour's pieces made once, for many distances. */
export type Curve = readonly Segment[];

export function curveOf(contour: Contour): Curve {
  return segments(contour);
}

/** Distance of a point from the nearest piece, mm. */
export function distanceTo(curve: Curve, point: Point): number {
  let least = Number.POSITIVE_INFINITY;
  for (const piece of curve) least = Math.min(least, pieceDistance(piece, point));
  return least;
}

function pieceDistance(piece: Segment, { x, y }: Point): number {
  const { from, to } = piece;
  if (piece.kind === "arc") {
    const { center, radius, startAngle, sweep } = piece;
    const [dx, dy] = [x - center.x, y - center.y];
    let along = (Math.atan2(dy, dx) - startAngle) * Math.sign(sweep);
    along -= 2 * Math.PI * Math.floor(along / (2 * Math.PI));
    if (along <= Math.abs(sweep)) return Math.abs(Math.hypot(dx, dy) - radius);
  } else {
    const [dx, dy] = [to.x - from.x, to.y - from.y];
    const part = ((x - from.x) * dx + (y - from.y) * dy) / (dx * dx + dy * dy);
    if (part > 0 && part < 1) return Math.hypot(x - from.x - part * dx, y - from.y - part * dy);
  }
  return Math.min(Math.hypot(x - from.x, y - from.y), Math.hypot(x - to.x, y - to.y));
}
