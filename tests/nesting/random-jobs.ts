import {
  type Contour,
  circle,
  contourFaults,
  obround,
  type Point,
  polygon,
  type Region,
  rectangle,
  regionFaults,
  reversed,
  roundedPolygon,
  type Vertex,
} from "@keelcut/geometry";
import type { NestJob, NestPart, Stock } from "@keelcut/nesting";
import { type Random, randomIndex, seededRandom } from "../../packages/nesting/src/random.js";
import { job } from "./jobs.js";

/** A job of 2 to 6 kinds of plates on 1 to 3 kinds of stock, everything drawn by lot from the seed. */
export function randomJob(seed: number): NestJob {
  const random = seededRandom(seed);
  const between = (low: number, high: number): number => low + (high - low) * random();
  const kinds = 2 + randomIndex(random, 5);
  const parts = Array.from({ length: kinds }, (_, index) => randomPart(random, index));
  const stock = Array.from({ length: 1 + randomIndex(random, 3) }, (_, index) => randomStock(random, index));
  return job({
    parts,
    stock,
    clearance: random() < 0.15 ? 0 : between(0.5, 8),
    edgeMargin: random() < 0.2 ? 0 : between(0, 12),
    chordError: between(0.02, 0.3),
    seed,
    effort: { steps: 20 },
  });
}

function randomPart(random: Random, index: number): NestPart {
  const free = random() < 0.5;
  return {
    id: `p${index}`,
    region: randomRegion(random),
    demand: randomIndex(random, 5),
    rotations: free
      ? "any"
      : ([[0], [0, 180], [0, 90, 180, 270], [0, 45, -30]][randomIndex(random, 4)] as number[]),
    mirrorable: random() < 0.3,
  };
}

/** A plate of a random sort, away from the origin by chance, with windows by chance. */
function randomRegion(random: Random): Region {
  const outer = randomOutline(random);
  const region = { outer, openings: [] as Contour[] };
  if (random() < 0.4) {
    for (const share of [0.75, 0.5, 0.25]) {
      const center = middle(outer);
      const opening = reversed(outer.map((v) => shrunk(v, center, share)));
      if (regionFaults({ outer, openings: [opening] }).length > 0) continue;
      region.openings.push(opening);
      break;
    }
  }
  return region;
}

function middle(contour: Contour): Point {
  const sum = contour.reduce((total, v) => ({ x: total.x + v.x, y: total.y + v.y }), { x: 0, y: 0 });
  return { x: sum.x / contour.length, y: sum.y / contour.length };
}

function shrunk(vertex: Vertex, center: Point, share: number): Vertex {
  return {
    x: center.x + share * (vertex.x - center.x),
    y: center.y + share * (vertex.y - center.y),
    bulge: vertex.bulge,
  };
}

function randomOutline(random: Random): Contour {
  const between = (low: number, high: number): number => low + (high - low) * random();
  const [x, y] = [between(-50, 50), between(-50, 50)];
  const size = between(15, 140);
  switch (randomIndex(random, 6)) {
    case 0:
      return rectangle(x, y, size, between(10, 100));
    case 1:
      return circle({ x, y }, size / 2);
    case 2:
      return obround({ x, y }, { x: x + size, y: y + between(-40, 40) }, between(8, 40));
    case 3: {
      const arm = between(0.2, 0.6) * size;
      return roundedPolygon([
        { x, y },
        { x: x + size, y, radius: arm / 3 },
        { x: x + size, y: y + arm, radius: arm / 3 },
        { x: x + arm, y: y + arm, radius: arm / 4 },
        { x: x + arm, y: y + size },
        { x, y: y + size },
      ]);
    }
    default:
      return star(random, x, y, size / 2);
  }
}

/** A star-shaped polygon of 3 to 9 corners; edges become arcs where that leaves it simple. */
function star(random: Random, x: number, y: number, radius: number): Contour {
  const corners = 3 + randomIndex(random, 7);
  const straight = polygon(
    Array.from({ length: corners }, (_, index) => {
      const angle = (2 * Math.PI * (index + 0.7 * random())) / corners;
      const reach = radius * (0.35 + 0.65 * random());
      return { x: x + reach * Math.cos(angle), y: y + reach * Math.sin(angle) };
    }),
  );
  const bent = straight.map((vertex) => ({
    ...vertex,
    bulge: random() < 0.5 ? 0 : random() * 0.8 - 0.4,
  }));
  return contourFaults(bent).length === 0 ? bent : straight;
}

function randomStock(random: Random, index: number): Stock {
  const between = (low: number, high: number): number => low + (high - low) * random();
  const [width, height] = [between(120, 500), between(120, 400)];
  const outlines: Contour[] = [
    rectangle(0, 0, width, height),
    rectangle(3, 7, width, height),
    polygon([
      { x: 0, y: 0 },
      { x: width, y: 0 },
      { x: width, y: height * 0.45 },
      { x: width * 0.55, y: height * 0.45 },
      { x: width * 0.55, y: height },
      { x: 0, y: height },
    ]),
    circle({ x: width / 2, y: width / 2 }, width / 2),
    roundedPolygon([
      { x: 0, y: 0 },
      { x: width, y: 0, radius: 20 },
      { x: 0, y: height },
    ]),
  ];
  const keepOuts: Contour[] = [];
  if (random() < 0.3) keepOuts.push(circle({ x: width / 3, y: height / 3 }, between(2, 20)));
  if (random() < 0.2) keepOuts.push(rectangle(0, 0, between(5, 40), between(5, 40)));
  return {
    id: `s${index}`,
    outline: outlines[randomIndex(random, outlines.length)] as Contour,
    keepOuts,
    available: random() < 0.4 ? "unlimited" : randomIndex(random, 4),
    cost: random() < 0.3 ? 0 : between(1, 50),
  };
}
