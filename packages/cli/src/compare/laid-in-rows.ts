import { bounds, type Plate, regionArea, signedArea } from "@keelcut/geometry";
import type { NestResult, PlacedPart, Sheet, Stock } from "@keelcut/nesting";
import type { SheetGroup } from "../job/sheet-groups.js";

/** A rectangle that takes plates, inside its edge margin. */
interface Room {
  readonly stock: Stock;
  readonly length: number;
  readonly width: number;
}

interface Box {
  readonly part: string;
  readonly rotation: number;
  readonly length: number;
  readonly width: number;
  /** From the plate's origin to its box's lower left corner, turned. */
  readonly left: number;
  readonly low: number;
}

/**
 * A layout made in no time: the boxes of the plates in rows, longest first, as a saw would cut them. It is sound and
 * wasteful, so what it costs is a little more than what a search finds. Offcuts that are no rectangles are not used.
 *
 * Rows by first fit decreasing height (Coffman, Garey, Johnson, Tarjan, SIAM J. Comput. 9, 1980, section 2).
 *
 * @returns undefined when a plate fits no rectangle, or there are not enough of them
 */
export function laidInRows(group: SheetGroup): NestResult | undefined {
  const { job } = group;
  const rooms = job.stock.flatMap((stock) => roomOf(stock, job.edgeMargin));
  const owned = rooms.filter(({ stock }) => stock.cost === 0);
  const kinds = rooms.filter(({ stock }) => stock.cost > 0);
  const boxes = boxesOf(group);
  const results = (kinds.length === 0 ? [undefined] : kinds).flatMap((kind) => {
    const sheets = layRows(boxes, [...owned, ...(kind === undefined ? [] : [kind])], job.clearance);
    return sheets === undefined ? [] : [resultOf(sheets, group)];
  });
  return results.toSorted((a, b) => a.cost - b.cost || b.yield - a.yield)[0];
}

/**
 * No fewer sheets can do: the plates' own area over the largest area that any stock leaves inside its edge margin,
 * rounded up.
 */
export function leastSheets(group: SheetGroup): number {
  const { job } = group;
  const net = job.parts.reduce((sum, part) => sum + part.demand * regionArea(part.region), 0);
  const largest = Math.max(
    ...job.stock.map((stock) => {
      const [room] = roomOf(stock, job.edgeMargin);
      return room === undefined ? Math.abs(signedArea(stock.outline)) : room.length * room.width;
    }),
  );
  return Math.ceil(net / largest - 1e-9);
}

/** Area of one kit's plates, mm2. */
export function plateArea(plates: readonly Plate[]): number {
  return plates.reduce((sum, plate) => sum + plate.count * regionArea(plate.region), 0);
}

function roomOf(stock: Stock, edgeMargin: number): Room[] {
  const box = bounds(stock.outline);
  const [length, width] = [box.maxX - box.minX, box.maxY - box.minY];
  const isRectangle = Math.abs(Math.abs(signedArea(stock.outline)) - length * width) < 1e-6;
  if (!isRectangle || stock.keepOuts.length > 0) return [];
  const inside = { stock, length: length - 2 * edgeMargin, width: width - 2 * edgeMargin };
  return inside.length > 0 && inside.width > 0 ? [inside] : [];
}

/** Every copy as a box, its longer side along the sheet when it may be turned, tallest first. */
function boxesOf({ job }: SheetGroup): readonly Box[] {
  return job.parts
    .flatMap((part): Box[] => {
      const box = bounds(part.region.outer);
      const [length, width] = [box.maxX - box.minX, box.maxY - box.minY];
      const turned = width > length && (part.rotations === "any" || part.rotations.includes(90));
      // Turned by 90 degrees, (x, y) goes to (-y, x).
      const one: Box = turned
        ? { part: part.id, rotation: 90, length: width, width: length, left: -box.maxY, low: box.minX }
        : { part: part.id, rotation: 0, length, width, left: box.minX, low: box.minY };
      return Array.from({ length: part.demand }, () => one);
    })
    .toSorted((a, b) => b.width - a.width || b.length - a.length);
}

interface Row {
  readonly low: number;
  readonly width: number;
  used: number;
}

function layRows(boxes: readonly Box[], rooms: readonly Room[], gap: number): Sheet[] | undefined {
  const open: { room: Room; rows: Row[]; used: number; placements: PlacedPart[] }[] = [];
  const left = new Map(rooms.map(({ stock }) => [stock.id, stock.available]));
  const tryOn = (sheet: (typeof open)[number], box: Box): boolean => {
    const { room } = sheet;
    let row = sheet.rows.find((each) => each.width >= box.width && each.used + box.length <= room.length);
    if (row === undefined) {
      if (sheet.used + box.width > room.width || box.length > room.length) return false;
      row = { low: sheet.used, width: box.width, used: 0 };
      sheet.rows.push(row);
      sheet.used += box.width + gap;
    }
    const corner = bounds(room.stock.outline);
    const margin = (corner.maxX - corner.minX - room.length) / 2;
    sheet.placements.push({
      part: box.part,
      x: corner.minX + margin + row.used - box.left,
      y: corner.minY + margin + row.low - box.low,
      rotation: box.rotation,
      mirrored: false,
    });
    row.used += box.length + gap;
    return true;
  };
  for (const box of boxes) {
    if (open.some((sheet) => tryOn(sheet, box))) continue;
    const room = rooms.find(
      ({ stock, length, width }) => left.get(stock.id) !== 0 && box.length <= length && box.width <= width,
    );
    if (room === undefined) return undefined;
    const rest = left.get(room.stock.id);
    if (typeof rest === "number") left.set(room.stock.id, rest - 1);
    const sheet = { room, rows: [], used: 0, placements: [] };
    open.push(sheet);
    if (!tryOn(sheet, box)) return undefined;
  }
  return open.map(({ room, placements }) => ({ stock: room.stock.id, times: 1, placements }));
}

function resultOf(sheets: readonly Sheet[], { job }: SheetGroup): NestResult {
  const stocks = new Map(job.stock.map((stock) => [stock.id, stock]));
  const used = sheets.flatMap((sheet) => stocks.get(sheet.stock) ?? []);
  const area = used.reduce((sum, stock) => sum + Math.abs(signedArea(stock.outline)), 0);
  const net = job.parts.reduce((sum, part) => sum + part.demand * regionArea(part.region), 0);
  return {
    sheets,
    unplaced: [],
    cost: used.reduce((sum, stock) => sum + stock.cost, 0),
    yield: area === 0 ? 0 : net / area,
    steps: 0,
  };
}
