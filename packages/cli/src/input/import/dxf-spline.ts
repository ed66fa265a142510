import type { Point } from "@keelcut/geometry";
import type { Curve } from "./pen.js";

/** A rational B-spline: `knots.length` = controls + degree + 1. */
export interface Spline {
  readonly degree: number;
  readonly knots: readonly number[];
  readonly controls: readonly Point[];
  /** One per control point; all 1 when the spline is not rational. */
  readonly weights: readonly number[];
}

/** The reason a spline cannot be evaluated, or undefined. */
export function splineFault({ degree, knots, controls, weights }: Spline): string | undefined {
  if (!Number.isInteger(degree) || degree < 1 || degree > 10) return `degree ${degree}`;
  if (controls.length <= degree) return `${controls.length} control points for degree ${degree}`;
  if (knots.length !== controls.length + degree + 1) {
    return `${knots.length} knots, expected ${controls.length + degree + 1}`;
  }
  if (weights.length !== controls.length)
    return `${weights.length} weights for ${controls.length} control points`;
  if (weights.some((weight) => !(weight > 0))) return "a weight that is not positive";
  if (knots.some((knot, index) => index > 0 && knot < (knots[index - 1] ?? knot))) return "knots that fall";
  if (!((knots[controls.length] ?? 0) > (knots[degree] ?? 0))) return "an empty range of knots";
  return undefined;
}

/** The spline as smooth pieces, one for each span between different knots: corners can only lie between them. */
export function splinePieces(spline: Spline): Curve[] {
  const { degree, knots, controls } = spline;
  const pieces: Curve[] = [];
  for (let span = degree; span < controls.length; span++) {
    const from = knots[span] ?? 0;
    const to = knots[span + 1] ?? 0;
    if (to <= from) continue;
    const width = to - from;
    const at = (t: number): Point => pointAt(spline, span, from + width * t);
    pieces.push({ at, tangent: (t) => tangentAt(spline, span, from + width * t, width) });
  }
  return pieces;
}

interface Weighted {
  readonly x: number;
  readonly y: number;
  readonly w: number;
}

function pointAt(spline: Spline, span: number, u: number): Point {
  const { x, y, w } = deBoor(weightedControls(spline, span), spline, span, spline.degree, u);
  return { x: x / w, y: y / w };
}

/** Quotient rule on the weighted curve, whose derivative is a spline of one degree less. */
function tangentAt(spline: Spline, span: number, u: number, width: number): Point {
  const { degree, knots } = spline;
  const controls = weightedControls(spline, span);
  const value = deBoor(controls, spline, span, degree, u);
  const slopes = controls.slice(1).map((point, index) => {
    const before = controls[index] ?? point;
    const first = span - degree + index + 1;
    const factor = degree / ((knots[first + degree] ?? 0) - (knots[first] ?? 0));
    return {
      x: (point.x - before.x) * factor,
      y: (point.y - before.y) * factor,
      w: (point.w - before.w) * factor,
    };
  });
  const slope = deBoor(slopes, spline, span, degree - 1, u);
  return {
    x: (width * (slope.x - (value.x / value.w) * slope.w)) / value.w,
    y: (width * (slope.y - (value.y / value.w) * slope.w)) / value.w,
  };
}

function weightedControls({ degree, controls, weights }: Spline, span: number): Weighted[] {
  return controls.slice(span - degree, span + 1).map(({ x, y }, index) => {
    const w = weights[span - degree + index] ?? 1;
    return { x: x * w, y: y * w, w };
  });
}

/**
 * De Boor's scheme within one span (de Boor, A Practical Guide to Splines, 1978, ch. X), over the `degree` + 1
 * control points that act there.
 */
function deBoor(
  controls: readonly Weighted[],
  spline: Spline,
  span: number,
  degree: number,
  u: number,
): Weighted {
  const { knots } = spline;
  const points = [...controls];
  for (let round = 1; round <= degree; round++) {
    for (let j = degree; j >= round; j--) {
      const low = knots[span - degree + j] ?? 0;
      const high = knots[span + 1 + j - round] ?? 0;
      const part = (u - low) / (high - low);
      const a = points[j - 1];
      const b = points[j];
      if (a === undefined || b === undefined) continue;
      points[j] = { x: a.x + (b.x - a.x) * part, y: a.y + (b.y - a.y) * part, w: a.w + (b.w - a.w) * part };
    }
  }
  return points[degree] ?? { x: 0, y: 0, w: 1 };
}
