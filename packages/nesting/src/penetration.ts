import {
  type Contour,
  locate,
  locateInRegion,
  type Point,
  pointAt,
  pointDistance,
  type Region,
  segmentIntersections,
  segments,
} from "@keelcut/geometry";

/** How deep, and where. */
export interface Depth {
  /** mm; 0 when nothing goes in. */
  readonly distance: number;
  readonly at: Point;
}

const SAMPLES = 9;

/**
 * How deep two regions reach into each other, mm. Touching regions give 0, and so does a plate that just fills an
 * opening of the other.
 *
 * Each boundary is cut where it meets the other; on every piece the distance to the other's boundary is taken at
 * nine points. Between two crossings of straight edges that distance rises and falls once, so a middle point sees
 * at least half of the deepest: enough to tell touching (rounding, 1e-9) from overlap.
 */
export function overlapDepth(a: Region, b: Region): Depth {
  let deepest: Depth = { distance: 0, at: { x: 0, y: 0 } };
  for (const [one, other] of [
    [a, b],
    [b, a],
  ] as const) {
    const walls = contours(other);
    for (const contour of contours(one)) {
      for (const point of pieces(contour, walls)) {
        if (locateInRegion(other, point) !== "inside") continue;
        const distance = boundaryDistance(walls, point);
        if (distance > deepest.distance) deepest = { distance, at: point };
      }
    }
    // Two equal plates one upon the other: every boundary point is on the boundary, only inner points tell.
    for (const point of innerPoints(one)) {
      if (locateInRegion(other, point) !== "inside") continue;
      const distance = Math.min(boundaryDistance(walls, point), boundaryDistance(contours(one), point));
      if (distance > deepest.distance) deepest = { distance, at: point };
    }
  }
  return deepest;
}

/** How far a closed contour sticks out of another, mm; sampled like `overlapDepth`. */
export function protrusion(inner: Contour, outer: Contour): Depth {
  let deepest: Depth = { distance: 0, at: { x: 0, y: 0 } };
  const consider = (point: Point): void => {
    if (locate(outer, point) !== "outside") return;
    const distance = pointDistance(outer, point);
    if (distance > deepest.distance) deepest = { distance, at: point };
  };
  for (const point of pieces(inner, [outer])) consider(point);
  // A notch of the outer contour may reach into the inner one between its crossings.
  for (const point of pieces(outer, [inner])) {
    if (locate(inner, point) !== "inside") continue;
    const distance = pointDistance(inner, point);
    if (distance > deepest.distance) deepest = { distance, at: point };
  }
  return deepest;
}

/** Sample points of a contour, cut at its meetings with the walls. */
function* pieces(contour: Contour, walls: readonly Contour[]): Generator<Point> {
  const others = walls.flatMap((wall) => segments(wall));
  for (const segment of segments(contour)) {
    const cuts = [0, 1];
    for (const other of others) {
      for (const meeting of segmentIntersections(segment, other)) cuts.push(meeting.onA);
    }
    cuts.sort((s, t) => s - t);
    for (let index = 1; index < cuts.length; index++) {
      const from = cuts[index - 1];
      const to = cuts[index];
      for (let sample = 0; sample < SAMPLES; sample++) {
        yield pointAt(segment, from + ((to - from) * sample) / (SAMPLES - 1));
      }
    }
  }
}

function contours(region: Region): readonly Contour[] {
  return [region.outer, ...region.openings];
}

function boundaryDistance(walls: readonly Contour[], point: Point): number {
  return Math.min(...walls.map((wall) => pointDistance(wall, point)));
}

/** Points of the material a little inside the outer contour, one beside each segment: never all on a boundary. */
function* innerPoints(region: Region): Generator<Point> {
  for (const segment of segments(region.outer)) {
    const a = pointAt(segment, 0.45);
    const b = pointAt(segment, 0.55);
    const length = Math.hypot(b.x - a.x, b.y - a.y);
    if (length === 0) continue;
    const middle = pointAt(segment, 0.5);
    for (const step of [0.5, 0.01]) {
      const point = {
        x: middle.x - ((b.y - a.y) / length) * step,
        y: middle.y + ((b.x - a.x) / length) * step,
      };
      if (locateInRegion(region, point) === "inside") yield point;
    }
  }
}
