import type { Point } from "@keelcut/geometry";

/** A tag to be put beside its opening. All on the page, mm. */
export interface Tag {
  /** Where the opening's cross is. */
  readonly middle: Point;
  /** Half of the opening's width and height. */
  readonly half: Point;
  /** Length of the tag's text. */
  readonly length: number;
}

/** A straight piece of a drawn line. */
export type Stroke = readonly [Point, Point];

interface Box {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/** Height of a tag's capitals, and the air around it, mm. */
export const TAG_HEIGHT = 1.6;
const AIR = 0.35;

/** Arms of the cross in the middle of an opening, mm. */
export const CROSS = 1.2;

/** Openings of which half the width and half the height is more than this, mm, may hold their tag. */
const ROOMY = 5;

/** Steps outwards, mm, and directions that are tried, the first where it is looked for first. */
const STEPS = [0, 1.2, 2.4, 3.6];
const DIRECTIONS: readonly Point[] = [
  { x: 1, y: 1 },
  { x: 1, y: -1 },
  { x: -1, y: 1 },
  { x: -1, y: -1 },
  { x: 1, y: 0 },
  { x: -1, y: 0 },
  { x: 0, y: 1 },
  { x: 0, y: -1 },
];

/**
 * The lower-left corner of each tag: the nearest place beside its opening, or in a large one, where it lies on no line,
 * no cross and no earlier tag; where there is none, on as few as can be.
 *
 * Cost: tags x strokes, and for those near a tag, 64 places.
 */
export function tagPlaces(tags: readonly Tag[], drawn: readonly Stroke[]): Point[] {
  const crosses = tags.map(({ middle }) => around(middle, CROSS, CROSS));
  const taken: Box[] = [];
  return tags.map((tag) => {
    let best: { readonly box: Box; readonly hits: number } | undefined;
    const places = placesOf(tag);
    const reach = boxAround(places);
    const strokes = drawn.filter((stroke) => isNear(stroke, reach));
    const [crossesNear, takenNear] = [crosses, taken].map((boxes) => boxes.filter((box) => meet(box, reach)));
    for (const box of places) {
      const hits = hitsOf(box, strokes, crossesNear ?? [], takenNear ?? []);
      if (best === undefined || hits < best.hits) best = { box, hits };
      if (hits === 0) break;
    }
    if (best === undefined) throw new Error("a tag has places around it");
    taken.push(best.box);
    return { x: best.box.minX + AIR, y: best.box.minY + AIR };
  });
}

/** Boxes of a tag with air around it, the best first. */
function placesOf({ middle, half, length }: Tag): Box[] {
  const inside = Math.min(half.x, half.y) > ROOMY ? [{ x: CROSS / 2, y: CROSS / 2 }] : [];
  const [halfLength, halfHeight] = [length / 2 + AIR, TAG_HEIGHT / 2 + AIR];
  return [...inside, half].flatMap((edge) =>
    STEPS.flatMap((step) =>
      DIRECTIONS.map(({ x, y }) => {
        const out = { x: edge.x + step + halfLength, y: edge.y + step + halfHeight };
        return around({ x: middle.x + x * out.x, y: middle.y + y * out.y }, halfLength, halfHeight);
      }),
    ),
  );
}

function hitsOf(box: Box, drawn: readonly Stroke[], crosses: readonly Box[], taken: readonly Box[]): number {
  const meets = (other: Box): boolean => meet(box, other);
  return (
    drawn.filter((stroke) => crossesBox(stroke, box)).length +
    crosses.filter(meets).length +
    // Two tags in one place can be read by nobody.
    10 * taken.filter(meets).length
  );
}

function meet(a: Box, b: Box): boolean {
  return a.minX < b.maxX && b.minX < a.maxX && a.minY < b.maxY && b.minY < a.maxY;
}

function boxAround(boxes: readonly Box[]): Box {
  return {
    minX: Math.min(...boxes.map(({ minX }) => minX)),
    minY: Math.min(...boxes.map(({ minY }) => minY)),
    maxX: Math.max(...boxes.map(({ maxX }) => maxX)),
    maxY: Math.max(...boxes.map(({ maxY }) => maxY)),
  };
}

/** Whether the box of a stroke meets another or touches it. */
function isNear([from, to]: Stroke, { minX, minY, maxX, maxY }: Box): boolean {
  return (
    (from.x >= minX || to.x >= minX) &&
    (from.x <= maxX || to.x <= maxX) &&
    (from.y >= minY || to.y >= minY) &&
    (from.y <= maxY || to.y <= maxY)
  );
}

function around({ x, y }: Point, halfWidth: number, halfHeight: number): Box {
  return { minX: x - halfWidth, minY: y - halfHeight, maxX: x + halfWidth, maxY: y + halfHeight };
}

/** Clips the stroke by the box's four sides (Liang and Barsky): is anything left? */
function crossesBox([from, to]: Stroke, { minX, minY, maxX, maxY }: Box): boolean {
  let enter = 0;
  let leave = 1;
  const clip = (speed: number, distance: number): boolean => {
    if (speed === 0) return distance >= 0;
    if (speed < 0) enter = Math.max(enter, distance / speed);
    else leave = Math.min(leave, distance / speed);
    return enter <= leave;
  };
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  return (
    clip(-dx, from.x - minX) && clip(dx, maxX - from.x) && clip(-dy, from.y - minY) && clip(dy, maxY - from.y)
  );
}
