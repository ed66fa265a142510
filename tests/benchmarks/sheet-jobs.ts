import {
  circle,
  obround,
  polygon,
  type Region,
  rectangle,
  reversed,
  roundedPolygon,
} from "../../packages/geometry/dist/index.js";
import type { NestJob, NestPart, Stock } from "../../packages/nesting/dist/index.js";

/** A named job of the benchmark; the same on every machine. */
export interface SheetJob {
  readonly name: string;
  readonly job: NestJob;
}

/** Frames of 20 plates, and plates of random outlines, each plate a kind of its own. */
export function sheetJobs(): SheetJob[] {
  return [
    ...[1, 5, 25].map((kits) => ({ name: `frame x ${kits}`, job: jobOf(frameParts(kits)) })),
    ...[20, 100, 500].map((count) => ({ name: `mixed ${count}`, job: jobOf(mixedParts(count, "any")) })),
    { name: "grain 500", job: jobOf(mixedParts(500, [0, 180])) },
  ];
}

function jobOf(parts: readonly NestPart[]): NestJob {
  return {
    parts,
    stock: [sheet("large", 1250, 1000, 61), sheet("half", 1000, 600, 32)],
    clearance: 5,
    edgeMargin: 10,
    chordError: 0.1,
    seed: 1,
    effort: {},
  };
}

function sheet(id: string, width: number, height: number, cost: number): Stock {
  return { id, outline: rectangle(0, 0, width, height), keepOuts: [], available: "unlimited", cost };
}

/** Cheeks, deck, bulkheads, skids, carriers and brackets of one frame, times the kits. */
function frameParts(kits: number): NestPart[] {
  const cheek = {
    outer: roundedPolygon([
      { x: 0, y: 0, radius: 20 },
      { x: 320, y: 0, radius: 20 },
      { x: 360, y: 80, radius: 30 },
      { x: 300, y: 180, radius: 40 },
      { x: 60, y: 180, radius: 40 },
      { x: -20, y: 90, radius: 30 },
    ]),
    openings: [
      hole(80, 90, 45),
      hole(260, 90, 45),
      reversed(obround({ x: 140, y: 150 }, { x: 200, y: 150 }, 20)),
    ],
  };
  const deck = {
    outer: rectangle(0, 0, 300, 200),
    openings: [hole(150, 100, 50), reversed(rectangle(20, 60, 60, 80))],
  };
  const bulkhead = corners([0, 0], [180, 0], [180, 60], [140, 100], [40, 100], [0, 60]);
  const skid = corners([0, 0], [300, 0], [280, 40], [20, 40]);
  const bracket = corners([0, 0], [60, 0], [60, 20], [20, 20], [20, 60], [0, 60]);
  const plates: [string, Region, number][] = [
    ["cheek", cheek, 2],
    ["deck", deck, 1],
    ["bulkhead", bulkhead, 2],
    ["skid", skid, 2],
    ["carrier-front", carrier(44), 4],
    ["carrier-back", carrier(35), 4],
    ["bracket", bracket, 5],
  ];
  return plates.map(([id, region, demand]) => ({
    id,
    region,
    demand: demand * kits,
    rotations: "any",
    mirrorable: id === "cheek",
  }));
}

/** A rim, a hub and four windows between spokes. */
function carrier(radius: number): Region {
  const windows = [0, 1, 2, 3].map((quarter) => {
    const [from, to] = [(quarter * Math.PI) / 2 + 0.15, ((quarter + 1) * Math.PI) / 2 - 0.15];
    const bulge = Math.tan((to - from) / 4);
    const at = (reach: number, angle: number, bend: number) => ({
      x: radius * reach * Math.cos(angle),
      y: radius * reach * Math.sin(angle),
      bulge: bend,
    });
    return reversed([at(0.4, from, 0), at(0.85, from, bulge), at(0.85, to, 0), at(0.4, to, -bulge)]);
  });
  return { outer: circle({ x: 0, y: 0 }, radius), openings: windows };
}

function hole(x: number, y: number, radius: number) {
  return reversed(circle({ x, y }, radius));
}

function corners(...points: readonly (readonly [number, number])[]): Region {
  return { outer: polygon(points.map(([x, y]) => ({ x, y }))), openings: [] };
}

/** Star-shaped outlines of 3 to 10 corners and discs, 30 to 180 mm across. */
function mixedParts(count: number, rotations: NestPart["rotations"]): NestPart[] {
  const random = uniform(12345);
  return Array.from({ length: count }, (_, index) => {
    const size = 15 + 75 * random() ** 2;
    const sides = 3 + Math.floor(random() * 9);
    const outline =
      sides > 10
        ? { outer: circle({ x: 0, y: 0 }, size), openings: [] }
        : corners(
            ...Array.from({ length: sides }, (_, side): [number, number] => {
              const angle = (2 * Math.PI * (side + 0.6 * random())) / sides;
              const reach = size * (0.45 + 0.55 * random());
              return [reach * Math.cos(angle), reach * Math.sin(angle)];
            }),
          );
    return { id: `plate-${index}`, region: outline, demand: 1, rotations, mirrorable: false };
  });
}

/** The minimal standard generator of Park and Miller (1988), x -> 48271 x mod (2^31 - 1). */
function uniform(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
}
