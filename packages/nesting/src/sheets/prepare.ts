import { regionArea } from "@keelcut/geometry";
import type { NestJob, Stock } from "../job.js";
import { packingShape, type Spacing, sheetShape, withUsableOpenings } from "../shape.js";
import { type SheetModel, sheetModel } from "./board.js";
import { fitsEmpty } from "./fill.js";
import { PlateKind } from "./kind.js";

/** A kind of stock with everything the packer computes once. */
export interface StockKind {
  readonly index: number;
  readonly stock: Stock;
  /** Filled along its longer side, and along its shorter one. */
  readonly along: SheetModel;
  readonly across: SheetModel;
  /** Whole area of one piece, mm2. */
  readonly area: number;
  /** What one piece counts for: its cost, or its area where nothing in the job has a cost. */
  readonly price: number;
  /** Kinds of plates that fit on the empty sheet, by index. */
  readonly holds: ReadonlySet<number>;
}

/** A job made ready for packing. */
export interface Setup {
  readonly job: NestJob;
  /** Every kind of plate of the job, in its order. */
  readonly kinds: readonly PlateKind[];
  /** Stock on which anything can lie. */
  readonly stock: readonly StockKind[];
}

/** How much finer the polygons of a plate are made that seems to fit nowhere. */
const FINER = 20;

export function prepare(job: NestJob): Setup {
  const shapes = withUsableOpenings(job.parts.map((part) => packingShape(part.region, job)));
  const models = job.stock.flatMap((stock, index) => stockModels(stock, index, job));
  const kinds = job.parts.map((part, index) => {
    const shape = shapes[index];
    if (shape === undefined) throw new Error(`part ${index} has no shape`);
    const kind = new PlateKind(index, part, shape);
    if (settle(kind, models)) return kind;
    // It may be the approximation that does not fit: try again with polygons hardly larger than the plate.
    const finer = { ...job, chordError: job.chordError / FINER };
    const exact = new PlateKind(index, part, packingShape(part.region, finer), { fine: true });
    return settle(exact, models, { snugly: true }) ? exact : kind;
  });
  const free = job.stock.every((stock) => stock.cost === 0);
  return {
    job,
    kinds,
    stock: models.map((model) => {
      const area = regionArea({ outer: model.stock.outline, openings: [] });
      const holds = kinds.filter((kind) => kind.usual.some((turn) => fitsEmpty(model.along, kind, turn)));
      return {
        ...model,
        area,
        price: free ? area : model.stock.cost,
        holds: new Set(holds.map((kind) => kind.index)),
      };
    }),
  };
}

type Models = Pick<StockKind, "index" | "stock" | "along" | "across">;

function stockModels(stock: Stock, index: number, spacing: Spacing): Models[] {
  const shape = sheetShape(stock, spacing);
  const upright = sheetModel(shape, true);
  const level = sheetModel(shape, false);
  if (upright === undefined || level === undefined) return [];
  const { minX, maxX, minY, maxY } = level.limits;
  const wide = maxX - minX >= maxY - minY;
  return [{ index, stock, along: wide ? level : upright, across: wide ? upright : level }];
}

/**
 * True when the kind fits on some empty sheet. Where only an unusual attitude fits a kind of stock, or one along the edges
 * of a stock that was drawn askew, that attitude becomes a usual one; `snugly`, also one between whole degrees.
 */
function settle(kind: PlateKind, models: readonly Models[], { snugly = false } = {}): boolean {
  let fits = false;
  for (const { along, stock } of models) {
    if (kind.usual.some((turn) => fitsEmpty(along, kind, turn))) {
      fits = true;
      continue;
    }
    const snug = snugly ? kind.within(roomOf(along)) : [];
    const unusual = [...kind.all, ...kind.alongEdges(stock.outline), ...snug];
    const rescue = unusual.find((turn) => !kind.usual.includes(turn) && fitsEmpty(along, kind, turn));
    if (rescue === undefined) continue;
    kind.usual.push(rescue);
    fits = true;
  }
  return fits;
}

/** Width and height of the box around the places on a sheet, as the sheet is drawn. */
function roomOf({ limits, turned }: SheetModel): { width: number; height: number } {
  const along = limits.maxX - limits.minX;
  const across = limits.maxY - limits.minY;
  return turned ? { width: across, height: along } : { width: along, height: across };
}
