import { thicknessRange } from "../../fit/layout.js";
import type { Machine } from "../../fit/machine.js";
import type { FittedDuct } from "../../fit/rod-runs.js";
import { overCheeks } from "../../frame/axes.js";
import type { StructuralSheet } from "../../frame/parameters.js";
import { endNut } from "../../hardware/end-nut.js";
import { blindScrew, rodLength, throughScrew } from "../../hardware/screw-length.js";
import {
  capScrew,
  itTolerance,
  plainWasher,
  rodStock,
  sheetMaterial,
  thread,
} from "../../standards/index.js";
import type { Contribution, Finding } from "../finding.js";
import { numberText } from "../number-text.js";
import { about, addUp, between, jointFinding } from "./stack.js";

/** A rod is sawn to length by hand, plus or minus mm. Own choice. */
const SAWN = 1;

/** Do screws and rods reach far enough, and never too far? */
export function screwLength(machine: Machine): readonly Finding[] {
  return [
    ...machine.ducts.flatMap((fitted) => [...motorScrew(fitted, machine), ...spacerScrew(fitted, machine)]),
    ...rodEnds(machine),
  ];
}

function sheetOf(name: string, sheet: StructuralSheet, times: number): Contribution {
  const { min, max } = thicknessRange(sheet);
  const source =
    sheet.measured === undefined ? sheetMaterial(sheet.material).thicknessSource : "measured by the designer";
  return between(name, min, max, times, source);
}

/** Length of a standard screw: js15 (ISO 4762, product grade A of ISO 4759-1). */
function screwOf(screw: string, length: number, times: number): Contribution {
  return about(
    `screw ${screw}x${length}`,
    length,
    itTolerance(length, "IT15") / 2,
    times,
    "ISO 4762, length js15",
  );
}

/** What is left of the motor's thread below the screw's end. Past it lie the windings. */
function motorScrew({ duct }: FittedDuct, { parameters }: Machine): readonly Finding[] {
  const motor = parameters.motors[duct.motor];
  if (motor === undefined) return [];
  const { carrier } = parameters.sheets;
  const choice = blindScrew(motor.screw, thicknessRange(carrier), motor.threadDepth);
  if (!choice.ok) return [];
  const { major } = thread(motor.screw);
  const reach = [screwOf(motor.screw, choice.length, 1), sheetOf("carrier plate", carrier, -1)];
  const engaged = addUp(reach);
  return [
    jointFinding({
      id: "fit.motor-screw-depth",
      place: `${duct.id}.motor`,
      what: `${motor.screw}x${choice.length} ends before the motor's thread of ${numberText(motor.threadDepth)} mm does, by`,
      remark: `it holds on ${numberText(engaged.worst)} to ${numberText(engaged.most)} mm of thread, ${numberText(engaged.nominal)} nominal (${numberText(engaged.nominal / major)} d; 1 d uses a metal thread fully)`,
      cure: "put a washer under each head, or measure the carrier's sheet",
      why: "a screw that is too long runs into the motor's windings",
      contributions: [
        about("depth of the motor's thread", motor.threadDepth, 0, 1, "stated by the designer"),
        ...reach.map(reversed),
      ],
      gravest: "error",
    }),
  ];
}

/** The same size the other way round. */
function reversed({ nominal, plus, minus, ...rest }: Contribution): Contribution {
  return { ...rest, nominal: -nominal, plus: minus, minus: plus };
}

/** Thread beyond the nut of the screws that hold a carrier together, and through the deck under a heave duct. */
function spacerScrew({ duct, fit }: FittedDuct, { parameters, layout }: Machine): readonly Finding[] {
  const screw = duct.carrier.spacerScrew;
  const { carrier, structure } = parameters.sheets;
  const standing = duct.axis === "heave";
  const clamped = 2 * thicknessRange(carrier).max + fit.gap + (standing ? layout.structure.max : 0);
  const choice = throughScrew(screw, clamped, parameters.nuts);
  if (!choice.ok) return [];
  const { pitch } = thread(screw);
  const nut = endNut(screw, parameters.nuts);
  const washer = plainWasher(screw);
  const held: readonly Contribution[] = [
    sheetOf("two carrier plates", carrier, -2),
    ...(standing ? [sheetOf("deck", structure, -1)] : []),
    about("spacer and its washers", fit.gap, 0.13, -1, "spacer lengths: common practice"),
    about("two washers", washer.thickness, washer.thicknessMax - washer.thickness, -2, "ISO 7089"),
  ];
  const beyond = jointFinding({
    id: "fit.screw-beyond-nut",
    place: `${duct.id}.carrier`,
    what: `${screw}x${choice.length} stands out of its nut by`,
    least: pitch,
    cure: "use the next longer screw",
    why: "one thread at least must stand out of a nut for its full strength",
    contributions: [
      screwOf(screw, choice.length, 1),
      ...held,
      between(`${screw} nut`, nut.heightMin, nut.heightMax, -1, nut.standard),
    ],
    gravest: "error",
  });
  const plain = choice.length - capScrew(screw).threadLength;
  // The longest plain shank: thread length b is a least length, and the last full thread may be two pitches short of it.
  const shank = Math.max(0, plain);
  const least = -addUp(held).most;
  if (shank <= least) return [beyond];
  return [
    beyond,
    {
      id: "fit.screw-thread-reaches-nut",
      severity: "warning",
      place: `${duct.id}.carrier`,
      message: `${screw}x${choice.length} has ${numberText(shank)} mm of plain shank, the nut sits after ${numberText(least)} mm: it cannot be tightened; use a screw threaded to the head (ISO 4017 or a fully threaded one)`,
      measured: shank,
      limit: least,
      why: "screws longer than their standard thread length have a plain shank",
      source: "ISO 4762, thread length b",
    },
  ];
}

/** Thread beyond the outer nuts of the rods across the vehicle, and whether a bar is long enough to saw one from. */
function rodEnds({ parameters, layout }: Machine): readonly Finding[] {
  if (layout.runs.length === 0) return [];
  const rod = parameters.rods.thread;
  const length = rodLength(rod, overCheeks(layout), parameters.nuts);
  const { pitch } = thread(rod);
  const nut = endNut(rod, parameters.nuts);
  const washer = plainWasher(rod);
  const bars = rodStock(rod).barLengths;
  const longest = Math.max(...bars);
  const ends = jointFinding({
    id: "fit.rod-beyond-nut",
    place: "rods",
    what: `both ends of a ${rod} rod sawn to ${length} mm stand out of their nuts by, together`,
    least: 2 * pitch,
    cure: "saw the rods longer",
    why: "one thread at least must stand out of a nut for its full strength",
    contributions: [
      about(`rod of ${length} mm`, length, SAWN, 1, "sawn by hand: own choice"),
      about("between the cheeks", layout.innerWidth, 0, -1, "geometry"),
      sheetOf("two cheeks", parameters.sheets.structure, -2),
      about("two washers", washer.thickness, washer.thicknessMax - washer.thickness, -2, "ISO 7089"),
      between("two nuts", nut.heightMin, nut.heightMax, -2, nut.standard),
    ],
    gravest: "error",
  });
  if (length <= longest) return [ends];
  return [
    ends,
    {
      id: "fit.rod-stock",
      severity: "error",
      place: "rods",
      message: `the rods are ${length} mm long, ${rod} rod is sold up to ${longest} mm: make the vehicle narrower or use a thicker rod`,
      measured: length,
      limit: longest,
      why: "a rod in one piece locks the carriers",
      source: "DIN 976-1; bar lengths from memory",
    },
  ];
}
