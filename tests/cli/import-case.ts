/** A stranger's file and what its reading must come to. */
export interface Case {
  readonly text: string;
  /** Areas of the regions, mm2, smallest first. */
  readonly areas: readonly number[];
  /** Finding ids, each once, in alphabetical order. */
  readonly findings?: readonly string[];
  /** Box of all regions: minX, minY, maxX, maxY. */
  readonly box?: readonly [number, number, number, number];
  /** Largest error of the areas; curves that are no arcs are replaced within 0.01 mm. */
  readonly error?: number;
  readonly layers?: readonly string[];
}

export type Cases = Readonly<Record<string, Case>>;

/** A slot of 30 x 10 mm with round ends, as vertices with bulges, and its area. */
export const slot = [
  [0, 0, 0],
  [20, 0, 1],
  [20, 10, 0],
  [0, 10, 1],
] as const;
export const slotArea: number = 200 + 25 * Math.PI;

/** Area between a chord and its arc. */
export function segmentArea(chord: number, bulge: number): number {
  const sweep = 4 * Math.atan(bulge);
  const radius = (chord * (1 + bulge * bulge)) / (4 * bulge);
  return (radius * radius * (sweep - Math.sin(sweep))) / 2;
}
