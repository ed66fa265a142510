import {
  bounds,
  type Contour,
  contourLength,
  type Finding,
  type Plate,
  type Point,
  pointAt,
  type Segment,
  segmentLength,
  segments,
  tangentAt,
} from "@keelcut/geometry";

/** What a shop wants of bridges, lengths mm. */
export interface BridgeWish {
  /** Least number on each outline. */
  readonly count: number;
  /** Most contour between two bridges. */
  readonly spacing: number;
  /** Material left at the narrowest place of a bridge. */
  readonly width: number;
  /** Openings at least this wide both ways are bridged too; none when absent. */
  readonly largeOpening?: number;
}

/** A place where a cut line is interrupted. */
export interface Bridge {
  readonly part: "outline" | number;
  /** Middle of the bridge, on the nominal contour in the plate's own frame. */
  readonly at: Point;
}

/** The bridges of a job, for those who draw its cut lines and those who count them. */
export interface BridgeOptions {
  /** Length of the gap in the cut line, mm: the bridge's width and the kerf. */
  readonly gap: number;
  readonly of: (plateId: string) => readonly Bridge[];
}

export interface PlateBridges {
  readonly bridges: readonly Bridge[];
  readonly findings: readonly Finding[];
}

/** Step of the search along a contour, mm. */
const STEP = 2;

/** Arcs of at least so many gaps' radius take bridges: the gap's chord is all but as long as the gap. Own choice. */
const LEAST_RADIUS = 2.5;

/** Contour left on both ends of the gap, mm, beyond a kerf: the cutter must not round a corner into the bridge. */
const BESIDE = 1;

/**
 * Where bridges hold a plate: on straight stretches of its outline and on wide arcs, away from corners, and never where
 * `mates` says that the edge touches another plate; spread as evenly as those stretches allow.
 *
 * 3 or 4 bridges on a plate and one at least every 150 to 250 mm are common practice of router shops.
 */
export function plateBridges(
  plate: Plate,
  wish: BridgeWish,
  kerf: number,
  mates: (point: Point) => boolean,
): PlateBridges {
  if (plate.made === "printed") return { bridges: [], findings: [] };
  const parts: { part: Bridge["part"]; contour: Contour }[] = [
    { part: "outline", contour: plate.region.outer },
    ...plate.region.openings.flatMap((contour, part) =>
      isLarge(plate, contour, part, wish) ? [{ part, contour }] : [],
    ),
  ];
  const bridges: Bridge[] = [];
  const findings: Finding[] = [];
  for (const { part, contour } of parts) {
    const wanted = Math.max(wish.count, Math.ceil(contourLength(contour) / wish.spacing));
    const places = spread(freePlaces(contour, wish.width + kerf, kerf, mates), wanted, contour, wish, kerf);
    bridges.push(...places.map((at) => ({ part, at })));
    if (places.length < wanted) findings.push(fewerThanWanted(plate, part, places.length, wanted));
  }
  return { bridges, findings };
}

/** Large, and nothing that another part goes through. */
function isLarge(plate: Plate, contour: Contour, index: number, { largeOpening }: BridgeWish): boolean {
  if (largeOpening === undefined) return false;
  const kind = plate.features.find((feature) => feature.contour === index)?.kind ?? "hole";
  if (kind !== "window" && kind !== "hole") return false;
  const box = bounds(contour);
  return Math.min(box.maxX - box.minX, box.maxY - box.minY) >= largeOpening;
}

interface Place {
  readonly at: Point;
  /** Way along the contour from its start, mm. */
  readonly along: number;
}

function freePlaces(contour: Contour, gap: number, kerf: number, mates: (point: Point) => boolean): Place[] {
  const pieces = segments(contour);
  const places: Place[] = [];
  let before = 0;
  for (const [index, piece] of pieces.entries()) {
    const length = segmentLength(piece);
    const reach = gap / 2 + kerf + BESIDE;
    const start = gap / 2 + besideCorner(pieces.at(index - 1), piece, kerf);
    const end = gap / 2 + besideCorner(piece, pieces[(index + 1) % pieces.length], kerf);
    const room = length - start - end;
    const flat = piece.kind === "line" || piece.radius >= LEAST_RADIUS * gap;
    if (flat && room >= 0) {
      const steps = 2 * Math.ceil(room / (2 * STEP));
      for (let i = 0; i <= steps; i++) {
        const along = start + (steps === 0 ? 0 : (room * i) / steps);
        const near = [-reach, 0, reach].map((off) => pointAt(piece, (along + off) / length));
        if (!near.some(mates)) places.push({ at: pointAt(piece, along / length), along: before + along });
      }
    }
    before += length;
  }
  return places;
}

/**
 * Contour to leave between a gap and a corner, mm. Where the line turns right, away from the material on its left, the cut
 * beside it is shorter than the line by half a kerf times the tangent of half the turn.
 */
function besideCorner(before: Segment | undefined, after: Segment | undefined, kerf: number): number {
  if (before === undefined || after === undefined) return kerf + BESIDE;
  const [a, b] = [tangentAt(before, 1), tangentAt(after, 0)];
  const turn = Math.atan2(a.x * b.y - a.y * b.x, a.x * b.x + a.y * b.y);
  const shorter = turn < 0 ? (kerf / 2) * Math.tan(-turn / 2) : 0;
  return Math.max(kerf, shorter) + BESIDE;
}

/** From the middle of the longest free stretch on, each next place as far along the contour from the others as it can be. */
function spread(
  places: readonly Place[],
  wanted: number,
  contour: Contour,
  wish: BridgeWish,
  kerf: number,
): Point[] {
  const around = contourLength(contour);
  const apart = (a: Place, b: Place): number => {
    const way = Math.abs(a.along - b.along);
    return Math.min(way, around - way);
  };
  const first = middleOfLongest(places);
  if (first === undefined) return [];
  const chosen = [first];
  while (chosen.length < wanted) {
    let best: Place | undefined;
    // More than the least number only where they stand apart: a crowd on the one free side holds no better.
    let most = chosen.length < wish.count ? 2 * (wish.width + kerf) : wish.spacing / 2;
    for (const place of places) {
      const least = Math.min(...chosen.map((other) => apart(place, other)));
      if (least > most + 1e-9) [best, most] = [place, least];
    }
    if (best === undefined) break;
    chosen.push(best);
  }
  return chosen.sort((a, b) => a.along - b.along).map((place) => place.at);
}

function middleOfLongest(places: readonly Place[]): Place | undefined {
  let longest: readonly Place[] = [];
  let run: Place[] = [];
  for (const place of places) {
    const last = run.at(-1);
    run = last !== undefined && place.along - last.along <= STEP + 1e-9 ? [...run, place] : [place];
    if (run.length > longest.length) longest = run;
  }
  return longest[Math.floor(longest.length / 2)];
}

function fewerThanWanted(plate: Plate, part: Bridge["part"], found: number, wanted: number): Finding {
  const line = part === "outline" ? "the outline" : `opening ${part}`;
  const message =
    found === 0
      ? `no bridge can be placed on ${line}: it has no straight stretch or wide arc clear of corners and of edges that touch another plate; hold the plate by screws, tape or vacuum`
      : `${found} of ${wanted} bridges on ${line}: its straight stretches and wide arcs, clear of corners and of edges that touch another plate, take no more that stand well apart`;
  return {
    id: "files.bridges",
    severity: found === 0 || (found === 1 && part === "outline") ? "warning" : "note",
    place: plate.id,
    message,
    measured: found,
    limit: wanted,
    unit: "bridges",
    why: "a plate that comes loose before the cut ends is thrown about or cut into",
    source: "common practice of router shops: 3 or 4 bridges a plate, one every 150 to 250 mm",
  };
}
