import type { Machine } from "../fit/machine.js";
import type { Frame } from "../frame/frame.js";
import type { WaterParameters } from "../frame/parameters.js";
import type { Vector } from "../plates/plate.js";
import { foam, usualWater } from "../standards/index.js";
import type { Contribution, Finding } from "./finding.js";
import { numberText } from "./number-text.js";
import { type Body, grams, type KnownBodies } from "./trim/body.js";
import { hardwareBodies } from "./trim/hardware-bodies.js";
import { partBodies } from "./trim/part-bodies.js";
import { plateBodies } from "./trim/plate-bodies.js";

/** m/s2, standard gravity (ISO 80000-3). */
export const GRAVITY = 9.80665;

/** Depth taken when a frame states none, m. Own choice: a pool or a shallow lake. */
const USUAL_DEPTH = 5;

/** Heel at which the righting moment is printed, degrees. */
const HEEL = 10;

/** Where the vehicle works, or fresh water at a shallow depth. */
function waterOf({ water }: Frame["parameters"]): WaterParameters {
  return water ?? { density: usualWater.fresh, depth: USUAL_DEPTH };
}

/** Pressure of the water above, kPa. */
function pressureAt({ density, depth }: WaterParameters): number {
  return (density * GRAVITY * depth) / 1000;
}

/** Every part whose mass follows from the frame or is stated, and the names of the others. */
export function knownBodies(frame: Frame, machine: Machine): KnownBodies {
  const parts = partBodies(frame, machine);
  const loose = frame.plates.filter((plate) => plate.made === "cut" && plate.seats.length === 0);
  return {
    bodies: [
      ...plateBodies(frame, pressureAt(waterOf(frame.parameters))),
      ...hardwareBodies(frame, machine),
      ...parts.bodies,
    ],
    unknown: [...parts.unknown, ...loose.map(({ id }) => `plate ${id}, which has no place in the vehicle`)],
  };
}

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
export function checkTrim(frame: Frame, { bodies, unknown }: KnownBodies): readonly Finding[] {
  if (bodies.length === 0) return [];
  const water = waterOf(frame.parameters);
  return [balance(bodies, unknown, water), ...foamDepth(frame, water)];
}

function balance(bodies: readonly Body[], unknown: readonly string[], water: WaterParameters): Finding {
  const { mass, volume, gravity, buoyancy } = trimOf(bodies);
  const displaced = grams(volume, water.density);
  const lift = displaced - mass;
  const above = buoyancy[2] - gravity[2];
  // About the origin, fully submerged: M = (zB B - zG W) sin(heel); N and mm make N mm.
  const righting =
    (((buoyancy[2] * displaced - gravity[2] * mass) * GRAVITY) / 1e6) * Math.sin((HEEL * Math.PI) / 180);
  const complete = unknown.length === 0;
  const bad = complete && (lift < 0 || above <= 0);
  const verdict = !complete
    ? ` Not counted: ${unknown.join(", ")}.`
    : lift < 0
      ? " It sinks: add foam or take off weight."
      : above <= 0
        ? " It turns over: bring foam up or weight down."
        : "";
  return {
    id: "trim.balance",
    severity: bad ? "warning" : "note",
    place: "vehicle",
    message: `the known parts weigh ${Math.round(mass)} g in air and displace ${Math.round(displaced)} g of water (${numberText(water.density)} kg/m3, ${numberText(water.depth)} m deep): ${Math.round(Math.abs(lift))} g ${lift < 0 ? "too heavy" : "of lift"}; centre of gravity ${pointText(gravity)}, of buoyancy ${pointText(buoyancy)}, ${numberText(Math.abs(above))} mm ${above > 0 ? "above" : "below"} it; righting moment at ${HEEL} degrees ${numberText(righting)} N m.${verdict} Cables, seals and water in corners are in no estimate`,
    measured: lift,
    limit: 0,
    unit: "g",
    why: "a submerged vehicle floats when it displaces more than it weighs, and stays upright when the centre of buoyancy lies above that of gravity",
    source:
      "Archimedes; M = (zB B - zG W) sin(heel), Fossen, Handbook of Marine Craft Hydrodynamics, restoring forces, from memory",
    contributions: groups(bodies, water.density),
  };
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

/** Name in the table of foams of a float sheet. */
const FOAM_OF: Readonly<Record<string, string>> = { XPS: "XPS IV", "PE foam": "PE foam 33" };

function foamDepth({ parameters, plates }: Frame, water: WaterParameters): readonly Finding[] {
  const sheet = parameters.sheets.float;
  if (sheet === undefined || !plates.some((plate) => plate.sheet.material === sheet.material)) return [];
  const name = FOAM_OF[sheet.material];
  if (name === undefined) return [];
  const { strength, usableShare, source } = foam(name);
  const pressure = pressureAt(water);
  const usable = usableShare * strength;
  if (pressure <= usable) return [];
  const depth = (usable * 1000) / (water.density * GRAVITY);
  return [
    {
      id: "trim.foam-depth",
      severity: pressure > strength ? "error" : "warning",
      place: "floats",
      message: `at ${numberText(water.depth)} m the water presses with ${numberText(pressure)} kPa; ${name} holds ${numberText(strength)} kPa in a short test and ${numberText(usable)} for long: keep above ${numberText(depth)} m or use a stronger foam`,
      measured: pressure,
      limit: usable,
      unit: "kPa",
      why: "foam that is crushed lifts no more",
      source: `${source}; usable share: own choice`,
    },
  ];
}

function pointText(point: Vector): string {
  return `(${point.map(numberText).join(", ")})`;
}
