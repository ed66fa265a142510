import { extended, lookUp, numberTable, type Table } from "../table.js";

/** An ISO metric coarse thread; mm, mm2. */
export interface Thread {
  /** Nominal diameter. */
  readonly major: number;
  /** Limits of the outside diameter of a screw or rod, tolerance class 6g. */
  readonly majorMin: number;
  readonly majorMax: number;
  readonly pitch: number;
  /** Pitch diameter d2, minor diameter of the nut D1, root diameter of the screw d3 (basic profile). */
  readonly pitchDiameter: number;
  readonly nutMinorDiameter: number;
  readonly rootDiameter: number;
  /** Drill for tapping in metal. */
  readonly tapDrill: number;
  /** Tensile stress area, mm2. */
  readonly stressArea: number;
}

/** ISO metric coarse thread by name (`M6`). Throws UnknownEntry. */
export function thread(name: string): Thread {
  return lookUp(threads, name);
}

/**
 * M12 tap drill: 10.2 (ISO 2306) rather than 10.3 (three-quarter thread charts) or 10.25 (d - P). Coarse pitches of
 * 0.45, 0.75 and 0.9 for M2, M4 and M5 in old charts are not ISO.
 */
export const threads: Table<Thread> = extended(
  numberTable(
    {
      id: "iso-724",
      title: "ISO metric coarse threads (ISO 724, ISO 965)",
      source:
        "ISO 724: d2 = d - 0.649519 P, D1 = d - 1.082532 P, d3 = d - 1.226869 P; ISO 898-1: At = pi/4 (d - 0.938194 P)^2; tap drills ISO 2306; 6g limits ISO 965-2, from memory",
      basis: "from memory",
      unit: "mm; stressArea mm2",
      note: "Pitches and tap drills as the standards are reproduced, diameters and areas computed, majorMax and majorMin from memory.",
    },
    "thread",
    ["major", "majorMin", "majorMax", "pitch", "tapDrill"],
    {
      M2: [2, 1.886, 1.981, 0.4, 1.6],
      "M2.5": [2.5, 2.38, 2.48, 0.45, 2.05],
      M3: [3, 2.874, 2.98, 0.5, 2.5],
      M4: [4, 3.838, 3.978, 0.7, 3.3],
      M5: [5, 4.826, 4.976, 0.8, 4.2],
      M6: [6, 5.794, 5.974, 1, 5],
      M8: [8, 7.76, 7.972, 1.25, 6.8],
      M10: [10, 9.732, 9.968, 1.5, 8.5],
      M12: [12, 11.701, 11.966, 1.75, 10.2],
    },
  ),
  ["pitchDiameter", "nutMinorDiameter", "rootDiameter", "stressArea"],
  ({ major, pitch }) => ({
    pitchDiameter: major - 0.649519 * pitch,
    nutMinorDiameter: major - 1.082532 * pitch,
    rootDiameter: major - 1.226869 * pitch,
    stressArea: (Math.PI / 4) * (major - 0.938194 * pitch) ** 2,
  }),
);
