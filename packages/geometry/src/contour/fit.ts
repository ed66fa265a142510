import type { Contour, Point, Vertex } from "./contour.js";

/** Interim: replaced by the kernel's biarc fit. */
export function fitArcs(
  curve: { readonly at: (t: number) => Point; readonly tangent: (t: number) => Point },
  tolerance: number,
): Contour {
  for (let count = 8; ; count *= 2) {
    const vertices: Vertex[] = [];
    let worst = 0;
    for (let i = 0; i < count; i++) {
      const a = curve.at(i / count);
      const m = curve.at((i + 0.5) / count);
      const b = curve.at((i + 1) / count);
      const chord = Math.hypot(b.x - a.x, b.y - a.y);
      const sagitta = ((b.x - a.x) * (m.y - a.y) - (b.y - a.y) * (m.x - a.x)) / chord;
      const bulge = (-2 * sagitta) / chord;
      vertices.push({ ...a, bulge });
      const radius = (chord * (1 + bulge * bulge)) / (4 * Math.abs(bulge));
      const mx = (a.x + b.x) / 2;
      const my = (a.y + b.y) / 2;
      const h = ((1 - bulge * bulge) / (2 * bulge)) * 0.5;
      const c = { x: mx - (b.y - a.y) * h, y: my + (b.x - a.x) * h };
      for (const f of [0.25, 0.75]) {
        const q = curve.at((i + f) / count);
        worst = Math.max(worst, Math.abs(Math.hypot(q.x - c.x, q.y - c.y) - radius));
      }
    }
    if (worst <= tolerance || count > 4096) return vertices;
  }
}
