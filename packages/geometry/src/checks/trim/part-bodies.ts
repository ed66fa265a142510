import type { Machine } from "../../fit/machine.js";
import type { FittedDuct } from "../../fit/rod-runs.js";
import type { Frame } from "../../frame/frame.js";
import { pipeMaterial, rodSolid, STEEL } from "../../hardware/mass.js";
import { measuredThickness } from "../../plates/measured-thickness.js";
import type { Vector } from "../../plates/plate.js";
import { sheetMaterial } from "../../standards/index.js";
import { type Body, grams, type KnownBodies, solid } from "./body.js";

/** Pipes, rods, motors and what is bolted to the deck. */
export function partBodies(frame: Frame, machine: Machine): Omit<KnownBodies, "placeless"> {
  const motors = machine.ducts.flatMap((fitted) => motorBodies(fitted, machine));
  return {
    bodies: [...axisBodies(frame, machine), ...motors, ...boughtBodies(machine)],
    unknown: [...unknownMotors(machine), ...unknownBought(machine)],
  };
}

function axisBodies({ axes, parameters }: Frame, { ducts }: Machine): readonly Body[] {
  return axes.map((part): Body => {
    const at = part.from.map((from, axis) => (from + (part.to[axis] ?? from)) / 2) as unknown as Vector;
    const length = Math.hypot(...part.from.map((from, axis) => (part.to[axis] ?? from) - from));
    if (part.kind === "rod") {
      const { volume, density } = rodSolid(parameters.rods.thread, length);
      return solid(
        "rods",
        volume,
        density,
        at,
        "stainless steel 7900 kg/m3, from memory; ISO 724 pitch diameter",
      );
    }
    const bore = part.bore ?? part.diameter;
    const volume = (Math.PI / 4) * (part.diameter ** 2 - bore ** 2) * length;
    const { density, densityMin, densityMax, source } = sheetMaterial(
      pipeMaterial(standardOf(part.place, ducts)),
    );
    return {
      group: "pipes",
      mass: grams(volume, density),
      massMin: grams(volume, densityMin),
      massMax: grams(volume, densityMax),
      volume,
      at,
      source: `${source}; pipes without a standard taken as PVC-U`,
    };
  });
}

function standardOf(place: string, ducts: readonly FittedDuct[]): string | undefined {
  return ducts.find(({ duct }) => duct.id === place)?.duct.pipe.standard;
}

/** Motor and propeller in front of each carrier's front plate; they displace the motor's body. */
function motorBodies(fitted: FittedDuct, { parameters }: Machine): readonly Body[] {
  const { duct, fit, middle, stations } = fitted;
  const motor = parameters.motors[duct.motor];
  if (motor?.mass === undefined) return [];
  const mass = motor.mass;
  const { diameter, length } = motor.body;
  const volume = (Math.PI / 4) * diameter ** 2 * length;
  const ahead = fit.gap + measuredThickness(parameters.sheets.carrier) + length / 2;
  const places: readonly Vector[] = {
    surge: stations.map((x): Vector => [x + ahead - fit.gap / 2, middle.y, middle.z]),
    sway: stations.map((y): Vector => [middle.x, y + ahead - fit.gap / 2, middle.z]),
    heave: [[middle.x, middle.y, ahead + measuredThickness(parameters.sheets.carrier)] as const],
  }[duct.axis];
  return places.map(
    (at): Body => ({
      group: "motors",
      mass,
      massMin: mass,
      massMax: mass,
      volume,
      at,
      source: "stated by the designer",
    }),
  );
}

/** Pods, strapped parts and ballast whose mass is stated. */
function boughtBodies({ parameters }: Machine): readonly Body[] {
  const stated = { source: "stated by the designer" };
  const of = (group: string, mass: number, volume: number, at: Vector): Body => ({
    group,
    mass,
    massMin: mass,
    massMax: mass,
    volume,
    at,
    ...stated,
  });
  return [
    ...(parameters.pods ?? []).flatMap(({ at, body }) =>
      body === undefined ? [] : [of("pods", body.mass, body.volume * 1000, [at.x, at.y, body.middle])],
    ),
    ...(parameters.straps ?? []).flatMap(({ at, diameter, body }) =>
      body === undefined
        ? []
        : [of("strapped parts", body.mass, body.volume * 1000, [at.x, at.y, diameter / 2])],
    ),
    ...(parameters.ballast ?? []).flatMap(({ at, mass }) =>
      mass === undefined ? [] : [of("ballast", mass, (mass / STEEL) * 1e6, [at.x, at.y, 0])],
    ),
  ];
}

function unknownMotors({ ducts, parameters }: Machine): readonly string[] {
  const counts = new Map<string, number>();
  for (const { duct, stations } of ducts) {
    if (parameters.motors[duct.motor]?.mass !== undefined) continue;
    counts.set(duct.motor, (counts.get(duct.motor) ?? 0) + Math.max(1, stations.length));
  }
  return [...counts].map(([name, count]) => `${count} x motor ${name} (motors.${name}.mass)`);
}

function unknownBought({ parameters }: Machine): readonly string[] {
  const without = (
    kind: string,
    field: string,
    parts: readonly { readonly id: string }[],
  ): readonly string[] => parts.map(({ id }) => `${id} (${kind}.${id}.${field})`);
  return [
    ...without(
      "pods",
      "body",
      (parameters.pods ?? []).filter(({ body }) => body === undefined),
    ),
    ...without(
      "straps",
      "body",
      (parameters.straps ?? []).filter(({ body }) => body === undefined),
    ),
    ...without(
      "ballast",
      "mass",
      (parameters.ballast ?? []).filter(({ mass }) => mass === undefined),
    ),
  ];
}
