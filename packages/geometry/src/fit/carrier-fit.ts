import type { Point } from "../contour/contour.js";
import { boltCentres, boltReach } from "../features/bolt-pattern.js";
import type { DuctParameters, MotorParameters, RodParameters } from "../frame/parameters.js";
import { capScrew, clearanceHole, plainWasher, roundSpacer, thread } from "../standards/index.js";
import type { DuctPipe } from "./duct-pipe.js";

/** Free play between a rod and the spacers on both sides of it, mm. Own choice: rods go in by hand, the carrier does not rattle. */
const PIN_PLAY = 0.25;

/** Air between parts that must not touch: screw heads, spacers, motor body, mm. Own choice. */
const PART_AIR = 0.5;

/** Material around a spacer's hole, mm: 1.1 times an M3 hole's diameter, so that routed webs stay above 3 mm. Own choice. */
export const BOSS_WALL = 3.3;

/** Air between the motor body, whose outer shell may turn, and the nearest screw head, mm. Own choice. */
const MOTOR_AIR = 1;

/**
 * Widest rod pitch over outside diameter by default: the rods then meet the pipe wall at asin(0.6) = 37 degrees at most,
 * where a hand drill still enters without walking. Own choice.
 */
const WIDEST_PITCH_RATIO = 0.6;

/** A washer more in a spacer stack is worth this much play: loose washers make assembly slow, mm. Own choice. */
const WASHER_DISLIKE = 0.25;

/** Everything about one duct's carrier that follows from pipe, motor, rods and screws. All mm, axes across the duct. */
export interface CarrierFit {
  readonly rimRadius: number;
  /** Outer radius of the windows. */
  readonly windowRadius: number;
  readonly rodPitch: number;
  /** Widest pitch at which the outer spacers still have their edge distance. */
  readonly widestPitch: number;
  readonly rodRadius: number;
  /** Spacer centres: x across the rods, y along them. First pair outside the rods, second pair between them. */
  readonly pins: readonly Point[];
  /** Distance from rod axis to spacer axis across the rod. */
  readonly pinOffset: number;
  /** Least distance of a spacer's centre from the rim. */
  readonly pinEdge: number;
  readonly pinHole: number;
  readonly spacerOutside: number;
  readonly motorHole: number;
  readonly motorCentres: readonly Point[];
  /** Circle that contains every motor screw's head. */
  readonly motorHeadReach: number;
  readonly hubRadius: number;
  /** Opening of the back plate through which the motor screws are driven. */
  readonly reliefRadius: number;
  /** Length of spacer and number of washers that together keep the plates apart. */
  readonly spacerLength: number;
  readonly spacerWashers: number;
  /** Distance between the two plates. */
  readonly gap: number;
  /** Distance the gap must at least be, and for what. */
  readonly gapNeeded: number;
}

/**
 * Fits a carrier into a pipe: rim from the smallest bore, spacers on both sides of each rod, hub around the motor.
 *
 * The inner spacers leave the axis sideways when they would stand on the motor's screws or lie under its body. Nothing is checked here:
 * a carrier that cannot work is still described, so that the fit checks can say by how much.
 */
export function fitCarrier(
  duct: DuctParameters,
  pipe: DuctPipe,
  motor: MotorParameters,
  rods: RodParameters,
): CarrierFit {
  const screw = duct.carrier.spacerScrew;
  const nominal = thread(screw).major;
  const spacer = roundSpacer(screw);
  const rodRadius = thread(rods.thread).major / 2;
  const rimRadius = floorTo(pipe.boreMin / 2 - duct.carrier.fitGap, 0.05);
  const pinOffset = rodRadius + spacer.outside / 2 + PIN_PLAY;
  // Edge distance 1.5 d is the least for plastics (common practice); a washer must not stand over the rim either.
  const pinEdge = Math.max(1.5 * nominal, plainWasher(screw).outside / 2 + PART_AIR);
  const widestPitch = 2 * (rimRadius - pinEdge - pinOffset);
  const rodPitch =
    duct.carrier.rodPitch ?? Math.floor(Math.min(widestPitch, WIDEST_PITCH_RATIO * pipe.outsideMin));

  const motorScrew = capScrew(motor.screw);
  const motorHeadReach = boltReach(motor.pattern) + motorScrew.headDiameterMax / 2;
  const reliefRadius = motorHeadReach + PART_AIR;
  const pinHole = clearanceHole(screw, "medium");
  const clearOfMotor = Math.max(
    motor.body.diameter / 2 + plainWasher(screw).outside / 2 + MOTOR_AIR,
    reliefRadius + BOSS_WALL + pinHole / 2,
    motorHeadReach + spacer.outside / 2 + PART_AIR,
  );
  const innerX = rodPitch / 2 - pinOffset;
  const innerY = innerX >= clearOfMotor ? 0 : Math.sqrt(clearOfMotor ** 2 - innerX ** 2);
  const outerX = rodPitch / 2 + pinOffset;

  const gapNeeded =
    duct.axis === "heave"
      ? motorScrew.headHeightMax + PART_AIR
      : thread(rods.thread).major + rods.gapAllowance;
  const stack = spacerStack(screw, gapNeeded);
  return {
    rimRadius,
    windowRadius: rimRadius - duct.carrier.rimWidth,
    rodPitch,
    widestPitch,
    rodRadius,
    pins: [
      { x: outerX, y: 0 },
      { x: -outerX, y: 0 },
      { x: innerX, y: innerY },
      { x: -innerX, y: -innerY },
    ],
    pinOffset,
    pinEdge,
    pinHole,
    spacerOutside: spacer.outside,
    motorHole: clearanceHole(motor.screw, "medium"),
    motorCentres: boltCentres(motor.pattern),
    motorHeadReach,
    hubRadius: Math.max(motorHeadReach + 2, motor.body.diameter / 2),
    reliefRadius,
    spacerLength: stack.length,
    spacerWashers: stack.washers,
    gap: stack.gap,
    gapNeeded,
  };
}

/**
 * The shortest stack of one standard spacer and up to two washers that reaches the gap.
 * Falls back to the longest stack there is, which the fit check then refuses with the numbers.
 */
function spacerStack(screw: string, needed: number): { length: number; washers: number; gap: number } {
  const washer = plainWasher(screw).thickness;
  const stacks = roundSpacer(screw).lengths.flatMap((length) =>
    [0, 1, 2].map((washers) => ({ length, washers, gap: length + washers * washer })),
  );
  stacks.sort((a, b) => a.gap + WASHER_DISLIKE * a.washers - (b.gap + WASHER_DISLIKE * b.washers));
  const fitting = stacks.find((stack) => stack.gap >= needed - 1e-9) ?? stacks.at(-1);
  if (fitting === undefined) throw new RangeError(`no spacer lengths are listed for ${screw}`);
  return fitting;
}

function floorTo(value: number, step: number): number {
  return Math.floor(value / step + 1e-9) * step;
}
