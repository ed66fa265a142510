import type { Budget } from "../budget.js";
import type { Turn } from "../nofit/polygon.js";
import { Board, type Laid, type SheetModel } from "./board.js";
import type { PlateKind } from "./kind.js";
import type { Oriented } from "./oriented.js";
import { type Frontier, type Place, PlaceFinder, type Taste } from "./place.js";

/** How a sheet is filled: in which attitudes each kind of plate is tried and which places it likes. */
export interface Manner {
  readonly tastes: readonly Taste[];
  readonly turns: readonly (readonly Turn[])[];
}

/** What a construction asks now and then. */
export interface Pace {
  /** Give up: what is being built is not needed. */
  stop(): boolean;
  /** Take the first attitude that has a place instead of the best. */
  hasty(): boolean;
}

export interface FilledSheet {
  readonly model: SheetModel;
  readonly laid: readonly Laid[];
  /** Copies of each kind that lie there. */
  readonly counts: readonly number[];
  /** Net area of what lies there, mm2. */
  readonly area: number;
  /** Length of the sheet that is used, in its packing direction, mm. */
  readonly used: number;
}

/**
 * Fills one sheet: takes the kinds in the given order, as long as copies are left, and lays each where it likes best.
 * A kind that found no place once is not tried again, since the sheet only gets fuller. Undefined when told to stop.
 *
 * @param begun plates that lie there already; they count towards the copies that are left
 */
export async function fillInOrder(
  model: SheetModel,
  kinds: readonly PlateKind[],
  order: readonly number[],
  left: readonly number[],
  manner: Manner,
  budget: Budget,
  pace: Pace,
  begun: readonly Laid[] = [],
): Promise<FilledSheet | undefined> {
  const board = new Board(model);
  const finder = new PlaceFinder();
  const tries = new Map<number, Try[]>();
  const counts = left.map(() => 0);
  let free = model.area;
  for (const { kind, turn, x, y } of begun) {
    board.lay(kind, turn, kinds[kind].oriented(turn, model.turned), x, y);
    counts[kind]++;
    free -= kinds[kind].area;
  }
  let open = left.filter((count, index) => count > counts[index]).length;
  for (const index of order) {
    if (open === 0) break;
    const kind = kinds[index];
    if (counts[index] >= left[index]) continue;
    let attitudes = tries.get(index);
    if (attitudes?.length === 0) continue;
    if (attitudes === undefined) {
      attitudes = (manner.turns[index] as readonly Turn[]).map((turn) => ({
        turn,
        plate: kind.oriented(turn, model.turned),
        frontier: { x: Number.NEGATIVE_INFINITY },
      }));
      tries.set(index, attitudes);
    }
    await budget.step();
    if (pace.stop()) return undefined;
    const found =
      kind.area > free * (1 + 1e-9)
        ? undefined
        : bestOf(board, finder, attitudes, manner.tastes[index], pace.hasty());
    if (found === undefined) {
      tries.set(index, []);
      open--;
      continue;
    }
    board.lay(index, found.attitude.turn, found.attitude.plate, found.place.x, found.place.y);
    free -= kind.area;
    counts[index] = counts[index] + 1;
    if (counts[index] === left[index]) open--;
  }
  const area = counts.reduce((sum, count, index) => sum + count * kinds[index].area, 0);
  return { model, laid: board.laid, counts, area, used: board.reach - model.limits.minX };
}

/** True when the plate has a place on the empty sheet in this attitude. */
export function fitsEmpty(model: SheetModel, kind: PlateKind, turn: Turn): boolean {
  const place = new PlaceFinder().find(
    new Board(model),
    kind.oriented(turn, model.turned),
    { edge: 1, low: 1e-3 },
    { x: Number.NEGATIVE_INFINITY },
    Number.POSITIVE_INFINITY,
  );
  return place !== undefined;
}

interface Try {
  readonly turn: Turn;
  readonly plate: Oriented;
  readonly frontier: Frontier;
}

function bestOf(
  board: Board,
  finder: PlaceFinder,
  attitudes: readonly Try[],
  taste: Taste,
  hasty: boolean,
): { attitude: Try; place: Place } | undefined {
  let best: { attitude: Try; place: Place } | undefined;
  for (const attitude of attitudes) {
    const limit = best ? best.place.score - 1e-9 : Number.POSITIVE_INFINITY;
    const place = finder.find(board, attitude.plate, taste, attitude.frontier, limit);
    if (place) best = { attitude, place };
    if (best && hasty) break;
  }
  return best;
}
