import { obround } from "../contour/build.js";
import type { Contour, Point } from "../contour/contour.js";
import type { CuttingParameters, TieParameters } from "../frame/parameters.js";
import { cableTie } from "../standards/index.js";

/** Distance between the two slots of a tie place, in tie widths. Own choice: leaves a web of two tie widths. */
const PAIR_SPACING = 3.4;

/** Air between pipe and slot, mm. */
const PIPE_AIR = 1;

/** A slot must let the cutter in with a little room (common practice: cutter + 0.3). */
const CUTTER_ROOM = 0.3;

/** A tie's own tolerance, that of the slot's cut edge and a little room, mm. Own choice. */
const TIE_ROOM = 0.3;

/** Tie head, tail to pull and bends, mm (common practice). */
const HEAD_AND_TAIL = 55;

/**
 * Where cable ties hold a pipe that stands on a plate. Each place is a pair of slots outside the pipe and a pair of holes
 * through its wall above them: the tie comes up one slot, passes behind the wall and goes down the other.
 */
export interface TiePlaces {
  /** Slots in the plate, centred on the pipe's axis, counter-clockwise. */
  readonly slots: readonly Contour[];
  /** Angles of the holes in the pipe wall, degrees counter-clockwise from x. */
  readonly holeAngles: readonly number[];
  readonly holeDiameter: number;
  /** Shortest tie that reaches around, mm. */
  readonly tieLengthNeeded: number;
  /** Farthest point of the slots from the pipe's axis, mm. */
  readonly reach: number;
  /** From the pipe's axis to the outer long side of a slot, mm. */
  readonly outerSide: number;
}

/** The pipe that is held, all mm. */
export interface StandingPipe {
  /** Largest outside diameter. */
  readonly outside: number;
  /** Thickest wall. */
  readonly wallMax: number;
  /** How far from its axis it may stand. */
  readonly aside: number;
}

/**
 * A slot is as deep as the tie and the cutter ask for, and deep enough for the tie to pass where the pipe stands aside.
 *
 * @param plate thickness of the plate, mm
 * @param height of the holes above the plate, mm
 */
export function tiePlaces(
  ties: TieParameters,
  cutting: CuttingParameters,
  { outside, wallMax, aside }: StandingPipe,
  plate: number,
  height: number,
): TiePlaces {
  const tie = cableTie(ties.width);
  const passing = aside + tie.thickness + TIE_ROOM - PIPE_AIR;
  const slotHeight = Math.max(tie.slotHeight, cutting.kerf + CUTTER_ROOM, passing);
  // Round slot ends narrow the slot where the tie lies, so a router's slot is a little longer than the tie is wide.
  const slotLength = ties.width + slotHeight;
  const slotRadius = outside / 2 + PIPE_AIR + slotHeight / 2;
  const spacing = PAIR_SPACING * ties.width;
  const halfAngle = Math.atan(spacing / 2 / slotRadius);
  const middles = Array.from({ length: ties.places }, (_, k) => (2 * Math.PI * (k + 0.5)) / ties.places);
  const angles = middles.flatMap((middle) => [middle - halfAngle, middle + halfAngle]);
  return {
    slots: angles.map((angle) => tangentialSlot(angle, slotRadius, slotLength, slotHeight)),
    holeAngles: angles.map((angle) => (angle * 180) / Math.PI),
    holeDiameter: Math.ceil((ties.width + CUTTER_ROOM) * 2) / 2,
    tieLengthNeeded:
      2 * spacing + 2 * (plate + height) + 2 * (wallMax + PIPE_AIR + slotHeight) + HEAD_AND_TAIL,
    outerSide: slotRadius + slotHeight / 2,
    reach: Math.hypot(slotRadius + slotHeight / 2, slotLength / 2),
  };
}

function tangentialSlot(angle: number, radius: number, length: number, height: number): Contour {
  const centre: Point = { x: radius * Math.cos(angle), y: radius * Math.sin(angle) };
  const half = (length - height) / 2;
  const along = { x: -Math.sin(angle) * half, y: Math.cos(angle) * half };
  return obround(
    { x: centre.x - along.x, y: centre.y - along.y },
    { x: centre.x + along.x, y: centre.y + along.y },
    height,
  );
}
