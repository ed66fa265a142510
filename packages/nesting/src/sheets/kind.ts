import { asCircle, type Contour, regionArea } from "@keelcut/geometry";
import type { NestPart } from "../job.js";
import { doubledArea, type Extent, extentOf, type Ring, type Turn } from "../nofit/polygon.js";
import type { PackingShape } from "../shape.js";
import { type Oriented, oriented, type SplitShape, splitShape, turnedRings } from "./oriented.js";
import { snugAngles } from "./snug-angles.js";

/** One kind of plate with everything the packer computes once. */
export class PlateKind {
  readonly index: number;
  readonly part: NestPart;
  /** Net area of one copy, mm2. */
  readonly area: number;
  /** Area of the packing outline, openings filled, mm2. */
  readonly grossArea: number;
  /** The longer side of its box as drawn, mm. */
  readonly longest: number;
  /** Attitudes tried always: few, and likely to pack well. */
  readonly usual: Turn[];
  private readonly shape: SplitShape;
  private readonly angles: readonly number[];
  private readonly made = new Map<string, Oriented>();
  private every: readonly Turn[] | undefined;

  /** With `fine`, a plate that may lie at any angle is tried at every whole degree. */
  constructor(index: number, part: NestPart, shape: PackingShape, { fine = false }: { fine?: boolean } = {}) {
    this.index = index;
    this.part = part;
    this.area = regionArea(part.region);
    this.grossArea = doubledArea(shape.body.outer) / 2;
    const { minX, maxX, minY, maxY } = extentOf(shape.body.outer);
    this.longest = Math.max(maxX - minX, maxY - minY);
    this.shape = splitShape(shape);
    const round = asCircle(part.region.outer) !== undefined && shape.body.openings.length === 0;
    if (part.rotations !== "any") {
      this.angles = part.rotations.map(wrapped);
      this.usual = this.distinct(withMirrors(this.angles, part.mirrorable));
    } else if (round) {
      this.angles = [0];
      this.usual = [{ rotation: 0, mirrored: false }];
    } else {
      const levels = levelAngles(shape.body.outer);
      this.angles = [...levels, ...stepAngles(fine ? 1 : 15).filter((angle) => !levels.includes(angle))];
      this.usual = this.distinct(withMirrors(levels, part.mirrorable));
    }
  }

  /** All attitudes worth trying; contains the usual ones. */
  get all(): readonly Turn[] {
    this.every ??= this.distinct([...this.usual, ...withMirrors(this.angles, this.part.mirrorable)]);
    return this.every;
  }

  /** The usual attitudes turned along the longest edges of an outline; none when only set angles are allowed. */
  alongEdges(outline: Contour): readonly Turn[] {
    if (this.part.rotations !== "any") return [];
    const ring = Float64Array.from(outline.flatMap(({ x, y }) => [x, y]));
    return longestEdges(ring).flatMap((direction) =>
      this.usual.map(({ rotation, mirrored }) => ({ rotation: wrapped(rotation + direction), mirrored })),
    );
  }

  /** Angles at which the plate lies best within a box on the sheet, tried where no usual attitude fits. */
  within(box: { readonly width: number; readonly height: number }): Turn[] {
    if (this.part.rotations !== "any") return [];
    const sides = this.part.mirrorable ? [false, true] : [false];
    return sides.flatMap((mirrored) =>
      snugAngles(this.shape.rim, mirrored, box).map((rotation) => ({ rotation, mirrored })),
    );
  }

  /** The plate in an attitude, on a sheet that is itself turned by -90 degrees or not. */
  oriented(turn: Turn, sheetTurned: boolean): Oriented {
    const rotation = wrapped(turn.rotation - (sheetTurned ? 90 : 0));
    const key = `${turn.mirrored ? "m" : ""}${rotation}`;
    let found = this.made.get(key);
    if (!found) {
      found = oriented(this.shape, { rotation, mirrored: turn.mirrored });
      this.made.set(key, found);
    }
    return found;
  }

  /** Without attitudes in which the plate looks the same as in an earlier one. */
  private distinct(turns: readonly Turn[]): Turn[] {
    const kept: (Look & { turn: Turn })[] = [];
    for (const turn of turns) {
      const rings = turnedRings(this.shape.body, turn);
      const look = { turn, rings, box: extentOf(rings[0]) };
      if (!kept.some((other) => looksSame(other, look))) kept.push(look);
    }
    return kept.map(({ turn }) => turn);
  }
}

interface Look {
  readonly rings: readonly Ring[];
  readonly box: Extent;
}

/** Quarter turns from the drawn angle and from the angles at which one of the longest edges lies level. */
function levelAngles(outer: Ring): number[] {
  const angles = [0, 90, 180, 270];
  for (const direction of longestEdges(outer)) {
    for (const quarter of [0, 90, 180, 270]) {
      const angle = wrapped(quarter - direction);
      if (angles.every((other) => apart(other, angle) > 0.01)) angles.push(angle);
    }
  }
  return angles;
}

function stepAngles(step: number): number[] {
  return Array.from({ length: 360 / step }, (_, index) => index * step);
}

const LEVEL_EDGES = 2;

/** Directions of the longest edges, degrees within a quarter turn, longest first, not nearly the same ones. */
function longestEdges(outer: Ring): number[] {
  const edges: { angle: number; length: number }[] = [];
  for (let i = 0; i < outer.length; i += 2) {
    const j = (i + 2) % outer.length;
    const dx = outer[j] - outer[i];
    const dy = outer[j + 1] - outer[i + 1];
    const angle = ((Math.atan2(dy, dx) * 180) / Math.PI + 360) % 90;
    edges.push({ angle, length: Math.hypot(dx, dy) });
  }
  edges.sort((a, b) => b.length - a.length);
  const found: number[] = [];
  for (const { angle } of edges) {
    if (found.length === LEVEL_EDGES) break;
    if (found.every((other) => apart(other * 4, angle * 4) > 4)) found.push(angle);
  }
  return found;
}

/** The smaller angle between two directions, degrees. */
function apart(a: number, b: number): number {
  const difference = wrapped(a - b);
  return Math.min(difference, 360 - difference);
}

function withMirrors(angles: readonly number[], mirrorable: boolean): Turn[] {
  const upright = angles.map((rotation) => ({ rotation, mirrored: false }));
  if (!mirrorable) return upright;
  return [...upright, ...angles.map((rotation) => ({ rotation, mirrored: true }))];
}

/** The angle in 0 <= angle < 360. */
export function wrapped(angle: number): number {
  const turned = ((angle % 360) + 360) % 360;
  return turned === 360 ? 0 : turned;
}

const SAME_CORNER = 1e-3;

/** True when the rings have the same corners in the same order up to a shift. */
function looksSame(a: Look, b: Look): boolean {
  const widths = a.box.maxX - a.box.minX - (b.box.maxX - b.box.minX);
  const heights = a.box.maxY - a.box.minY - (b.box.maxY - b.box.minY);
  if (Math.abs(widths) > SAME_CORNER || Math.abs(heights) > SAME_CORNER) return false;
  const shiftX = a.box.minX - b.box.minX;
  const shiftY = a.box.minY - b.box.minY;
  return a.rings.every((ring) => {
    return b.rings.some((other) => isSameRing(ring, other, shiftX, shiftY));
  });
}

/** Whether one ring, moved back by the shift, is the other begun at some corner. */
function isSameRing(ring: Ring, other: Ring, shiftX: number, shiftY: number): boolean {
  const { length } = ring;
  if (other.length !== length) return false;
  const matches = (start: number): boolean => {
    for (let i = 0; i < length; i += 2) {
      const j = (start + i) % length;
      if (Math.abs(ring[i] - shiftX - other[j]) > SAME_CORNER) return false;
      if (Math.abs(ring[i + 1] - shiftY - other[j + 1]) > SAME_CORNER) return false;
    }
    return true;
  };
  for (let start = 0; start < length; start += 2) if (matches(start)) return true;
  return false;
}
