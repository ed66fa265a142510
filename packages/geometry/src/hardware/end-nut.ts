import { hexNut, itTolerance, lockNut } from "../standards/index.js";

/**
 * Nuts at the ends of screws and rods: plain, or lock nuts with a plastic ring, which a motor's shaking does not loosen.
 * Nuts along a rod, against a pipe or inside a cheek, are plain always: a lock nut would have to be driven all the way. Where
 * a rod ends at a pipe, as in a sway duct, the nuts at the pipe are end nuts.
 */
export type EndNuts = "plain" | "lock";

/** A nut that ends a joint. Heights in mm. */
export interface EndNut {
  /** Key for price lists: `nut ISO 7040 M6`. */
  readonly item: string;
  readonly standard: string;
  readonly heightMin: number;
  readonly heightMax: number;
}

/**
 * The nut for a thread.
 *
 * @throws UnknownEntry where the standard has none: lock nuts begin at M3
 */
export function endNut(thread: string, nuts: EndNuts = "plain"): EndNut {
  if (nuts === "plain") {
    const { heightMin, heightMax } = hexNut(thread);
    return { item: plainNutItem(thread), standard: "ISO 4032", heightMin, heightMax };
  }
  const { heightMax } = lockNut(thread);
  return {
    item: `nut ISO 7040 ${thread}`,
    standard: "ISO 7040",
    // h15, as the rows of ISO 7040 show that give both (from memory: M5 6.8 and 6.22, M10 11.9 and 11.2).
    heightMin: heightMax - itTolerance(heightMax, "IT15"),
    heightMax,
  };
}

/** Key of a nut along a rod. */
export function plainNutItem(thread: string): string {
  return `nut ISO 4032 ${thread}`;
}
