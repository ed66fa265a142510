import type { Finding } from "../checks/finding.js";
import type { Plate } from "../plates/plate.js";
import type { FrameParameters } from "./parameters.js";

/** A derived length or number with a stable dotted name, so that two frames can be compared by name. */
export interface Dimension {
  /** For example `port.carrier.rimDiameter`. */
  readonly name: string;
  readonly value: number;
  readonly unit: "mm" | "deg" | "1" | "g" | "mm2" | "mm3";
  /** How it follows from the parameters, in words and numbers. */
  readonly from: string;
}

/** Counted hardware of one kit: screws, nuts, washers, spacers, ties. Derived, never typed. */
export interface HardwareItem {
  /** Key for price lists: `screw ISO 4762 M3x20`, `nut ISO 4032 M6`, `tie 3.6x200`, `spacer M3x6`, `motor m2216`. */
  readonly item: string;
  readonly kind: "screw" | "nut" | "washer" | "spacer" | "tie" | "motor" | "propeller" | "other";
  readonly count: number;
  /** What it is for, one entry a use, with the stack that gives its length. */
  readonly uses: readonly { readonly place: string; readonly count: number; readonly why: string }[];
}

/** A piece sawn from bar, pipe or block stock. */
export interface LengthItem {
  /** Key for price lists: `rod DIN 976 M6`, `pipe EN 1329-1 75x3`. */
  readonly item: string;
  readonly kind: "rod" | "pipe";
  /** Finished length, mm. */
  readonly length: number;
  readonly count: number;
  readonly uses: readonly { readonly place: string; readonly count: number; readonly why: string }[];
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
