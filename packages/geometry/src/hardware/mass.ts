import {
  cableTie,
  capScrew,
  hexNut,
  largeWasher,
  lockNut,
  plainWasher,
  roundSpacer,
  sheetMaterial,
  thread,
  UnknownEntry,
} from "../standards/index.js";
import type { HardwareItem } from "./item.js";

/** kg/m3. Austenitic stainless steel, as rods and screws for water are; and plain steel for ballast. From memory. */
export const STEEL = 7900;

/** kg/m3: nylon 6/6 of ties, aluminium of spacers. From memory. */
const NYLON = 1140;
const ALUMINIUM = 2700;

/** One piece of one material. */
export interface Solid {
  /** mm3 */
  readonly volume: number;
  /** kg/m3 */
  readonly density: number;
}

/** g */
export function solidMass({ volume, density }: Solid): number {
  return volume * density * 1e-6;
}

/**
 * One screw, nut, washer, spacer or tie, by its designation; undefined for motors and other things bought whole.
 *
 * Sizes of ISO 4762, 4032, 7040, 7089 and 7093-1 at their largest; sockets of screws and chamfers are not taken off.
 */
export function standardPiece(named: Pick<HardwareItem, "item" | "kind">): Solid | undefined {
  try {
    const piece = pieceOf(named);
    return piece !== undefined && Number.isFinite(piece.volume) ? piece : undefined;
  } catch (error) {
    // Own plates name their hardware as they like.
    if (error instanceof UnknownEntry) return undefined;
    throw error;
  }
}

function pieceOf({ item, kind }: Pick<HardwareItem, "item" | "kind">): Solid | undefined {
  const size = item.match(/M\d+(?:\.\d)?/)?.[0];
  const length = Number(item.match(/x(\d+(?:\.\d+)?)/)?.[1]);
  if (kind === "tie") {
    const width = Number(item.match(/tie ([\d.]+)x/)?.[1]);
    return { volume: width * cableTie(width).thickness * length, density: NYLON };
  }
  if (size === undefined) return undefined;
  switch (kind) {
    case "screw": {
      const { headDiameterMax, headHeightMax } = capScrew(size);
      const shank = disc(thread(size).pitchDiameter) * length;
      return { volume: disc(headDiameterMax) * headHeightMax + shank, density: STEEL };
    }
    case "nut": {
      const { acrossFlats, heightMax } = item.includes("7040") ? lockNut(size) : hexNut(size);
      const face = (Math.sqrt(3) / 2) * acrossFlats ** 2 - disc(thread(size).pitchDiameter);
      return { volume: face * heightMax, density: STEEL };
    }
    case "washer": {
      const { outside, bore, thickness } = item.includes("7093") ? largeWasher(size) : plainWasher(size);
      return { volume: (disc(outside) - disc(bore)) * thickness, density: STEEL };
    }
    case "spacer": {
      const { outside, bore } = roundSpacer(size);
      return { volume: (disc(outside) - disc(bore)) * length, density: ALUMINIUM };
    }
    default:
      return undefined;
  }
}

/** A threaded rod of `length` mm: a bar of its pitch diameter (ISO 724). */
export function rodSolid(size: string, length: number): Solid {
  return { volume: disc(thread(size).pitchDiameter) * length, density: STEEL };
}

/** A pipe of `length` mm at the middle of its tolerances. All mm. */
export function pipeSolid(
  pipe: { readonly outsideMean: number; readonly boreMin: number; readonly boreMax: number },
  standard: string | undefined,
  length: number,
): Solid {
  const bore = (pipe.boreMin + pipe.boreMax) / 2;
  const volume = (disc(pipe.outsideMean) - disc(bore)) * length;
  return { volume, density: sheetMaterial(pipeMaterial(standard)).density };
}

/** A pipe without a standard is taken as PVC-U. */
export function pipeMaterial(standard: string | undefined): string {
  return standard === "EN 1451-1" ? "PP-H" : "PVC-U";
}

function disc(diameter: number): number {
  return (Math.PI / 4) * diameter ** 2;
}
