import { extended, lookUp, type Table } from "../table.js";
import { usualWater } from "./density.js";

/** A foam for floats. */
export interface Foam {
  /** kg/m3. */
  readonly density: number;
  /** Compressive strength, kPa: at yield or 10 % strain (XPS), plateau (PVC), at 25 % strain (PE). */
  readonly strength: number;
  /** Part of the strength that may rest on a float for long: hydrostatic load is worse than the short uniaxial test. */
  readonly usableShare: number;
  /** Water taken up, percent of volume; null where unknown. */
  readonly absorption: number | null;
  /** Depth in sea water at which the pressure reaches the usable share of the strength, m. */
  readonly usableDepth: number;
  readonly source: string;
}

/** A foam by name, for example `XPS IV`. Throws UnknownEntry. */
export function foam(name: string): Foam {
  return lookUp(foams, name);
}

/**
 * Share of its volume that soft closed-cell PE foam of 33 kg/m3 keeps under an outside pressure, kPa, 0 to 175: about
 * three quarters at 4 m of water. Linear between the printed points of stress and strain. Throws RangeError outside.
 */
export function polyethyleneFoamVolume(pressure: number): number {
  const curve = softFoamCompression;
  const last = curve.at(-1) as readonly [number, number];
  if (!(pressure >= 0 && pressure <= last[1])) {
    throw new RangeError(`PE foam compression is known from 0 to ${last[1]} kPa, not at ${pressure}`);
  }
  const end = Math.max(
    1,
    curve.findIndex(([, stress]) => stress >= pressure),
  );
  const [strain0, stress0] = curve[end - 1] as readonly [number, number];
  const [strain1, stress1] = curve[end] as readonly [number, number];
  const strain = strain0 + ((pressure - stress0) / (stress1 - stress0)) * (strain1 - strain0);
  return 1 - strain;
}

/** Strain and stress, kPa, of closed-cell PE foam of 33 kg/m3 (data sheet values, common practice). */
export const softFoamCompression: readonly (readonly [number, number])[] = [
  [0, 0],
  [0.25, 40],
  [0.4, 75],
  [0.5, 115],
  [0.6, 175],
];

const astm = "ASTM C578-10 table 1 (least density, strength at yield or 10 % strain)";
const structural = "Data sheet values of cross-linked structural PVC foam, common practice";

/**
 * A third of the test strength may rest on a float (judgement: the test is short and uniaxial). A handbook of underwater
 * vehicles calls PVC foam open-celled and good to 1000 m; its makers call it closed-celled, and 60 kg/m3 crushes long
 * before that.
 */
export const foams: Table<Foam> = extended(
  {
    id: "foams",
    title: "Foams for floats",
    source: "ASTM C578-10 table 1 for XPS; data sheet values for PE and PVC; usable depth computed",
    basis: "common practice",
    unit: "density kg/m3; strength kPa; absorption % of volume; usableDepth m of sea water",
    note: "usableDepth = usableShare x strength / (1025 kg/m3 x 9.80665 m/s2). Soft PE foam shrinks well before that: compute with the compressed volume.",
    key: "foam",
    columns: ["density", "strength", "usableShare", "absorption", "source"],
    rows: {
      "XPS X": { density: 21, strength: 104, usableShare: 1 / 3, absorption: 0.3, source: astm },
      "XPS IV": { density: 25, strength: 173, usableShare: 1 / 3, absorption: 0.3, source: astm },
      "XPS VI": { density: 29, strength: 276, usableShare: 1 / 3, absorption: 0.3, source: astm },
      "XPS VII": { density: 35, strength: 414, usableShare: 1 / 3, absorption: 0.3, source: astm },
      "XPS V": { density: 48, strength: 690, usableShare: 1 / 3, absorption: 0.3, source: astm },
      "PE foam 33": {
        density: 33,
        strength: 40,
        usableShare: 1,
        absorption: 0.5,
        source: "Data sheet values, common practice",
      },
      "PVC foam 60": { density: 60, strength: 900, usableShare: 1 / 3, absorption: null, source: structural },
      "PVC foam 80": {
        density: 80,
        strength: 1400,
        usableShare: 1 / 3,
        absorption: null,
        source: structural,
      },
      "PVC foam 100": {
        density: 100,
        strength: 2000,
        usableShare: 1 / 3,
        absorption: null,
        source: structural,
      },
      "PVC foam 130": {
        density: 130,
        strength: 3000,
        usableShare: 1 / 3,
        absorption: null,
        source: structural,
      },
      "PVC foam 200": {
        density: 200,
        strength: 4800,
        usableShare: 1 / 3,
        absorption: null,
        source: structural,
      },
    },
  },
  ["usableDepth"],
  (row) => ({ usableDepth: (row.usableShare * row.strength * 1000) / (usualWater.sea * 9.80665) }),
);
