import type { Finding, HardwareItem, LengthItem } from "@keelcut/geometry";
import type { LengthPlan } from "./lengths/length-plan.js";
import type { Money } from "./money.js";

export type CostGroup =
  | "sheet"
  | "cutting"
  | "handling"
  | "setup"
  | "minimum"
  | "hardware"
  | "length"
  | "packing"
  | "freight"
  | "tax";

export const COST_GROUPS: readonly CostGroup[] = [
  "sheet",
  "cutting",
  "handling",
  "setup",
  "minimum",
  "hardware",
  "length",
  "packing",
  "freight",
  "tax",
];

/** A price or charge of the input that several lines use, so that a workbook can keep it in one cell. */
export type SharedRate =
  | "perHour"
  | "perMetre"
  | "perPierce"
  | "labourPerHour"
  | "packagingPerKit"
  | "taxShare";

/**
 * One figure of the estimate: amount = quantity x rate, rounded once to the minor unit, half away from zero.
 * A line without a price has neither `rate` nor `amount`; it is never counted as free.
 */
export interface CostLine {
  readonly group: CostGroup;
  readonly item: string;
  readonly quantity: number;
  readonly unit: string;
  /** Price of one unit in major units, as the input states it. */
  readonly rate?: number;
  /** In minor units. */
  readonly amount?: Money;
  /** The input line and the count behind the figure. */
  readonly from: string;
  readonly sharedRate?: SharedRate;
  /** What estimates are compared by, where `item` tells layouts apart that another job numbers otherwise. */
  readonly comparedAs?: string;
}

/** How many pieces of one kind of sheet are used and bought. */
export interface SheetUse {
  readonly material: string;
  readonly thickness: number;
  /** Id in the stock list. */
  readonly stock: string;
  readonly used: number;
  readonly atHand: number;
  readonly bought: number;
  readonly each?: number;
}

/** One material of one thickness: what is cut out of how much. */
export interface MaterialUse {
  readonly material: string;
  readonly thickness: number;
  readonly sheets: readonly SheetUse[];
  /** Sheets cut in all. */
  readonly sheetCount: number;
  /** Their whole area, mm2. */
  readonly sheetArea: number;
  /** No fewer could do: as the plan shows, or net plate area over the whole area of the largest sheet, rounded up. */
  readonly leastSheets: number;
  /** Net plate area over the whole area of the sheets cut (openings count as waste), 0..1. */
  readonly yield: number;
}

/** One layout: what the machine does on each of its sheets. */
export interface CuttingSheet {
  readonly material: string;
  readonly thickness: number;
  /** Position of the layout among those of its material, from 1: the number in the name of its (first) file. */
  readonly layout: number;
  readonly stock: string;
  /** How often this layout is cut. */
  readonly times: number;
  /** Plates on one sheet. */
  readonly plates: number;
  /** Starts of a cut on one sheet: one for each contour, or for each line that bridges leave of it. */
  readonly starts: number;
  /** Metres on one sheet: contours as drawn without the gaps at bridges, path of the cutter over all passes, moves between cuts. */
  readonly metres: { readonly drawn: number; readonly cut: number; readonly travel: number };
  /** Minutes on one sheet; `machine` = cut + enter + travel + change. Absent without a feed. */
  readonly minutes?: {
    readonly cut: number;
    /** Plunging or piercing, and holding tabs. */
    readonly enter: number;
    readonly travel: number;
    /** Changing tools; absent when one tool does. */
    readonly change?: number;
    readonly machine: number;
    readonly load: number;
    readonly plates: number;
  };
}

/** One kind of hardware over the whole job. */
export interface HardwareUse {
  readonly item: string;
  readonly kind: HardwareItem["kind"];
  /** Of one piece, g; absent when unknown. */
  readonly mass?: number;
  readonly perKit: number;
  readonly spares: number;
  /** Pieces for all kits and spares. */
  readonly total: number;
  readonly atHand: number;
  readonly bought: number;
  /** What to order where: packs, supplier and its order number, as far as the stock list names them. */
  readonly orders?: readonly string[];
  readonly uses: HardwareItem["uses"];
}

/** One kind of bar or pipe over the whole job. */
export interface LengthUse {
  readonly item: string;
  readonly kind: LengthItem["kind"];
  readonly pieces: readonly LengthPieces[];
  /** How the pieces are sawn from stock lengths; absent when the stock list has none. */
  readonly plan?: LengthPlan;
  /** Supplier and order number of each length of the plan's `use`; empty where the stock list names neither. */
  readonly orders?: readonly string[];
}

export interface LengthPieces {
  /** mm */
  readonly length: number;
  /** Of one piece, g. */
  readonly mass: number;
  readonly perKit: number;
  readonly spares: number;
  readonly total: number;
  readonly uses: LengthItem["uses"];
}

/** A material or piece that could not be weighed, and why. */
export interface Unweighed {
  readonly what: string;
  readonly why: string;
}

/** Grams of one kit, for postage. Packaging is not counted. */
export interface Weights {
  readonly plates: number;
  readonly hardware: number;
  readonly lengths: number;
  readonly total: number;
  readonly missing: readonly Unweighed[];
}

/** One figure the estimate stands on. */
export interface Assumption {
  readonly what: string;
  readonly value: string;
  readonly source: string;
  /** True when nobody stated it and a default was used. */
  readonly defaulted: boolean;
}

/** Percent more than the kits need, rounded up to whole pieces of each kind. */
export interface Spares {
  readonly plates: number;
  readonly hardware: number;
  readonly lengths: number;
}

export interface CostTotals {
  /** Sum of each group's lines. */
  readonly groups: Readonly<Record<CostGroup, Money>>;
  /** Sum of all lines but tax. */
  readonly net: Money;
  readonly tax: Money;
  readonly total: Money;
  /** Lines that have no price: the totals lack them. */
  readonly unpriced: number;
}

export interface CostPerKit {
  readonly groups: Readonly<Record<CostGroup, Money>>;
  /** The total divided by the kits, rounded half away from zero; the rounded groups may differ from it by a few units. */
  readonly total: Money;
  /** total / (1 - margin), when a margin is asked for. */
  readonly sellingPrice?: Money;
  readonly marginPercent?: number;
}

/** Prices and rules that more than one line stands on, in major units. */
export interface CostTerms {
  readonly rates: Readonly<Partial<Record<SharedRate, number>>>;
  /** Least charge for the shop's work: the groups `cutting`, `handling` and `setup`. */
  readonly minimum: number;
  readonly taxedGroups: readonly CostGroup[];
}

/** What a job of N kits takes and costs. Money in minor units of `currency` (10^-exponent of it). */
export interface CostEstimate {
  readonly frame: string;
  readonly shop: string;
  readonly currency: string;
  readonly exponent: number;
  readonly kits: number;
  readonly spares: Spares;
  readonly terms: CostTerms;
  readonly lines: readonly CostLine[];
  readonly totals: CostTotals;
  readonly perKit: CostPerKit;
  readonly material: readonly MaterialUse[];
  readonly cutting: readonly CuttingSheet[];
  readonly hardware: readonly HardwareUse[];
  readonly lengths: readonly LengthUse[];
  readonly weights: Weights;
  readonly assumptions: readonly Assumption[];
  readonly findings: readonly Finding[];
}
