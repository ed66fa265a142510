import type { EndNuts } from "../hardware/end-nut.js";
import type { SheetMaterial } from "../plates/plate.js";
import type { OwnPlateParameters } from "./own-plate-parameters.js";

export type * from "./own-plate-parameters.js";

/** A frame as its designer states it, with every default filled in. All lengths mm. */
export interface FrameParameters {
  readonly name: string;
  readonly revision: string;
  readonly sheets: SheetParameters;
  readonly ducts: readonly DuctParameters[];
  readonly motors: Readonly<Record<string, MotorParameters>>;
  readonly rods: RodParameters;
  /** Nuts at the ends of rods and of the screws Keelcut lists; plain when absent. */
  readonly nuts?: EndNuts;
  readonly deck: DeckParameters;
  readonly cheek: CheekParameters;
  readonly ties: TieParameters;
  readonly bulkheads?: readonly BulkheadParameters[];
  readonly skids?: SkidParameters;
  readonly handles?: readonly HandleParameters[];
  readonly floats?: readonly FloatParameters[];
  readonly pods?: readonly PodParameters[];
  readonly ballast?: readonly BallastParameters[];
  readonly straps?: readonly StrapParameters[];
  /** The designer's own plates. */
  readonly plates?: readonly OwnPlateParameters[];
  readonly cutting: CuttingParameters;
  /** Where the vehicle works; fresh water at 5 m when absent. */
  readonly water?: WaterParameters;
  /** How roughly it is handled; lifted at twice and landed at three times its weight when absent. */
  readonly handling?: HandlingParameters;
}

export interface WaterParameters {
  /** kg/m3. */
  readonly density: number;
  /** Greatest depth, metres. */
  readonly depth: number;
}

/** Loads of the strength estimates, as multiples of the weight in air. */
export interface HandlingParameters {
  readonly liftFactor: number;
  readonly landingFactor: number;
}

/** What a bought part weighs and displaces. */
export interface BoughtBody {
  /** g. */
  readonly mass: number;
  /** Water displaced when closed, cm3. */
  readonly volume: number;
}

export interface SheetParameters {
  /** Cheeks and deck. */
  readonly structure: StructuralSheet;
  /** Carrier plates. */
  readonly carrier: StructuralSheet;
  /** Foam of the floats; needed only when there are floats. */
  readonly float?: StructuralSheet;
}

export interface StructuralSheet extends SheetMaterial {
  /** Whether every plate must lie along the sheet's length; as the table of sheet materials says when absent. */
  readonly grain?: boolean;
}

/** Which way a duct pushes: surge forward, heave up, sway to the side. */
export type DuctAxis = "surge" | "heave" | "sway";

export interface DuctParameters {
  readonly id: string;
  readonly axis: DuctAxis;
  /**
   * Middle of the duct's length. Without z a surge duct rests `deck.ductGap` above the deck, a sway duct lies on it and a
   * heave duct stands on it.
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
  /** Plus or minus on `outside` and on `wall`, from pipe to pipe; none when absent. */
  readonly outsideTolerance?: number;
  readonly wallTolerance?: number;
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
  /** Motor and propeller together, g; unknown when absent. */
  readonly mass?: number;
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
  /**
   * Places of the rod planes along the duct from its middle, towards the front (surge) or to port (sway): one carrier with
   * one motor at each. A heave duct has one carrier, on the deck.
   */
  readonly stations: readonly number[];
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

/** A cross plate between the cheeks: stands on the deck, holds surge ducts in its saddles. */
export interface BulkheadParameters {
  readonly id: string;
  readonly x: number;
  /** Height above the deck; a web above the highest duct it holds when absent. */
  readonly height?: number;
}

/** Skids under the cheeks' feet. */
export interface SkidParameters {
  readonly width: number;
}

/** A bar across the vehicle with a grip opening, tabbed into both cheeks. */
export interface HandleParameters {
  readonly id: string;
  readonly x: number;
  /** Height of its upper face above the deck. */
  readonly z: number;
  readonly width: number;
}

/** A foam block above the deck, cut in layers that leave room for the ducts. */
export interface FloatParameters {
  readonly id: string;
  /** Opposite corners of its footprint. */
  readonly from: { readonly x: number; readonly y: number };
  readonly to: { readonly x: number; readonly y: number };
  /** Height of its lowest face above the deck. */
  readonly bottom: number;
  readonly layers: number;
  /** Where vertical rods of the frame's thread hold the layers to the deck. */
  readonly rods: readonly { readonly x: number; readonly y: number }[];
}

/** A box or other bought part screwed to the deck by its own bolt pattern. */
export interface PodParameters {
  readonly id: string;
  readonly at: { readonly x: number; readonly y: number };
  readonly pattern: BoltPattern;
  /** Degrees counter-clockwise seen from above. */
  readonly rotation: number;
  readonly screw: string;
  /** Thickness of the part's foot under the screw head. */
  readonly foot: number;
  /** With everything in it; unknown when absent. `middle` is the height of its centre above the deck. */
  readonly body?: BoughtBody & { readonly middle: number };
}

/** A row of slots in the deck along which ballast is shifted. */
export interface BallastParameters {
  readonly id: string;
  readonly at: { readonly x: number; readonly y: number };
  readonly count: number;
  /** Distance between two slots of the row, across their length. */
  readonly pitch: number;
  readonly slotLength: number;
  /** Direction of the slots. */
  readonly along: "x" | "y";
  readonly screw: string;
  /** Weight of steel carried in the row, g; unknown when absent. */
  readonly mass?: number;
}

/** Cable ties around something round that lies on the deck. */
export interface StrapParameters {
  readonly id: string;
  /** Middle of the lying part. */
  readonly at: { readonly x: number; readonly y: number };
  readonly diameter: number;
  /** Direction of the lying part's axis. */
  readonly along: "x" | "y";
  readonly count: number;
  /** Distance between two ties along the part. */
  readonly spacing: number;
  /** Unknown when absent. */
  readonly body?: BoughtBody;
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
  /** How far a cut edge may lie from its drawn place; the usual of the method when absent. */
  readonly accuracy?: number;
}
