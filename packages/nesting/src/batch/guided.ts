import { Budget } from "../budget.js";
import { extentOf, type Turn, turnedPolygon } from "../nofit/polygon.js";
import { type CompiledSheet, compileSheet, fillSheet, type SheetProblem } from "../search/fill-sheet.js";
import { turnsWithin, withDemand } from "../search/instance.js";
import { packSheets } from "../search/pack-sheets.js";
import type { Laid } from "../sheets/board.js";
import { type FilledSheet, fillInOrder } from "../sheets/fill.js";
import type { Taste } from "../sheets/place.js";
import type { Setup } from "../sheets/prepare.js";
import { type CompiledStrip, compileStrip } from "../strip/engines.js";
import { packCompiled } from "../strip/pack-strip.js";
import { KeptWorkers } from "../workers/kept-workers.js";
import { type CoarsePlate, coarsePlates, coarseSheet, isBox } from "./coarse.js";
import { soundLayout } from "./proof.js";
import type { StockShape } from "./shapes.js";

/** A sheet for the guided search. */
interface Prepared {
  readonly problem: SheetProblem;
  /** The same compiled, once it is to be filled: its tables are dear. */
  sheet: CompiledSheet | undefined;
  /** Where grown plates may lie, when that is a rectangle with nothing on it. */
  readonly room: Room | undefined;
}

interface Room {
  readonly minX: number;
  readonly minY: number;
  readonly length: number;
  readonly width: number;
}

/** A strip as wide as a sheet, or as long, and which kinds its items are. */
interface SheetStrip {
  readonly kinds: readonly number[];
  readonly strip: CompiledStrip;
}

/** Effort and seed of one search. */
export interface Try {
  readonly steps: number;
  readonly seed: number;
}

/** What a search of a strip came to. */
export interface Stretched {
  /** Length the plates took over the length of the sheet: at most 1 when all have room. */
  readonly length: number;
  /** What lies on the sheet; undefined when nothing does. */
  readonly filled: FilledSheet | undefined;
  /** Placement searches done: fewer than allowed when all found room early. */
  readonly steps: number;
}

/** What laying whole kits on several sheets came to. */
export interface Together {
  readonly filled: readonly FilledSheet[] | undefined;
  /** Placement searches done. */
  readonly steps: number;
}

/**
 * Makes layouts with the guided search, on coarse polygons that contain the true plates. Each layout is proved by the
 * independent check before it is handed out.
 */
export class GuidedMaker {
  private readonly setup: Setup;
  private readonly mix: readonly number[];
  private readonly workers: number;
  private readonly signal: AbortSignal | undefined;
  private readonly wanted: number;
  private readonly coarse = new Map<StockShape, readonly CoarsePlate[]>();
  private readonly prepared = new Map<StockShape, Prepared | undefined>();
  private readonly strips = new Map<string, SheetStrip>();
  private readonly threads = new KeptWorkers();

  constructor(setup: Setup, mix: readonly number[], workers: number, signal: AbortSignal | undefined) {
    this.setup = setup;
    this.mix = mix;
    this.workers = workers;
    this.signal = signal;
    this.wanted = mix.filter((count) => count > 0).length;
  }

  /** Most copies worth trying on a shape: whole kits, one more than area allows. More leads to sheets of few kinds. */
  limits(shape: StockShape): number[] {
    const kitArea = this.taken(shape, this.mix);
    const kits = Math.ceil(shape.along.area / kitArea);
    return this.mix.map((count, kind) => (shape.holds.has(kind) ? count * kits : 0));
  }

  /** Pairs of shapes whose no-fit regions must be built, about 1 ms each. */
  pairs(shape: StockShape): number {
    const shapes = this.plates(shape).reduce(
      (sum, { turns }, kind) => sum + ((this.mix[kind] as number) > 0 ? turns.length : 0),
      0,
    );
    return shapes ** 2 / 3;
  }

  /** False for a shape on which this search cannot lay anything. */
  usable(shape: StockShape): boolean {
    return this.ready(shape) !== undefined;
  }

  /** The plates worth most that it finds room for. */
  filled(shape: StockShape, worths: readonly number[], { steps, seed }: Try): FilledSheet | undefined {
    const ready = this.ready(shape);
    if (ready === undefined) return undefined;
    const effort = { steps, ...(this.signal === undefined ? {} : { signal: this.signal }) };
    ready.sheet ??= compileSheet(ready.problem);
    const { placements } = fillSheet(ready.sheet, worths, this.limits(shape), effort, seed);
    return this.sound(
      shape,
      placements.map(({ item, x, y, rotation, mirrored }) => ({
        kind: item,
        turn: { rotation, mirrored },
        x,
        y,
      })),
    );
  }

  /**
   * Lays just these plates on a strip as wide as the sheet, or as long, and keeps what does not reach beyond the sheet. With
   * worths, what they leave free is filled with further plates, the dearest for their area first.
   */
  async stretched(
    shape: StockShape,
    counts: readonly number[],
    { steps, seed }: Try,
    worths?: readonly number[],
  ): Promise<Stretched | undefined> {
    const room = this.ready(shape)?.room;
    if (room === undefined) return undefined;
    const across = seed % 2 !== 0;
    const length = across ? room.width : room.length;
    const { kinds, strip } = this.strip(shape, room, across);
    if (counts.some((count, kind) => count > 0 && !kinds.includes(kind))) return undefined;
    const demand = kinds.map((kind) => counts[kind] as number);
    const own = { ...strip, instance: withDemand(strip.instance, demand) };
    const enough = new AbortController();
    const result = await packCompiled(own, { steps }, seed, {
      workers: this.workers,
      startWorker: this.threads.start,
      signal: this.signal === undefined ? enough.signal : AbortSignal.any([this.signal, enough.signal]),
      onProgress: (best) => {
        if (best.length <= length) enough.abort();
      },
    });
    const laid = result.placements.flatMap(({ item, x, y, rotation, mirrored }): Laid[] => {
      const kind = kinds[item] as number;
      const turn = { rotation: rounded(rotation), mirrored };
      if (x + this.extent(shape, kind, turn).maxX > length + HAIR) return [];
      if (!across) return [{ kind, turn, x: room.minX + x, y: room.minY + y }];
      const upright = { rotation: rounded(rotation + 90), mirrored };
      return [{ kind, turn: upright, x: room.minX + room.length - y, y: room.minY + x }];
    });
    const filled = this.sound(shape, laid);
    const most = worths && filled && (await this.filledUp(shape, filled, worths));
    return { length: result.length / length, filled: most ?? filled, steps: result.steps };
  }

  /** The sheet with more plates on it where there is room; undefined where there is none. */
  private async filledUp(
    shape: StockShape,
    { model, laid }: FilledSheet,
    worths: readonly number[],
  ): Promise<FilledSheet | undefined> {
    const { kinds } = this.setup;
    const limits = this.limits(shape);
    const rate = (kind: number): number => (worths[kind] as number) / kinds[kind].area;
    const order = limits
      .flatMap((count, kind) => Array.from({ length: (worths[kind] as number) > 0 ? count : 0 }, () => kind))
      .toSorted((a, b) => rate(b) - rate(a) || a - b);
    const manner = { tastes: kinds.map(() => LOW), turns: kinds.map((kind) => kind.all) };
    const pace = { stop: () => this.signal?.aborted === true, hasty: () => false };
    const budget = new Budget({ steps: Number.POSITIVE_INFINITY }, {});
    const more = await fillInOrder(model, kinds, order, limits, manner, budget, pace, laid);
    return more !== undefined && more.laid.length > laid.length ? this.sound(shape, more.laid) : undefined;
  }

  /** Lays so many whole kits on so many sheets, if it finds a way and the sheet is one that can be filled so. */
  together(shape: StockShape, kits: number, sheets: number, { steps, seed }: Try): Together {
    const room = this.ready(shape)?.room;
    if (room === undefined) return { filled: undefined, steps: 0 };
    const { kinds, strip } = this.strip(shape, room, false);
    if (this.mix.some((count, kind) => count > 0 && !kinds.includes(kind)))
      return { filled: undefined, steps: 0 };
    const instance = withDemand(
      strip.instance,
      kinds.map((kind) => kits * (this.mix[kind] as number)),
    );
    const { places, ...spent } = packSheets(instance, room, sheets, steps, seed);
    if (places === undefined) return { filled: undefined, ...spent };
    const filled = Array.from({ length: sheets }, (_, sheet) => {
      const laid = places.flatMap((place, item): Laid[] => {
        if (place.sheet !== sheet) return [];
        const own = instance.kindOfItem[item];
        const turn = strip.turns[own][instance.turnOfShape[place.shape]];
        const x = room.minX + place.x - instance.centreX[place.shape];
        const y = room.minY + place.y - instance.centreY[place.shape];
        return [{ kind: kinds[own] as number, turn, x, y }];
      });
      return this.sound(shape, laid);
    });
    // An unsound sheet makes the others useless; an empty one only tells that fewer do.
    const used = filled.filter((each) => each !== undefined);
    const laidOut = used.reduce((sum, { laid }) => sum + laid.length, 0);
    return { filled: laidOut === instance.movable ? used : undefined, ...spent };
  }

  plates(shape: StockShape): readonly CoarsePlate[] {
    const known = this.coarse.get(shape) ?? coarsePlates(this.setup, this.wanted, shape);
    this.coarse.set(shape, known);
    return known;
  }

  /** Area that so many plates take on a full sheet, roughly, mm2. */
  taken(shape: StockShape, counts: readonly number[]): number {
    return this.plates(shape).reduce((sum, { taken }, kind) => sum + taken * counts[kind], 0);
  }

  /** Ends the threads it works with. */
  close(): void {
    this.threads.close();
  }

  private ready(shape: StockShape): Prepared | undefined {
    if (this.prepared.has(shape)) return this.prepared.get(shape);
    const problem = coarseSheet(this.setup, shape, this.plates(shape), this.limits(shape));
    let ready: Prepared | undefined;
    if (problem !== undefined) {
      const { minX, maxX, minY, maxY } = extentOf(problem.outline.outer);
      const open = problem.fixed.length === 0 && isBox(problem.outline.outer);
      const room = open ? { minX, minY, length: maxX - minX, width: maxY - minY } : undefined;
      ready = { problem, sheet: undefined, room };
    }
    this.prepared.set(shape, ready);
    return ready;
  }

  /** The strip of the kinds that fit the sheet, in the turns in which they do; compiled once, for its tables are dear. */
  private strip(shape: StockShape, room: Room, across: boolean): SheetStrip {
    const key = `${shape.index} ${across}`;
    const known = this.strips.get(key);
    if (known !== undefined) return known;
    const [height, width] = across ? [room.length, room.width] : [room.width, room.length];
    const all = this.plates(shape).map(({ body }, kind) => {
      const { rotations, mirrorable } = this.setup.kinds[kind].part;
      const angles = rotations === "any" ? QUARTERS : rotations;
      const fits = (rotation: number): boolean => {
        const turns = [false, ...(mirrorable ? [true] : [])].map((mirrored) => ({ rotation, mirrored }));
        return turnsWithin(body, turns, { width, height }) === turns.length;
      };
      return {
        polygon: body,
        demand: 1,
        rotations: (across ? angles.map((angle) => (angle + 270) % 360) : angles).filter(fits),
        mirrorable,
      };
    });
    const kinds = all.flatMap(({ rotations }, kind) =>
      (this.mix[kind] as number) > 0 && rotations.length > 0 ? [kind] : [],
    );
    const items = kinds.map((kind) => all[kind] as (typeof all)[number]);
    const strip = compileStrip({ height, items });
    this.strips.set(key, { kinds, strip });
    return { kinds, strip };
  }

  private extent(shape: StockShape, kind: number, turn: Turn): { readonly maxX: number } {
    return extentOf(turnedPolygon(this.plates(shape)[kind].body, turn).outer);
  }

  /** The sheet, when the independent check finds nothing wrong. */
  private sound(shape: StockShape, laid: readonly Laid[]): FilledSheet | undefined {
    if (laid.length === 0) return undefined;
    const model = shape.along.turned ? shape.across : shape.along;
    const counts = this.setup.kinds.map(({ index }) => laid.filter(({ kind }) => kind === index).length);
    const area = counts.reduce((sum, count, kind) => sum + count * (this.setup.kinds[kind]?.area ?? 0), 0);
    const end = Math.max(...laid.map(({ kind, turn, x }) => x + this.extent(shape, kind, turn).maxX));
    const filled = { model, laid, counts, area, used: end - model.limits.minX };
    return soundLayout(this.setup, shape, filled) ? filled : undefined;
  }
}

/** Plates are added as low and as far left as they go. */
const LOW: Taste = { edge: 1, low: 1e-3 };

const QUARTERS = [0, 90, 180, 270] as const;

/** Rounding of lengths, mm. */
const HAIR = 1e-6;

/** The angle in 0 <= angle < 360, free of the noise of radians. */
function rounded(angle: number): number {
  return (((Math.round(angle * 1e9) / 1e9) % 360) + 360) % 360;
}
