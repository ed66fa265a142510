import type { Finding, Frame, Plate } from "@keelcut/geometry";
import type { BatchPlan, NestResult, Stock } from "@keelcut/nesting";
import type { CostEstimate } from "../../cost/cost-estimate.js";

/** The sheets of one material and thickness. */
export interface PageNest {
  readonly material: string;
  /** Nominal thickness, mm. */
  readonly thickness: number;
  readonly stock: readonly Stock[];
  /** Least distance of plates from each other, mm. */
  readonly clearance: number;
  readonly result: NestResult;
  /** How the sheets were chosen, when they were planned for many kits. */
  readonly plan?: BatchPlan;
  /** Name of the cut file of each sheet, in the order of `result.sheets`, when files were written. */
  readonly sheetFiles?: readonly string[];
}

/** A danger the job contains and what to do about it. */
export interface Caution {
  readonly title: string;
  /** One or two sentences. */
  readonly text: string;
  /** Standard, handbook or "common practice". */
  readonly source: string;
}

/** Everything the page shows. Lengths mm. Nothing on the page comes from elsewhere. */
export interface PageModel {
  readonly frame: Frame;
  /** All findings of the job, those of the frame's derivation included. */
  readonly findings: readonly Finding[];
  readonly nests: readonly PageNest[];
  /** The plates of the job in the order they are numbered by. */
  readonly plates: readonly Plate[];
  readonly kits: number;
  /** Cost of `kits` kits, when it was asked for. */
  readonly estimate?: CostEstimate;
  /** Cost of the same frame at several kit counts, ascending, for the chart of the cost of a kit. */
  readonly batches?: readonly CostEstimate[];
  /** Names of the written files, relative to the page. */
  readonly files: readonly string[];
  /** Chosen from the job by `chooseCautions` when absent. */
  readonly cautions?: readonly Caution[];
  /** Name of the shop profile. */
  readonly shop: string;
  /** Name of the stock list. */
  readonly stock: string;
  /** Who moves the contours by half a kerf. */
  readonly compensation: "shop" | "file";
  /** Width the cut removes, mm. */
  readonly kerf: number;
  /** What the shop does with each layer of the files: a sentence. */
  readonly layerOrder?: string;
  /** Whether bridges or the shop's holding tabs keep plates in the sheet while they are cut; unknown when absent. */
  readonly held?: boolean;
  /** True when no drawing is among the files: the page tells material and cost alone. */
  readonly costOnly?: boolean;
  /** What holds the plates in the sheet until they are taken out; absent when nothing does. */
  readonly bridges?: HoldingBridges;
}

/** Bridges of a job. */
export interface HoldingBridges {
  /** Material left at the narrowest place of one, mm. */
  readonly width: number;
  readonly perKit: number;
}
