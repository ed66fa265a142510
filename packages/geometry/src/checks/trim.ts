import type { Machine } from "../fit/machine.js";
import type { Frame } from "../frame/frame.js";
import type { WaterParameters } from "../frame/parameters.js";
import type { HardwareItem } from "../hardware/item.js";
import { standardPiece } from "../hardware/mass.js";
import type { Vector } from "../plates/plate.js";
import { usualWater } from "../standards/index.js";
import type { Contribution, Finding } from "./finding.js";
import { numberText } from "./number-text.js";
import { type Body, grams, type KnownBodies } from "./trim/body.js";
import { foamFindings, pressureAt } from "./trim/foam-findings.js";
import { GRAVITY } from "./trim/gravity.js";
import { hardwareBodies } from "./trim/hardware-bodies.js";
import { partBodies } from "./trim/part-bodies.js";
import { plateBodies } from "./trim/plate-bodies.js";

/** Depth taken when a frame states none, m. Own choice: a pool or a shallow lake. */
const USUAL_DEPTH = 5;

/** Heel at which the righting moment is printed, degrees. */
const HEEL = 10;

/** Leaning up to so many degrees is trimmed away with a small weight. Own choice. */
const LEVEL = 5;

/** Where the vehicle works, or fresh water at a shallow depth. */
function waterOf({ water }: Frame["parameters"]): WaterParameters {
  return water ?? { density: usualWater.fresh, depth: USUAL_DEPTH };
}

/** Every part whose mass follows from the frame or is stated, and the names of the others. */
export function knownBodies(frame: Frame, machine: Machine): KnownBodies {
  const parts = partBodies(frame, machine);
  const loose = frame.plates.filter((plate) => plate.made === "cut" && plate.seats.length < plate.count);
  return {
    bodies: [
      ...plateBodies(frame, pressureAt(waterOf(frame.parameters))),
      ...hardwareBodies(frame, machine),
      ...parts.bodies,
    ],
    unknown: [...parts.unknown, ...unweighed(frame)],
    placeless: loose.map(
      ({ id, count, seats }) => `${count - seats.length} x plate ${id}, which has no place in the vehicle`,
    ),
  };
}

/** Hardware of own plates that is in no table; motors and bought parts are named with the field that is missing. */
function unweighed({ hardware }: Frame): readonly string[] {
  return hardware
    .filter((item) => !ELSEWHERE.includes(item.kind) && standardPiece(item) === undefined)
    .map(({ item, count }) => `${count} x ${item}`);
}

const ELSEWHERE: readonly HardwareItem["kind"][] = ["motor", "propeller", "part", "ballast"];

/** Mass and centre of bodies, and volume and centre of the water they displace. */
export function trimOf(bodies: readonly Body[]): {
  readonly mass: number;
  readonly volume: number;
  readonly gravity: Vector;
  readonly buoyancy: Vector;
} {
  const weighted = (weight: (body: Body) => number): { total: number; centre: Vector } => {
    const total = bodies.reduce((sum, body) => sum + weight(body), 0);
    const centre = [0, 1, 2].map(
      (axis) => bodies.reduce((sum, body) => sum + weight(body) * (body.at[axis] ?? 0), 0) / (total || 1),
    );
    return { total, centre: centre as unknown as Vector };
  };
  const mass = weighted((body) => body.mass);
  const volume = weighted((body) => body.volume);
  return { mass: mass.total, volume: volume.total, gravity: mass.centre, buoyancy: volume.centre };
}

/** Does it float, upright? An estimate from what is known; what is not is named. */
export function checkTrim(frame: Frame, known: KnownBodies): readonly Finding[] {
  if (known.bodies.length === 0) return [];
  const water = waterOf(frame.parameters);
  return [balance(known, water), ...foamFindings(frame, water)];
}

function balance({ bodies, unknown, placeless }: KnownBodies, water: WaterParameters): Finding {
  const { mass, volume, gravity, buoyancy } = trimOf(bodies);
  const displaced = grams(volume, water.density);
  const lift = displaced - mass;
  const above = buoyancy[2] - gravity[2];
  // About the centre of gravity, fully submerged; N and mm make N mm.
  const righting = ((above * displaced * GRAVITY) / 1e6) * Math.sin((HEEL * Math.PI) / 180);
  const leaning = leans(gravity, buoyancy).filter(({ degrees }) => Math.abs(degrees) > LEVEL);
  const faults = [
    ...(lift < 0 ? ["It sinks: add foam or take off weight."] : []),
    ...(above <= 0 ? ["It turns over: bring foam up or weight down."] : leaning.map(leanText)),
  ];
  const uncounted = [...unknown, ...placeless];
  const verdict = [
    ...(faults.length > 0 && unknown.length > 0 ? ["As far as it is known:"] : []),
    ...faults,
    ...(uncounted.length > 0 ? [`Not counted: ${uncounted.join(", ")}.`] : []),
  ];
  return {
    id: "trim.balance",
    severity: faults.length > 0 && unknown.length === 0 ? "warning" : "note",
    place: "vehicle",
    message: `the known parts weigh ${Math.round(mass)} g in air and displace ${Math.round(displaced)} g of water (${numberText(water.density)} kg/m3, ${numberText(water.depth)} m deep): ${Math.round(Math.abs(lift))} g ${lift < 0 ? "too heavy" : "of lift"}; centre of gravity ${pointText(gravity)}, of buoyancy ${pointText(buoyancy)}, ${numberText(Math.abs(above))} mm ${above > 0 ? "above" : "below"} it; righting moment at ${HEEL} degrees ${numberText(righting)} N m. ${verdict.map((sentence) => `${sentence} `).join("")}Cables, seals and water in corners are in no estimate`,
    measured: lift,
    limit: 0,
    unit: "g",
    why: "a submerged vehicle floats when it displaces more than it weighs, and stays upright when the centre of buoyancy lies above that of gravity",
    source:
      "Archimedes; M = B (zB - zG) sin(heel), Fossen, Handbook of Marine Craft Hydrodynamics, restoring forces about the centre of gravity, from memory; 5 degrees: own choice",
    contributions: groups(bodies, water.density),
  };
}

/** An angle at which the vehicle comes to rest, and how far buoyancy lies from gravity then, mm. */
interface Lean {
  readonly how: readonly [string, string];
  readonly degrees: number;
  readonly off: number;
  readonly towards: readonly [string, string];
}

/** It comes to rest with the centre of buoyancy straight above that of gravity. */
function leans(gravity: Vector, buoyancy: Vector): readonly Lean[] {
  const above = buoyancy[2] - gravity[2];
  const [ahead, aside] = [gravity[0] - buoyancy[0], gravity[1] - buoyancy[1]];
  const angle = (off: number): number => (Math.atan2(off, above) * 180) / Math.PI;
  return [
    { how: ["nose down", "nose up"], degrees: angle(ahead), off: ahead, towards: ["back", "forward"] },
    {
      how: ["over to port", "over to starboard"],
      degrees: angle(aside),
      off: aside,
      towards: ["to starboard", "to port"],
    },
  ];
}

function leanText({ how, degrees, off, towards }: Lean): string {
  const side = off > 0 ? 0 : 1;
  return `It comes to rest ${numberText(Math.abs(degrees))} degrees ${how[side]}: move weight ${towards[side]}, or foam the other way, until the two centres are one above the other (now ${numberText(Math.abs(off))} mm off).`;
}

/** Lift of each group of parts, g, with what the range of its density makes of it. */
function groups(bodies: readonly Body[], density: number): readonly Contribution[] {
  const names = [...new Set(bodies.map(({ group }) => group))];
  return names.map((name): Contribution => {
    const own = bodies.filter(({ group }) => group === name);
    const sum = (pick: (body: Body) => number): number => own.reduce((total, body) => total + pick(body), 0);
    const mass = sum((body) => body.mass);
    return {
      name,
      nominal:
        grams(
          sum((body) => body.volume),
          density,
        ) - mass,
      plus: mass - sum((body) => body.massMin),
      minus: sum((body) => body.massMax) - mass,
      source: [...new Set(own.map(({ source }) => source))].join("; "),
    };
  });
}

function pointText(point: Vector): string {
  return `(${point.map(numberText).join(", ")})`;
}
