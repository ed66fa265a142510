import {
  type Box,
  contourGap,
  counterClockwise,
  locate,
  type Point,
  placeRegion,
  type Region,
  regionArea,
  regionBounds,
  regionGap,
} from "@keelcut/geometry";
import type { NestJob, NestPart, NestResult, PlacedPart, Sheet, Stock } from "./job.js";
import { overlapDepth, protrusion } from "./penetration.js";

/** What a result does that it must not. Lengths mm. */
export interface Violation {
  readonly kind: ViolationKind;
  /** Index into `result.sheets`, when it is about one sheet. */
  readonly sheet?: number;
  /** Indices into that sheet's placements. */
  readonly placements?: readonly number[];
  readonly measured?: number;
  readonly limit?: number;
  readonly at?: Point;
  /** One sentence with names and numbers. */
  readonly message: string;
}

export type ViolationKind =
  | "not-finite"
  | "unknown-part"
  | "unknown-stock"
  | "too-close"
  | "overlap"
  | "outside"
  | "edge-margin"
  | "keep-out"
  | "rotation"
  | "mirrored"
  | "count"
  | "stock-used"
  | "times"
  | "totals";

/** Distances may fall short by this much, mm: rounding of coordinates, a thousandth of the finest machine's step. */
export const DISTANCE_TOLERANCE = 1e-6;

/**
 * Everything wrong with a result, judged from the true contours (lines and arcs) alone: it shares nothing with the
 * search, neither polygons nor tolerances. Empty for a result that may be cut.
 */
export function verify(job: NestJob, result: NestResult): Violation[] {
  const parts = new Map(job.parts.map((part) => [part.id, part]));
  const stocks = new Map(job.stock.map((stock) => [stock.id, stock]));
  return [
    ...result.sheets.flatMap((sheet, index) => sheetViolations(job, parts, stocks, sheet, index)),
    ...countViolations(job, parts, result),
    ...stockViolations(job, result),
    ...totalViolations(parts, stocks, result),
  ];
}

function sheetViolations(
  job: NestJob,
  parts: ReadonlyMap<string, NestPart>,
  stocks: ReadonlyMap<string, Stock>,
  sheet: Sheet,
  index: number,
): Violation[] {
  const violations: Violation[] = [];
  const add = (kind: ViolationKind, message: string, more: Partial<Violation> = {}): void => {
    violations.push({ ...more, kind, sheet: index, message: `sheet ${index + 1}: ${message}` });
  };
  if (!(Number.isSafeInteger(sheet.times) && sheet.times >= 1)) {
    add("times", `is cut ${sheet.times} times; must be a whole number of at least 1`);
  }
  const stock = stocks.get(sheet.stock);
  if (stock === undefined) add("unknown-stock", `stock "${sheet.stock}" is not in the job`);

  const plates: Laid[] = [];
  sheet.placements.forEach((placement, number) => {
    const part = parts.get(placement.part);
    const own = { placements: [number] };
    if (part === undefined) {
      add("unknown-part", `part "${placement.part}" is not in the job`, own);
    } else if (![placement.x, placement.y, placement.rotation].every(Number.isFinite)) {
      add("not-finite", `${placement.part} is placed at a number that is not finite`, own);
    } else {
      for (const [kind, message] of attitudeViolations(part, placement)) add(kind, message, own);
      const region = placeRegion(part.region, placement);
      plates.push({ number, id: part.id, region, box: regionBounds(region) });
    }
  });

  for (const [a, b] of nearPairs(plates, job.clearance)) {
    const found = pairViolation(a, b, job.clearance);
    if (found) add(found.kind, found.message, { ...found, placements: [a.number, b.number] });
  }
  if (stock === undefined) return violations;
  const keepOuts = stock.keepOuts.map((contour) => ({ outer: counterClockwise(contour), openings: [] }));
  for (const plate of plates) {
    const own = { placements: [plate.number] };
    const edge = edgeViolation(plate, stock, job.edgeMargin);
    if (edge) add(edge.kind, edge.message, { ...edge, ...own });
    for (const keepOut of keepOuts) {
      const area = { number: -1, id: "a keep-out", region: keepOut, box: regionBounds(keepOut) };
      if (!boxesWithin(plate.box, area.box, job.clearance)) continue;
      const found = pairViolation(plate, area, job.clearance);
      if (found) add("keep-out", found.message, { ...found, ...own });
    }
  }
  return violations;
}

interface Laid {
  readonly number: number;
  readonly id: string;
  readonly region: Region;
  readonly box: Box;
}

type Found = Omit<Violation, "sheet" | "placements">;

function attitudeViolations(part: NestPart, placement: PlacedPart): [ViolationKind, string][] {
  const found: [ViolationKind, string][] = [];
  if (part.rotations !== "any" && !part.rotations.some((angle) => sameAngle(angle, placement.rotation))) {
    found.push([
      "rotation",
      `${part.id} is turned by ${placement.rotation} degrees; allowed are ${part.rotations.join(", ")}`,
    ]);
  }
  if (placement.mirrored && !part.mirrorable) {
    found.push(["mirrored", `${part.id} is laid upside down, which it must not be`]);
  }
  return found;
}

/** Equal modulo a full turn, to a billionth of a degree. */
function sameAngle(a: number, b: number): boolean {
  const difference = (((a - b) % 360) + 360) % 360;
  return Math.min(difference, 360 - difference) < 1e-9;
}

/** Pairs whose boxes come within `reach` of each other, by a sweep along x. */
function* nearPairs(plates: readonly Laid[], reach: number): Generator<[Laid, Laid]> {
  const sorted = [...plates].sort((a, b) => a.box.minX - b.box.minX);
  for (const [index, a] of sorted.entries()) {
    for (let next = index + 1; next < sorted.length; next++) {
      const b = sorted[next];
      if (b.box.minX > a.box.maxX + reach) break;
      if (boxesWithin(a.box, b.box, reach)) yield a.number < b.number ? [a, b] : [b, a];
    }
  }
}

function boxesWithin(a: Box, b: Box, reach: number): boolean {
  return (
    a.minX <= b.maxX + reach &&
    b.minX <= a.maxX + reach &&
    a.minY <= b.maxY + reach &&
    b.minY <= a.maxY + reach
  );
}

function pairViolation(a: Laid, b: Laid, clearance: number): Found | undefined {
  const gap = regionGap(a.region, b.region);
  if (gap.distance > 0 || clearance > DISTANCE_TOLERANCE) {
    if (gap.distance >= clearance - DISTANCE_TOLERANCE) return undefined;
    const message = `${a.id} and ${b.id} are ${gap.distance.toFixed(6)} mm apart at ${at(gap.from)}; clearance is ${clearance}`;
    return {
      kind: gap.distance > 0 ? "too-close" : "overlap",
      measured: gap.distance,
      limit: clearance,
      at: gap.from,
      message,
    };
  }
  const depth = overlapDepth(a.region, b.region);
  if (depth.distance <= DISTANCE_TOLERANCE) return undefined;
  return {
    kind: "overlap",
    measured: -depth.distance,
    limit: clearance,
    at: depth.at,
    message: `${a.id} and ${b.id} overlap by ${depth.distance.toFixed(6)} mm at ${at(depth.at)}`,
  };
}

function edgeViolation(plate: Laid, stock: Stock, edgeMargin: number): Found | undefined {
  const gap = contourGap(plate.region.outer, stock.outline);
  const corner = plate.region.outer[0] as Point;
  const apart = gap.distance > DISTANCE_TOLERANCE;
  const out = apart
    ? { distance: locate(stock.outline, corner) === "outside" ? gap.distance : 0, at: corner }
    : protrusion(plate.region.outer, stock.outline);
  if (out.distance > DISTANCE_TOLERANCE) {
    return {
      kind: "outside",
      measured: -out.distance,
      limit: edgeMargin,
      at: out.at,
      message: `${plate.id} lies outside ${stock.id} by ${out.distance.toFixed(6)} mm at ${at(out.at)}`,
    };
  }
  if (gap.distance >= edgeMargin - DISTANCE_TOLERANCE) return undefined;
  return {
    kind: "edge-margin",
    measured: gap.distance,
    limit: edgeMargin,
    at: gap.from,
    message: `${plate.id} is ${gap.distance.toFixed(6)} mm from the edge of ${stock.id} at ${at(gap.from)}; edge margin is ${edgeMargin}`,
  };
}

function countViolations(
  job: NestJob,
  parts: ReadonlyMap<string, NestPart>,
  result: NestResult,
): Violation[] {
  const placed = new Map<string, number>();
  for (const sheet of result.sheets) {
    for (const placement of sheet.placements) {
      placed.set(placement.part, (placed.get(placement.part) ?? 0) + sheet.times);
    }
  }
  const unplaced = new Map<string, number>();
  const violations: Violation[] = [];
  for (const entry of result.unplaced) {
    if (!parts.has(entry.part)) {
      violations.push({ kind: "unknown-part", message: `unplaced part "${entry.part}" is not in the job` });
    }
    if (!(Number.isSafeInteger(entry.count) && entry.count >= 1)) {
      violations.push({
        kind: "count",
        message: `${entry.part}: ${entry.count} copies are said to be unplaced`,
      });
    }
    unplaced.set(entry.part, (unplaced.get(entry.part) ?? 0) + entry.count);
  }
  for (const part of job.parts) {
    const laid = placed.get(part.id) ?? 0;
    const left = unplaced.get(part.id) ?? 0;
    if (laid + left === part.demand) continue;
    violations.push({
      kind: "count",
      measured: laid + left,
      limit: part.demand,
      message: `${part.id}: ${laid} placed and ${left} unplaced, but ${part.demand} wanted`,
    });
  }
  return violations;
}

function stockViolations(job: NestJob, result: NestResult): Violation[] {
  const violations: Violation[] = [];
  for (const stock of job.stock) {
    let used = 0;
    for (const sheet of result.sheets) if (sheet.stock === stock.id) used += sheet.times;
    if (stock.available === "unlimited" || used <= stock.available) continue;
    violations.push({
      kind: "stock-used",
      measured: used,
      limit: stock.available,
      message: `${used} pieces of ${stock.id} are used, but ${stock.available} can be had`,
    });
  }
  return violations;
}

function totalViolations(
  parts: ReadonlyMap<string, NestPart>,
  stocks: ReadonlyMap<string, Stock>,
  result: NestResult,
): Violation[] {
  const { cost, yield: share } = totals(parts, stocks, result.sheets);
  const violations: Violation[] = [];
  if (!(Math.abs(result.cost - cost) <= 1e-9 * Math.max(1, cost))) {
    violations.push({
      kind: "totals",
      measured: result.cost,
      limit: cost,
      message: `cost is given as ${result.cost}, but the sheets come to ${cost}`,
    });
  }
  if (!(Math.abs(result.yield - share) <= 1e-9)) {
    violations.push({
      kind: "totals",
      measured: result.yield,
      limit: share,
      message: `yield is given as ${result.yield}, but is ${share}`,
    });
  }
  return violations;
}

/** Stock cost of the sheets, and net area of their plates over their own area (0 without sheets). */
function totals(
  parts: ReadonlyMap<string, NestPart>,
  stocks: ReadonlyMap<string, Stock>,
  sheets: readonly Sheet[],
): { cost: number; yield: number } {
  let cost = 0;
  let sheetArea = 0;
  let plateArea = 0;
  for (const sheet of sheets) {
    const stock = stocks.get(sheet.stock);
    if (stock === undefined) continue;
    cost += sheet.times * stock.cost;
    sheetArea += sheet.times * regionArea({ outer: stock.outline, openings: [] });
    for (const placement of sheet.placements) {
      const part = parts.get(placement.part);
      if (part) plateArea += sheet.times * regionArea(part.region);
    }
  }
  return { cost, yield: sheetArea > 0 ? plateArea / sheetArea : 0 };
}

function at(point: Point): string {
  return `(${point.x.toFixed(3)}, ${point.y.toFixed(3)})`;
}
