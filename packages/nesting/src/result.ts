import { type Box, placeRegion, regionBounds } from "@keelcut/geometry";
import type { NestResult, PlacedPart, Sheet, Stock, Unplaced } from "./job.js";
import type { Laid } from "./sheets/board.js";
import type { Layout, LayoutSheet } from "./sheets/construct.js";
import type { PlateKind } from "./sheets/kind.js";
import type { Setup } from "./sheets/prepare.js";

/** A layout in the caller's terms: sheets' own coordinates, equal sheets merged, and why plates are missing. */
export function resultOf(setup: Setup, layout: Layout, steps: number): NestResult {
  let cost = 0;
  let plateArea = 0;
  let sheetArea = 0;
  for (const sheet of layout.sheets) {
    cost += sheet.times * sheet.stock.stock.cost;
    plateArea += sheet.times * sheet.area;
    sheetArea += sheet.times * sheet.stock.area;
  }
  return {
    sheets: merged(layout.sheets.map((sheet) => sheetOf(setup, sheet))),
    unplaced: unplaced(setup, layout),
    cost,
    yield: sheetArea > 0 ? plateArea / sheetArea : 0,
    steps,
  };
}

function sheetOf(setup: Setup, sheet: LayoutSheet): Sheet {
  return {
    stock: sheet.stock.stock.id,
    times: sheet.times,
    placements: placementsOf(setup, sheet),
  };
}

/** Where the plates of a filled sheet lie, in the stock's own coordinates. */
export function placementsOf(
  setup: Setup,
  { laid, model }: Pick<LayoutSheet, "laid" | "model">,
): PlacedPart[] {
  return laid.map((each) => placementOf(setup, each, model.turned));
}

/** Back from the packing frame: a sheet packed along its y direction was turned by -90 degrees. */
function placementOf(setup: Setup, { kind, turn, x, y }: Laid, turned: boolean): PlacedPart {
  const part = setup.kinds[kind].part.id;
  const at = turned ? { x: 0 - y, y: x } : { x, y };
  return { part, ...at, rotation: turn.rotation, mirrored: turn.mirrored };
}

/** Sheets with the same plates in the same places become one that is cut more often. */
function merged(sheets: readonly Sheet[]): Sheet[] {
  const found = new Map<string, Sheet>();
  for (const sheet of sheets) {
    const key = JSON.stringify([sheet.stock, sheet.placements]);
    const same = found.get(key);
    found.set(key, same ? { ...same, times: same.times + sheet.times } : sheet);
  }
  return [...found.values()];
}

function unplaced(setup: Setup, layout: Layout): Unplaced[] {
  return setup.kinds.flatMap((kind): Unplaced[] => {
    const count = layout.left[kind.index] ?? 0;
    if (count === 0) return [];
    const part = kind.part.id;
    const fits = setup.stock.some((stock) => stock.holds.has(kind.index));
    if (fits || setup.job.stock.length === 0) {
      return [{ part, count, reason: "stock-used-up", message: usedUp(setup, kind, count) }];
    }
    return [{ part, count, reason: "too-large", message: tooLarge(setup, kind) }];
  });
}

function usedUp(setup: Setup, kind: PlateKind, count: number): string {
  const { id } = kind.part;
  const demand = setup.job.parts[kind.index]?.demand ?? kind.part.demand;
  const holders = setup.stock.filter((stock) => stock.holds.has(kind.index));
  if (holders.length === 0) return `${count} of ${demand} copies of ${id} are left: the job has no stock`;
  const used = holders.map(({ stock }) => `${stock.available} of ${stock.id}`).join(", ");
  return `${count} of ${demand} copies of ${id} are left: everything they fit on is used up (${used})`;
}

function tooLarge(setup: Setup, kind: PlateKind): string {
  const { edgeMargin, stock } = setup.job;
  const [nearest, ...others] = kind.all
    .flatMap((turn) => {
      const plate = size(regionBounds(placeRegion(kind.part.region, { x: 0, y: 0, ...turn })));
      return stock.map((piece) => ({ turn, plate, piece, ...missing(plate, piece, edgeMargin) }));
    })
    .sort((a, b) => a.most - b.most || a.sum - b.sum);
  if (nearest === undefined) throw new Error(`${kind.part.id} has no attitude to be too large in`);
  const { plate, piece, most, turn } = nearest;
  const whole = size(regionBounds({ outer: piece.outline, openings: [] }));
  const room = `${mmRoom(whole.width - 2 * edgeMargin)} x ${mmRoom(whole.height - 2 * edgeMargin)} mm within its edge margin`;
  const reason =
    most > 0
      ? `leaves ${room}: it lacks ${mm(Math.max(0, nearest.lacksWidth))} x ${mm(Math.max(0, nearest.lacksHeight))} mm`
      : `has the room by its box (${room}), but its outline or keep-outs leave none`;
  const turns = others.length > 0 ? ` at its best angle, ${Number(turn.rotation.toFixed(2))} degrees` : "";
  return (
    `${kind.part.id} is ${mm(plate.width)} x ${mm(plate.height)} mm${turns}; ` +
    `the nearest stock, ${piece.id} (${mmRoom(whole.width)} x ${mmRoom(whole.height)} mm), ${reason}`
  );
}

interface Size {
  readonly width: number;
  readonly height: number;
}

function size({ minX, minY, maxX, maxY }: Box): Size {
  return { width: maxX - minX, height: maxY - minY };
}

function missing(
  plate: Size,
  stock: Stock,
  edgeMargin: number,
): { lacksWidth: number; lacksHeight: number; most: number; sum: number } {
  const whole = size(regionBounds({ outer: stock.outline, openings: [] }));
  const lacksWidth = plate.width + 2 * edgeMargin - whole.width;
  const lacksHeight = plate.height + 2 * edgeMargin - whole.height;
  const width = Math.max(0, lacksWidth);
  const height = Math.max(0, lacksHeight);
  return { lacksWidth, lacksHeight, most: Math.max(width, height), sum: width + height };
}

/** Up: what is too large is never shown smaller than it is by more than rounding noise. */
function mm(value: number): string {
  return String(Math.ceil(value * 100 - 1e-6) / 100);
}

/** Down, for room. */
function mmRoom(value: number): string {
  return String(Math.floor(value * 100 + 1e-6) / 100);
}
