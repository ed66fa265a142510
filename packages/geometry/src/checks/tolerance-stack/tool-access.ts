import { boltReach } from "../../features/bolt-pattern.js";
import { pipeNutSeat } from "../../fit/layout.js";
import type { Machine } from "../../fit/machine.js";
import type { FittedDuct } from "../../fit/rod-runs.js";
import type { AxisPart } from "../../frame/frame.js";
import { endNut } from "../../hardware/end-nut.js";
import type { Plate } from "../../plates/plate.js";
import { hexNut, plainWasher } from "../../standards/index.js";
import { axisMeetsPlate } from "../assembly/axis-meets-plate.js";
import { placedPlates } from "../assembly/placed-plate.js";
import type { Finding } from "../finding.js";
import { numberText } from "../number-text.js";
import { cutEdge, headRadius } from "./sources.js";
import { about, between, jointFinding } from "./stack.js";

/**
 * Head of an open-ended spanner over its width across flats: 2.2 wide, 0.5 thick. From memory of common ones (10 mm: 22 wide,
 * 5 thick); ISO 3318 limits the width.
 */
const SPANNER_WIDTH = 2.2;
const SPANNER_THICKNESS = 0.5;

/** Nut that a spanner must grip, as a share of its height. Own choice. */
const LEAST_GRIP = 0.4;

/** Can every screw be driven and every nut be held, once the parts are where they belong? */
export function toolAccess(machine: Machine, plates: readonly Plate[]): readonly Finding[] {
  return [...driverOpening(machine), ...spannerAtPipe(machine), ...spannerSwing(machine, plates)];
}

/** The motor's screws go in, head first, through the opening of the back plate. */
function driverOpening({ ducts, parameters }: Machine): readonly Finding[] {
  const edge = cutEdge(parameters.cutting);
  return ducts.flatMap(({ duct, fit }): readonly Finding[] => {
    const motor = parameters.motors[duct.motor];
    if (motor === undefined) return [];
    return [
      jointFinding({
        id: "fit.driver-opening",
        place: `${duct.id}.carrier`,
        what: `the motor's ${motor.screw} heads pass the opening of the back plate with`,
        cure: "have the carriers cut more exactly",
        why: "the motor is screwed on after the carrier is put together",
        contributions: [
          about("half the opening", fit.reliefRadius, edge.deviation, 1, edge.source),
          about("motor screw from the axis", boltReach(motor.pattern), edge.deviation, -1, edge.source),
          headRadius(motor.screw, -1),
        ],
        gravest: "error",
      }),
    ];
  });
}

/**
 * A nut against a round pipe is gripped only where a spanner clears the pipe: the spanner's edge nearest the duct's axis
 * meets the wall before the nut does.
 */
function spannerAtPipe(machine: Machine): readonly Finding[] {
  return machine.ducts
    .filter(({ duct, sound }) => duct.axis !== "heave" && sound)
    .map((fitted) => {
      const { rods, nuts } = machine.parameters;
      // The rods of a sway duct end at its pipe; those across the vehicle go on to the cheeks.
      const nut = endNut(rods.thread, fitted.duct.axis === "sway" ? nuts : "plain");
      const lost = wallBeforeNut(fitted, machine);
      const { pipe } = fitted;
      return jointFinding({
        id: "fit.spanner-at-pipe",
        place: `${fitted.duct.id}.rods`,
        what: `a spanner grips the ${rods.thread} nut at the pipe over`,
        least: LEAST_GRIP * nut.heightMin,
        cure: "make carrier.rodPitch smaller, or use a thin spanner or a bent one",
        why: "the pipe bulges out beside the nut",
        contributions: [
          between("nut", nut.heightMin, nut.heightMax, 1, nut.standard),
          between(
            "pipe wall before the nut's face",
            lost * (pipe.outsideMin / pipe.outsideWorst),
            lost,
            -1,
            `${pipe.source}; spanner ${SPANNER_WIDTH} x across flats: from memory`,
          ),
        ],
        gravest: "warning",
      });
    });
}

function wallBeforeNut(fitted: FittedDuct, { parameters }: Machine): number {
  const { acrossFlats } = hexNut(parameters.rods.thread);
  const outside = fitted.pipe.outsideWorst / 2;
  const near = Math.max(0, fitted.fit.rodPitch / 2 - (SPANNER_WIDTH * acrossFlats) / 2);
  return Math.sqrt(outside ** 2 - near ** 2) - pipeNutSeat(fitted, parameters);
}

/** A spanner's head around each nut of the rods must not meet a plate. */
function spannerSwing(machine: Machine, plates: readonly Plate[]): readonly Finding[] {
  const placed = placedPlates(plates);
  return nutPlaces(machine).flatMap((nut): readonly Finding[] => {
    const blocked = placed.filter((plate) => axisMeetsPlate(nut, plate) !== undefined);
    if (blocked.length === 0) return [];
    const names = [...new Set(blocked.map(({ plate }) => plate.id))];
    return [
      {
        id: "fit.spanner-swing",
        severity: "warning",
        place: nut.place,
        message: `a spanner on the nut needs ${numberText(nut.diameter / 2)} mm around the rod, ${names.join(" and ")} ${names.length === 1 ? "stands" : "stand"} in its way: move ${names.length === 1 ? "it" : "them"}, or tighten with a socket from the end`,
        limit: nut.diameter / 2,
        why: "both nuts of a pair are held while they are tightened",
        source: "open-ended spanner, 2.2 times the width across flats: from memory",
      },
    ];
  });
}

/** A short piece of the spanner's head at each inner nut: at the cheeks, and on both sides of each pipe. */
function nutPlaces(machine: Machine): readonly AxisPart[] {
  const { layout, parameters } = machine;
  const nut = hexNut(parameters.rods.thread);
  const washer = plainWasher(parameters.rods.thread).thicknessMax;
  const thickness = SPANNER_THICKNESS * nut.acrossFlats;
  return layout.runs.flatMap((run) => {
    const atPipes = run.ducts.flatMap((fitted) => {
      const seat = pipeNutSeat(fitted, parameters) + Math.max(0, nut.heightMax - thickness);
      return [-1, 1].map((side) => ({
        place: `${fitted.duct.id}.rods`,
        from: fitted.middle.y + side * seat,
        to: fitted.middle.y + side * (seat + thickness),
      }));
    });
    const atCheeks = [-1, 1].map((side) => {
      const face = layout.innerWidth / 2 - washer - Math.max(0, nut.heightMax - thickness);
      return { place: "rods", from: side * face, to: side * (face - thickness) };
    });
    return run.z.flatMap((z) =>
      [...atPipes, ...atCheeks].map(
        ({ place, from, to }): AxisPart => ({
          kind: "rod",
          place,
          from: [run.x, from, z],
          to: [run.x, to, z],
          diameter: SPANNER_WIDTH * nut.acrossFlats,
        }),
      ),
    );
  });
}
