import type { Finding } from "../checks/finding.js";
import type { HardwareItem, LengthItem } from "../hardware/item.js";
import type { Plate } from "../plates/plate.js";
import type { FrameParameters } from "./parameters.js";

export type { HardwareItem, LengthItem } from "../hardware/item.js";

/** A derived length or number with a stable dotted name, so that two frames can be compared by name. */
export interface Dimension {
  /** For example `port.carrier.rimDiameter`. */
  readonly name: string;
  readonly value: number;
  readonly unit: "mm" | "deg" | "1" | "g" | "mm2" | "mm3";
  /** How it follows from the parameters, in words and numbers. */
  readonly from: string;
}

/** A straight rod or a pipe as it lies in the vehicle, for drawings and for checks in space. */
export interface AxisPart {
  readonly kind: "rod" | "pipe";
  readonly place: string;
  /** Both ends of its axis, mm, vehicle axes. */
  readonly from: readonly [number, number, number];
  readonly to: readonly [number, number, number];
  readonly diameter: number;
  /** Bore for pipes. */
  readonly bore?: number;
}

/** The whole machine, derived from its parameters. */
export interface Frame {
  readonly parameters: FrameParameters;
  readonly plates: readonly Plate[];
  readonly hardware: readonly HardwareItem[];
  readonly lengths: readonly LengthItem[];
  readonly axes: readonly AxisPart[];
  readonly dimensions: readonly Dimension[];
  /** What derivation itself found (parameters that cannot work). Plates that cannot be drawn are left out, never guessed. */
  readonly findings: readonly Finding[];
}
