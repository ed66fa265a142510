import {
  asCircle,
  type Contour,
  contourFaults,
  fitArcs,
  type Point,
  pathSegments,
  type Segment,
  segmentLength,
  signedArea,
  tangentAt,
  type Vertex,
} from "@keelcut/geometry";
import { describe, expect, test } from "vitest";

const ellipse = (a: number, b: number) => ({
  at: (t: number) => ({ x: a * Math.cos(2 * Math.PI * t), y: b * Math.sin(2 * Math.PI * t) }),
  tangent: (t: number) => ({ x: -a * Math.sin(2 * Math.PI * t), y: b * Math.cos(2 * Math.PI * t) }),
});

function distanceToPath(path: readonly Vertex[], closed: boolean, point: Point): number {
  return Math.min(...pathSegments({ vertices: path, closed }).map((piece) => distanceToPiece(piece, point)));
}

function distanceToPiece(piece: Segment, point: Point): number {
  if (piece.kind === "arc") {
    const angle = Math.atan2(point.y - piece.center.y, point.x - piece.center.x);
    const turn = 2 * Math.PI;
    const travelled = (((Math.sign(piece.sweep) * (angle - piece.startAngle)) % turn) + turn) % turn;
    const away = Math.abs(Math.hypot(point.x - piece.center.x, point.y - piece.center.y) - piece.radius);
    return travelled <= Math.abs(piece.sweep) ? away : ends(piece, point);
  }
  const [dx, dy] = [piece.to.x - piece.from.x, piece.to.y - piece.from.y];
  const t = ((point.x - piece.from.x) * dx + (point.y - piece.from.y) * dy) / (dx * dx + dy * dy);
  if (t < 0 || t > 1) return ends(piece, point);
  return Math.hypot(point.x - piece.from.x - t * dx, point.y - piece.from.y - t * dy);
}

function ends(piece: { from: Point; to: Point }, point: Point): number {
  return Math.min(
    Math.hypot(point.x - piece.from.x, point.y - piece.from.y),
    Math.hypot(point.x - piece.to.x, point.y - piece.to.y),
  );
}

describe("fit of a curve", () => {
  test.each([0.1, 0.01, 0.001])("an ellipse within %s mm, smooth, closed, of few arcs", (tolerance) => {
    const curve = ellipse(40, 15);
    const fitted: Contour = fitArcs(curve, tolerance);
    expect(contourFaults(fitted)).toEqual([]);
    for (let k = 0; k < 3000; k++)
      expect(distanceToPath(fitted, true, curve.at(k / 3000))).toBeLessThan(tolerance);
    const pieces = pathSegments({ vertices: fitted, closed: true });
    for (const [index, piece] of pieces.entries()) {
      const [a, b] = [tangentAt(piece, 1), tangentAt(pieces[(index + 1) % pieces.length] ?? piece, 0)];
      expect(Math.abs(a.x * b.y - a.y * b.x)).toBeLessThan(1e-6);
    }
    expect(Math.abs(signedArea(fitted) - Math.PI * 600)).toBeLessThan(tolerance * 180);
    // The error of a biarc falls with the third power of its length.
    expect(fitted.length).toBeLessThan(16 * (0.1 / tolerance) ** (1 / 3) + 8);
  });

  test("a circle is a circle and a line a line", () => {
    const fitted = fitArcs(ellipse(12, 12), 0.01);
    expect(asCircle(fitted)?.radius).toBeCloseTo(12, 9);
    expect(fitted.length).toBeLessThan(6);
    const line = fitArcs({ at: (t) => ({ x: 3 * t, y: 4 * t }), tangent: () => ({ x: 3, y: 4 }) }, 0.01);
    expect(line).toHaveLength(2);
    expect(line.every((vertex) => vertex.bulge === 0)).toBe(true);
  });

  test("an open cubic with an inflection, and one that stands still at its ends", () => {
    for (const handles of [
      [30, 40, 10, -40],
      [0, 0, 60, 20],
    ] as const) {
      const [x1, y1, x2, y2] = handles;
      const at = (t: number) => ({
        x: 3 * (1 - t) ** 2 * t * x1 + 3 * (1 - t) * t * t * x2 + t ** 3 * 60,
        y: 3 * (1 - t) ** 2 * t * y1 + 3 * (1 - t) * t * t * y2 + t ** 3 * 20,
      });
      const tangent = (t: number) => ({
        x: 3 * ((1 - t) ** 2 * x1 + 2 * (1 - t) * t * (x2 - x1) + t * t * (60 - x2)),
        y: 3 * ((1 - t) ** 2 * y1 + 2 * (1 - t) * t * (y2 - y1) + t * t * (20 - y2)),
      });
      const path = fitArcs({ at, tangent }, 0.02);
      expect(path.at(-1)).toEqual({ x: 60, y: 20, bulge: 0 });
      for (let k = 0; k <= 2000; k++) expect(distanceToPath(path, false, at(k / 2000))).toBeLessThan(0.02);
    }
  });

  test("what cannot be fitted is refused", () => {
    const corner = {
      at: (t: number) => ({ x: t, y: Math.abs(t - 0.3) }),
      tangent: (t: number) => ({ x: 1, y: t < 0.3 ? -1 : 1 }),
    };
    expect(() => fitArcs(ellipse(4, 3), 0)).toThrow(RangeError);
    expect(() => fitArcs(ellipse(Number.NaN, 3), 0.1)).toThrow(RangeError);
    expect(() => fitArcs([{ x: 0, y: 0 }], 0.1)).toThrow(RangeError);
    const path = fitArcs(corner, 0.01);
    for (const t of [0, 0.1, 0.3, 0.31, 0.8])
      expect(distanceToPath(path, false, corner.at(t))).toBeLessThan(0.01);
  });
});

describe("fit of points", () => {
  test("points of a circle, with or without tangents", () => {
    const points = Array.from({ length: 73 }, (_, k) => ({
      x: 9 * Math.cos((k * Math.PI) / 36),
      y: 9 * Math.sin((k * Math.PI) / 36),
    }));
    const fitted = fitArcs(points, 0.001);
    expect(fitted.length).toBeLessThan(8);
    expect(asCircle(fitted)?.radius).toBeCloseTo(9, 6);
    const withTangents = points
      .slice(0, 30)
      .map((point) => ({ ...point, tangent: { x: -point.y, y: point.x } }));
    const open = fitArcs(withTangents, 0.001);
    const length = pathSegments({ vertices: open, closed: false }).reduce(
      (sum, piece) => sum + segmentLength(piece),
      0,
    );
    expect(length).toBeCloseTo((9 * 29 * Math.PI) / 36, 6);
  });

  test("a sine of a hundred points: every point within the tolerance, far fewer arcs", () => {
    const points = Array.from({ length: 101 }, (_, k) => ({ x: k, y: 10 * Math.sin(k / 10) }));
    const path = fitArcs(points, 0.05);
    for (const point of points) expect(distanceToPath(path, false, point)).toBeLessThan(0.05 + 1e-9);
    expect(path.length).toBeLessThan(50);
  });
});
