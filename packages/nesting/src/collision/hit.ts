import type { Laid } from "./silhouette.js";

/**
 * Whether two laid silhouettes collide: boxes, then poles (two that overlap are a sure hit, and cheap), then edge against
 * edge within the common box, then whether one lies inside the other.
 *
 * Touching counts as a collision: two plates pressed against the same wall share collinear edges, and there only the
 * touch of a third edge tells that they overlap. Collinear edges themselves never count.
 *
 * Cost: poles^2, then edges in the common box squared.
 */
export function collide(a: Laid, b: Laid): boolean {
  return boxesMeet(a, b) && (polesMeet(a, b) || outlinesMeet(a, b));
}

export function boxesMeet(a: Laid, b: Laid): boolean {
  return a.minX < b.maxX && b.minX < a.maxX && a.minY < b.maxY && b.minY < a.maxY;
}

export function polesMeet(a: Laid, b: Laid): boolean {
  const p = a.poles;
  const q = b.poles;
  const n = a.silhouette.poles.length;
  const m = b.silhouette.poles.length;
  for (let i = 0; i < n; i += 3) {
    const x = p[i];
    const y = p[i + 1];
    const r = p[i + 2];
    if (x + r < b.minX || x - r > b.maxX || y + r < b.minY || y - r > b.maxY) continue;
    for (let j = 0; j < m; j += 3) {
      const dx = x - q[j];
      const dy = y - q[j + 1];
      const sum = r + q[j + 2];
      if (dx * dx + dy * dy < sum * sum * (1 - 1e-12)) return true;
    }
  }
  return false;
}

/** Edges that cross or touch, or one outline inside the other. */
export function outlinesMeet(a: Laid, b: Laid): boolean {
  const minX = Math.max(a.minX, b.minX);
  const maxX = Math.min(a.maxX, b.maxX);
  const minY = Math.max(a.minY, b.minY);
  const maxY = Math.min(a.maxY, b.maxY);
  const p = a.corners;
  const q = b.corners;
  const { next } = a.silhouette;
  const other = b.silhouette.next;
  for (let i = 0; i < next.length; i++) {
    const ax = p[2 * i];
    const ay = p[2 * i + 1];
    const bx = p[2 * next[i]];
    const by = p[2 * next[i] + 1];
    if ((ax < minX && bx < minX) || (ax > maxX && bx > maxX)) continue;
    if ((ay < minY && by < minY) || (ay > maxY && by > maxY)) continue;
    const ux = bx - ax;
    const uy = by - ay;
    for (let j = 0; j < other.length; j++) {
      const cx = q[2 * j];
      const cy = q[2 * j + 1];
      const dx = q[2 * other[j]];
      const dy = q[2 * other[j] + 1];
      if ((cx < minX && dx < minX) || (cx > maxX && dx > maxX)) continue;
      if ((cy < minY && dy < minY) || (cy > maxY && dy > maxY)) continue;
      const c = ux * (cy - ay) - uy * (cx - ax);
      const d = ux * (dy - ay) - uy * (dx - ax);
      if ((c > 0 && d > 0) || (c < 0 && d < 0) || (c === 0 && d === 0)) continue;
      const e = (dx - cx) * (ay - cy) - (dy - cy) * (ax - cx);
      const f = (dx - cx) * (by - cy) - (dy - cy) * (bx - cx);
      if ((e > 0 && f > 0) || (e < 0 && f < 0) || (e === 0 && f === 0)) continue;
      return true;
    }
  }
  return holds(a, q[0], q[1]) || holds(b, p[0], p[1]);
}

/** Whether a laid silhouette's material holds a point; even-odd over all rings. */
export function holds(a: Laid, x: number, y: number): boolean {
  if (x < a.minX || x > a.maxX || y < a.minY || y > a.maxY) return false;
  const p = a.corners;
  const { next } = a.silhouette;
  let inside = false;
  for (let i = 0; i < next.length; i++) {
    const ay = p[2 * i + 1];
    const by = p[2 * next[i] + 1];
    if (ay > y === by > y) continue;
    if (x < p[2 * i] + ((y - ay) * (p[2 * next[i]] - p[2 * i])) / (by - ay)) inside = !inside;
  }
  return inside;
}
