import type { Finding, Frame, Plate } from "@keelcut/geometry";
import type { BatchPlan } from "@keelcut/nesting";
import type { Bridge } from "../bridges/bridge-places.js";
import type { CostEstimate } from "../cost/index.js";
import type { ShopProfile } from "../input/shop-profile.js";
import type { StockList } from "../input/stock-list.js";
import { type Quantity, surplusOf } from "../job/demand.js";
import type { LaidOut } from "../job/laid-out.js";
import type { DrawnRecord } from "../job/proved.js";
import { version } from "../version.js";
import { contentHash } from "./destination.js";
import type { OutputFile } from "./folder.js";
import { jobFileName, jobFormat, jobVersion } from "./job-format.js";
import { stableJson } from "./stable-json.js";

export interface JobFacts {
  readonly frame: Frame;
  readonly quantity: Quantity;
  readonly seed: number;
  /** Copies of a plate to be cut, the surplus of the plan among them. */
  readonly demand: (plate: Plate) => number;
  readonly shop: ShopProfile;
  readonly stock: StockList;
  readonly groups: readonly LaidOut[];
  /** For each group, the DXF of each of its sheets. */
  readonly sheetFiles: readonly (readonly string[])[];
  /** Every drawing written, each in DXF and SVG. */
  readonly drawings: readonly DrawnRecord[];
  /** Where cut lines are interrupted, by plate. */
  readonly bridges: ReadonlyMap<string, readonly Bridge[]>;
  readonly findings: readonly Finding[];
  readonly estimate?: CostEstimate;
  /** The other files of the folder. */
  readonly files: readonly OutputFile[];
}

/**
 * The whole job as data: enough to draw, price and prove it again without the frame file.
 *
 * Lengths mm, angles degrees, money as the estimate states it. The same job gives the same bytes; the files are listed
 * with their SHA-256, by which an output folder is known as unchanged.
 */
export function jobRecord(facts: JobFacts): OutputFile {
  const { frame, groups } = facts;
  const { parameters } = frame;
  const record = {
    format: jobFormat,
    version: jobVersion,
    program: version,
    name: parameters.name,
    revision: parameters.revision,
    ...facts.quantity,
    seed: facts.seed,
    parameters,
    shop: facts.shop,
    stock: facts.stock,
    plates: frame.plates.map((plate) => ({
      ...plate,
      demand: facts.demand(plate),
      surplus: surplusOf(plate, groups),
      bridges: facts.bridges.get(plate.id) ?? [],
    })),
    nests: groups.map((group, index) => nestRecord(group, facts.sheetFiles[index] ?? [])),
    drawings: facts.drawings,
    hardware: frame.hardware,
    lengths: frame.lengths,
    axes: frame.axes,
    dimensions: frame.dimensions,
    findings: facts.findings,
    estimate: facts.estimate,
    files: facts.files.map(({ path, content }) => ({
      path,
      bytes: Buffer.byteLength(content),
      sha256: contentHash(content),
    })),
  };
  return { path: jobFileName, content: `${stableJson(record)}\n` };
}

function nestRecord({ material, job, result, plan }: LaidOut, files: readonly string[]): object {
  return {
    material: material.material,
    thickness: material.thickness,
    clearance: job.clearance,
    edgeMargin: job.edgeMargin,
    stock: job.stock,
    sheets: result.sheets.map((sheet, index) => ({ file: files[index], ...sheet })),
    unplaced: result.unplaced,
    // A plan has its own, at the prices of the numbers bought.
    ...(plan === undefined && { cost: result.cost }),
    yield: result.yield,
    steps: result.steps,
    plan: plan && planRecord(plan),
  };
}

/** What the plan says beside its sheets. */
function planRecord({ sheets: _, unplaced: __, ...facts }: BatchPlan): object {
  return facts;
}
