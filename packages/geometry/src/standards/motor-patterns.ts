import type { BoltPattern } from "../frame/parameters.js";
import { type Basis, lookUp, type Table } from "./table.js";

/** Where a class of motors usually has its holes: a starting point to be measured, not a promise. */
export interface MotorPattern {
  readonly pattern: BoltPattern;
  readonly screw: string;
  readonly basis: Basis;
}

/** The usual bolt pattern of a class of motors. Throws UnknownEntry. */
export function motorPattern(name: string): MotorPattern {
  return lookUp(motorPatterns, name);
}

/**
 * A pattern called "16x19" on a small outrunner is a cross: two opposite holes on a circle of 16 and two on a circle of
 * 19, at (+-8, 0) and (0, +-9.5). Read as a rectangle or square it puts every hole 2.8 to 3.4 mm off. A single number
 * is the diameter of a circle with holes at equal angles.
 */
export const motorPatterns: Table<MotorPattern> = {
  id: "motor-patterns",
  title: "Bolt patterns of motors",
  source: "Common practice of open parts tables; stepper flanges NEMA ICS 16, from memory",
  basis: "common practice",
  unit: "mm",
  note: "Starting points. Measure the motor; 16x19 and the like are crosses of two circles, never rectangles.",
  key: "class",
  columns: ["pattern", "screw", "basis"],
  rows: {
    "stator 11": motor({ kind: "circle", diameter: 9, holes: 4 }, "M2", "common practice"),
    "stator 13": motor({ kind: "circle", diameter: 12, holes: 4 }, "M2", "common practice"),
    "stator 14": motor({ kind: "circle", diameter: 12, holes: 4 }, "M2", "from memory"),
    "stator 18": motor({ kind: "circle", diameter: 12, holes: 4 }, "M2", "common practice"),
    "stator 22": motor({ kind: "cross", diameters: [16, 19] }, "M3", "common practice"),
    "stator 23": motor({ kind: "cross", diameters: [16, 19] }, "M3", "from memory"),
    "stator 25": motor({ kind: "cross", diameters: [19, 25] }, "M3", "from memory"),
    "stator 28": motor({ kind: "cross", diameters: [19, 25] }, "M3", "from memory"),
    "outrunner 35": motor({ kind: "cross", diameters: [25, 32] }, "M3", "from memory"),
    "outrunner 42": motor({ kind: "circle", diameter: 25, holes: 4 }, "M3", "common practice"),
    "outrunner 50": motor({ kind: "cross", diameters: [25, 32] }, "M4", "from memory"),
    "brushed 370": motor({ kind: "circle", diameter: 16, holes: 2 }, "M3", "from memory"),
    "brushed 540": motor({ kind: "circle", diameter: 25, holes: 2 }, "M3", "from memory"),
    "NEMA 11": motor({ kind: "rectangle", width: 23, height: 23 }, "M2.5", "from memory"),
    "NEMA 14": motor({ kind: "rectangle", width: 26, height: 26 }, "M3", "from memory"),
    "NEMA 17": motor({ kind: "rectangle", width: 31, height: 31 }, "M3", "from memory"),
  },
};

function motor(pattern: BoltPattern, screw: string, basis: Basis): MotorPattern {
  return { pattern, screw, basis };
}
