import type { Laid } from "./silhouette.js";

/**
 * How much two silhouettes that collide overlap, judged by their poles: the square root of
 *
 *     sum over pairs of poles of f(r + s - distance) * min(r, s),   f(p) = p for p >= eps, eps^2 / (2 eps - p) below,
 *
 * so it grows with the depth of the overlap and fades smoothly to nothing outside instead of ending, which gives the
 * search a slope to go down even where no poles touch. `eps` is 1 % of the larger diameter. Cost: poles^2.
 */
export function overlapProxy(a: Laid, b: Laid): number {
  const eps = 0.01 * Math.max(a.silhouette.diameter, b.silhouette.diameter);
  const p = a.poles;
  const q = b.poles;
  const n = a.silhouette.poles.length;
  const m = b.silhouette.poles.length;
  let sum = 0;
  for (let i = 0; i < n; i += 3) {
    for (let j = 0; j < m; j += 3) {
      const dx = p[i] - q[j];
      const dy = p[i + 1] - q[j + 1];
      const depth = p[i + 2] + q[j + 2] - Math.sqrt(dx * dx + dy * dy);
      const faded = depth >= eps ? depth : (eps * eps) / (2 * eps - depth);
      sum += faded * Math.min(p[i + 2], q[j + 2]);
    }
  }
  return Math.sqrt(sum);
}
