import { obround } from "../contour/build.js";
import type { Contour, Point } from "../contour/contour.js";
import type { CuttingParameters, TieParameters } from "../frame/parameters.js";
import { cableTie } from "../standards/index.js";

/** A slot must let the cutter in with a little room (common practice: cutter + 0.3). */
const CUTTER_ROOM = 0.3;

/** Tie head and tail to pull, mm (common practice). */
const HEAD_AND_TAIL = 45;

/** One cable tie around something round that lies on a plate. */
export interface StrapPlace {
  readonly slots: readonly [Contour, Contour];
  /** Length of the tie to buy: the shortest sold that reaches around. */
  readonly tieLength: number;
  readonly needed: number;
}

/**
 * Slots on both sides of a lying pipe, a diameter apart, and the tie that goes around it: under the plate, up through both
 * slots and over the pipe, (2 + pi/2) d + 2 t and the head (computed).
 *
 * @param at the pipe's middle under the tie; @param along direction of its axis
 * @throws RangeError when no tie of that width is long enough
 */
export function strapPlace(
  at: Point,
  along: "x" | "y",
  diameter: number,
  plate: number,
  ties: TieParameters,
  cutting: CuttingParameters,
): StrapPlace {
  const tie = cableTie(ties.width);
  const height = Math.max(tie.slotHeight, cutting.kerf + CUTTER_ROOM);
  const half = ties.width / 2;
  const slot = (side: number): Contour => {
    const aside = (side * (diameter + height)) / 2;
    const middle = along === "x" ? { x: at.x, y: at.y + aside } : { x: at.x + aside, y: at.y };
    const step = along === "x" ? { x: half, y: 0 } : { x: 0, y: half };
    return obround(
      { x: middle.x - step.x, y: middle.y - step.y },
      { x: middle.x + step.x, y: middle.y + step.y },
      height,
    );
  };
  const needed = (2 + Math.PI / 2) * diameter + 2 * plate + HEAD_AND_TAIL;
  const tieLength = tie.lengths.find((length) => length >= needed);
  if (tieLength === undefined) {
    throw new RangeError(
      `a tie around ${diameter} mm must be ${needed.toFixed(0)} mm long, but ${ties.width} mm ties are sold up to ${Math.max(...tie.lengths)} mm; use wider ties if such are longer (keelcut catalog cable-ties), or a smaller part`,
    );
  }
  return { slots: [slot(-1), slot(1)], tieLength, needed };
}
