import type { FrameParameters, HandlingParameters } from "../../frame/parameters.js";
import { sheetMaterial } from "../../standards/index.js";
import type { KnownBodies } from "../trim/body.js";
import { GRAVITY } from "../trim/gravity.js";
import { DESIGN_FACTOR } from "./estimate.js";

/** Lifted by one grip with a jerk, set down hard on two feet. Own choice, where the frame states nothing. */
const USUAL: HandlingParameters = { liftFactor: 2, landingFactor: 3 };

/** The loads of the estimates, from the known mass in air. */
export interface Loads {
  /** Known mass, g. */
  readonly mass: number;
  /** N, in one grip. */
  readonly lift: number;
  /** N, on two feet together. */
  readonly landing: number;
  readonly factors: HandlingParameters;
}

export function loadsOf({ bodies }: KnownBodies, parameters: FrameParameters): Loads {
  const mass = bodies.reduce((sum, body) => sum + body.mass, 0);
  const factors = parameters.handling ?? USUAL;
  const weight = newtons(mass);
  return { mass, lift: factors.liftFactor * weight, landing: factors.landingFactor * weight, factors };
}

/** Weight, N, of a mass in g. */
export function newtons(mass: number): number {
  return (mass / 1000) * GRAVITY;
}

/** What a sheet material may bear in bending, MPa. */
export function allowedStress(material: string): number {
  return sheetMaterial(material).yield / DESIGN_FACTOR;
}
