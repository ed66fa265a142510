import type { AxisPart } from "../../frame/frame.js";

/** Something round along an axis of the vehicle. */
export type Cylinder = Pick<AxisPart, "from" | "to" | "diameter">;

/**
 * Air between two round things, both along axes of the vehicle, mm; negative when they run into each other.
 *
 * The thicker one is seen end on, as a circle; the other is a point there or a line. Ends are flat. A thin one that ends
 * beside the circle counts as if its end were round, which is off by its radius at the most.
 */
export function airBetween(a: Cylinder, b: Cylinder): number {
  const [thick, thin] = a.diameter >= b.diameter ? [a, b] : [b, a];
  const along = axisOf(thick);
  const sideways = [0, 1, 2].filter((axis) => axis !== along);
  const distance = Math.hypot(
    ...sideways.map((axis) => {
      const [low, high] = rangeOf(thin, axis);
      const middle = thick.from[axis] ?? 0;
      return Math.max(low - middle, middle - high, 0);
    }),
  );
  const [low, high] = rangeOf(thick, along);
  const reach = axisOf(thin) === along ? 0 : thin.diameter / 2;
  const [thinLow, thinHigh] = rangeOf(thin, along);
  const beyondEnd = Math.max(thinLow - reach - high, low - thinHigh - reach);
  return Math.max(beyondEnd, distance - (thick.diameter + thin.diameter) / 2);
}

function axisOf({ from, to }: Cylinder): number {
  const lengths = from.map((value, axis) => Math.abs((to[axis] ?? value) - value));
  return lengths.indexOf(Math.max(...lengths));
}

function rangeOf({ from, to }: Cylinder, axis: number): readonly [number, number] {
  const [a, b] = [from[axis] ?? 0, to[axis] ?? 0];
  return [Math.min(a, b), Math.max(a, b)];
}
