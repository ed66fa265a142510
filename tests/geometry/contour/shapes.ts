import {
  type Contour,
  circle,
  counterClockwise,
  obround,
  type Point,
  pointAt,
  polygon,
  rectangle,
  roundedPolygon,
  segmentLength,
  segments,
} from "@keelcut/geometry";

/** A seeded source of numbers in 0 <= x < 1 (mulberry32, public domain). */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** A simple star-shaped contour of lines and arcs around a centre: never crosses itself. */
export function randomStar(random: () => number, center: Point, size: number, arcs = true): Contour {
  const count = 3 + Math.floor(random() * 8);
  const vertices = Array.from({ length: count }, (_, index) => {
    const angle = ((index + 0.2 + 0.6 * random()) / count) * 2 * Math.PI;
    const radius = size * (0.45 + 0.55 * random());
    return { x: center.x + radius * Math.cos(angle), y: center.y + radius * Math.sin(angle), bulge: 0 };
  });
  if (!arcs) return vertices;
  // A bulge this small keeps an arc within the wedge of its chord, whatever the chord's slant.
  return counterClockwise(
    vertices.map((vertex) => ({ ...vertex, bulge: random() < 0.5 ? 0 : (random() - 0.5) * 0.25 })),
  );
}

/** A contour such as plates are made of: circle, slot, rectangle, rounded rectangle, polygon. */
export function randomPlateShape(random: () => number, center: Point, size: number): Contour {
  const width = size * (0.4 + random());
  const height = size * (0.4 + random());
  const x = center.x - width / 2;
  const y = center.y - height / 2;
  const kind = Math.floor(random() * 5);
  if (kind === 0) return circle(center, size * (0.2 + 0.4 * random()));
  if (kind === 1) {
    const angle = random() * Math.PI;
    const reach = { x: (Math.cos(angle) * size) / 3, y: (Math.sin(angle) * size) / 3 };
    return obround(
      { x: center.x - reach.x, y: center.y - reach.y },
      { x: center.x + reach.x, y: center.y + reach.y },
      size * (0.1 + 0.3 * random()),
    );
  }
  if (kind === 2) return rectangle(x, y, width, height);
  if (kind === 3) {
    const radius = Math.min(width, height) * (0.05 + 0.4 * random());
    return roundedPolygon([
      { x, y, radius },
      { x: x + width, y },
      { x: x + width, y: y + height, radius },
      { x, y: y + height, radius },
    ]);
  }
  return polygon(randomStar(random, center, size * 0.6, false));
}

/** Points along a contour, no farther than `step` apart, vertices included. */
export function alongCurve(contour: Contour, step: number): Point[] {
  return segments(contour).flatMap((piece) => {
    const count = Math.max(1, Math.ceil(segmentLength(piece) / step));
    return Array.from({ length: count }, (_, k) => pointAt(piece, k / count));
  });
}

/** Processor time of one call, ms, after warming up: other work on the machine does not count. */
export function milliseconds(run: () => unknown, calls = 10): number {
  for (let call = 0; call < calls / 2; call++) run();
  const start = process.cpuUsage();
  for (let call = 0; call < calls; call++) run();
  const used = process.cpuUsage(start);
  return (used.user + used.system) / 1000 / calls;
}
