import type { SheetMaterial } from "../plates/plate.js";

/** A frame as its designer states it, with every default filled in. All lengths mm. */
export interface FrameParameters {
  readonly name: string;
  readonly revision: string;
  readonly sheets: SheetParameters;
  readonly ducts: readonly DuctParameters[];
  readonly motors: Readonly<Record<string, MotorParameters>>;
  readonly rods: RodParameters;
  readonly deck: DeckParameters;
  readonly cheek: CheekParameters;
  readonly ties: TieParameters;
  readonly cutting: CuttingParameters;
}

export interface SheetParameters {
  /** Cheeks and deck. */
  readonly structure: StructuralSheet;
  /** Carrier plates. */
  readonly carrier: StructuralSheet;
}

export interface StructuralSheet extends SheetMaterial {
  /** Thickness measured on the sheet at hand; nominal with the standard's tolerance when absent. */
  readonly measured?: number;
  /** Direction in which every plate must be turned, when the material has a grain. */
  readonly grain: boolean;
}

export interface DuctParameters {
  readonly id: string;
  readonly axis: "surge" | "heave";
  /**
   * Middle of the duct's length. Without z a surge duct rests `deck.ductGap` above the deck; a heave duct stands on the deck.
   */
  readonly at: { readonly x: number; readonly y: number; readonly z?: number };
  readonly pipe: PipeParameters;
  readonly length: number;
  /** Key into `motors`. */
  readonly motor: string;
  readonly propeller?: { readonly diameter: number; readonly height: number };
  readonly carrier: CarrierParameters;
}

export interface PipeParameters {
  /** Key into the pipe tables, for example `EN 1329-1`, or absent when outside and wall are given. */
  readonly standard?: string;
  /** Size as the standard names it: `75`, `1-1/2`. */
  readonly size?: string;
  /** Pressure or wall series where the standard has several: `PN10`, `Schedule 40`. */
  readonly series?: string;
  /** Measured or explicit values; each replaces the table's. */
  readonly outside?: number;
  readonly wall?: number;
  /** Largest minus smallest outside diameter of the cut pipe. */
  readonly ovality?: number;
}

export interface MotorParameters {
  readonly pattern: BoltPattern;
  readonly screw: string;
  readonly body: { readonly diameter: number; readonly length: number };
  readonly threadDepth: number;
  /** Hole in the front plate for shaft end and clip; 0 for none. */
  readonly shaftHole: number;
}

/** Holes by which a motor is held. Diameters are of the circle through the hole centres. */
export type BoltPattern =
  | { readonly kind: "circle"; readonly diameter: number; readonly holes: number }
  /** Two holes on each of two circles, the second pair at 90 degrees to the first. */
  | { readonly kind: "cross"; readonly diameters: readonly [number, number] }
  | { readonly kind: "rectangle"; readonly width: number; readonly height: number };

export interface RodParameters {
  readonly thread: string;
  /** Least play of a rod between the two plates of a carrier. */
  readonly gapAllowance: number;
}

export interface CarrierParameters {
  /** Distance between the two rods of one carrier; the widest that fits when absent. */
  readonly rodPitch?: number;
  /** Radial gap between rim and the smallest bore. */
  readonly fitGap: number;
  readonly spokes: number;
  /** The spacer screw's hole with 3.3 mm of plate on both sides when absent. */
  readonly spokeWidth?: number;
  readonly rimWidth: number;
  readonly spacerScrew: string;
  /** Place of the rod plane along the duct from its middle (surge), towards the front. */
  readonly station: number;
}

export interface DeckParameters {
  readonly length: number;
  /** Distance between the inner faces of the cheeks; follows from the outermost ducts when absent. */
  readonly width?: number;
  readonly cornerRadius: number;
  readonly tabLength: number;
  readonly tabsPerSide: number;
  /** Air between deck and a surge duct above it. */
  readonly ductGap: number;
}

export interface CheekParameters {
  /** How far the cheek reaches below the top of the deck. */
  readonly below: number;
  /** Material above the highest duct; enough for the handle, or 20 mm without one, when absent. */
  readonly above?: number;
  readonly footLength: number;
  readonly cornerRadius: number;
  readonly handle: boolean;
}

export interface TieParameters {
  readonly width: number;
  /** Tie places around a heave duct. */
  readonly places: number;
}

export type CuttingMethod = "router" | "laser" | "waterjet";

export interface CuttingParameters {
  readonly method: CuttingMethod;
  /** Width the cut removes; for a router the cutter's diameter. */
  readonly kerf: number;
  /** Least distance between two plates on a sheet. */
  readonly clearance: number;
  /** Strip along the sheet's edge that stays free. */
  readonly edgeMargin: number;
  /** Who moves the contours by half a kerf. */
  readonly compensation: "shop" | "file";
}
