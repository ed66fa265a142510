/** In the order of lists. A part is any other thing bought whole, for example a housing or a battery. */
export const hardwareKinds = [
  "motor",
  "propeller",
  "part",
  "ballast",
  "screw",
  "nut",
  "washer",
  "spacer",
  "tie",
  "other",
] as const;

/** Counted hardware of one kit: what is bought by the piece. Derived, never typed. */
export interface HardwareItem {
  /** Key for price lists: `screw ISO 4762 M3x20`, `nut ISO 4032 M6`, `tie 3.6x200`, `motor m2216`, `part housing`. */
  readonly item: string;
  readonly kind: (typeof hardwareKinds)[number];
  readonly count: number;
  /** Of one piece, g; absent when unknown. */
  readonly mass?: number;
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
  /** Of one piece, g. */
  readonly mass: number;
  readonly uses: readonly { readonly place: string; readonly count: number; readonly why: string }[];
}
