import type { PipeRow } from "./pipe-table.js";

/**
 * Nominal wall, mm, of a metric pipe of outside diameter `dn` mm and standard dimension ratio: dn / SDR rounded up to
 * 0.1 (ISO 4065). Product standards start from rounded series numbers and print 0.1 less in places (EN 1401-1: 4.7 for
 * 160 SDR 34, here 4.8), so tables are used where there is one. Throws RangeError unless both are above 0.
 */
export function wallFromRatio(dn: number, sdr: number): number {
  refuseNotPositive("outside diameter", dn);
  refuseNotPositive("standard dimension ratio", sdr);
  return upToTenth(dn / sdr);
}

export type OutsideGrade = "A" | "B" | "C";

/**
 * Tolerance of the mean outside diameter, mm, plus only, by ISO 11922-1: a share of dn, at least 0.3, rounded up to 0.1.
 * The largest of grade C is 2.0; a public copy that prints 20 has lost the decimal point.
 */
export function outsideTolerance(dn: number, grade: OutsideGrade): number {
  const { share, least, most } = outsideGrades[grade];
  refuseNotPositive("outside diameter", dn);
  return upToTenth(Math.min(Math.max(share * dn, least), most));
}

export const outsideGrades: Readonly<
  Record<OutsideGrade, { readonly share: number; readonly least: number; readonly most: number }>
> = {
  A: { share: 0.009, least: 0.3, most: 10 },
  B: { share: 0.006, least: 0.3, most: 4 },
  C: { share: 0.003, least: 0.3, most: 2 },
};

/**
 * Tolerance of a wall, mm, plus only: 0.1 e + 0.2 rounded up to 0.1 (ISO 11922-1 grade W, EN 1401-1 and kin, from
 * memory). It reproduces every wall limit that DIN 8062 prints.
 */
export function wallTolerance(wall: number): number {
  refuseNotPositive("wall", wall);
  return upToTenth(0.1 * wall + 0.2);
}

/** Ovality of drain pipe after production, mm: 0.024 dn (EN 1401-1, EN 1329-1; from memory). */
export function drainOvality(dn: number): number {
  return 0.024 * dn;
}

/** Ovality of pressure pipe, mm, ISO 11922-1 grade N (from memory): 0.008 dn + 1 up to 75, 0.02 dn above. */
export function pressureOvality(dn: number): number {
  return dn <= 75 ? 0.008 * dn + 1 : 0.02 * dn;
}

/** A metric pipe: the nominal diameter is the least mean diameter, the nominal wall the least wall. */
export function metricRow(
  dn: number,
  series: string,
  outsidePlus: number,
  wall: number,
  ovality: number,
): PipeRow {
  return {
    size: String(dn),
    series,
    nominalOutside: dn,
    outsideMin: dn,
    outsideMax: round2(dn + outsidePlus),
    nominalWall: wall,
    wallMin: wall,
    wallMax: round2(wall + wallTolerance(wall)),
    ovality: round2(ovality),
  };
}

/** Rounds up to 0.1; what lies above a tenth only by the error of binary fractions stays. */
function upToTenth(value: number): number {
  return Math.ceil(value * 10 - 1e-9) / 10;
}

/** Hundredths are all that the tables mean; sums of binary fractions carry more. */
function round2(value: number): number {
  return Math.round(value * 100) / 100;
}

function refuseNotPositive(what: string, value: number): void {
  if (!(Number.isFinite(value) && value > 0)) throw new RangeError(`${what} must be above 0, not ${value}`);
}
