import { deriveFrame, type Finding, type Frame } from "@keelcut/geometry";
import type { CostEstimate } from "../cost/index.js";
import { estimate, kitWeights } from "../cost/index.js";
import { given } from "../input/given.js";
import { InputError, type Problem } from "../input/input-error.js";
import { type FrameInput, readFrame } from "../input/read-frame.js";
import { jobBridges } from "../job/bridges.js";
import { quantityOf } from "../job/demand.js";
import { findingsOf, hasErrors } from "../job/derived.js";
import { type JobWish, layOutJob } from "../job/job.js";
import { priced } from "../job/priced.js";
import { type CompleteInput, completeInput } from "../job/requirements.js";
import { sheetGroups } from "../job/sheet-groups.js";
import type { Progress } from "../screen/progress.js";
import { laidInRows, leastSheets, plateArea } from "./laid-in-rows.js";
import type { Combination } from "./vary.js";

/** Why a variant does not work: the first of its errors. */
export interface Reason {
  /** Name of the check; absent when the values themselves cannot be used. */
  readonly id?: string;
  readonly place: string;
  readonly message: string;
}

/** One combination of values and what comes of it. */
export interface Variant {
  readonly values: readonly string[];
  readonly fits: boolean;
  readonly reason?: Reason;
  /** Absent where it does not fit: a frame with plates left out has no numbers. */
  readonly figures?: Figures;
}

export interface Figures {
  readonly warnings: number;
  /** Plates of one kit, and how many different ones. */
  readonly plates: number;
  readonly kinds: number;
  /** Grams of one kit, and how many things have no known mass. */
  readonly mass: number;
  readonly massMissing: number;
  readonly materials: readonly MaterialFigures[];
  /** Absent without stock list or shop profile. */
  readonly cost?: CostFigures;
}

export interface MaterialFigures {
  readonly material: string;
  readonly thickness: number;
  /** Net area of one kit's plates, mm2. */
  readonly area: number;
  /** For all kits; absent without a stock list. */
  readonly leastSheets?: number;
  readonly sheets?: number;
}

export interface CostFigures {
  readonly currency: string;
  readonly exponent: number;
  /** Minor units of the currency. */
  readonly total: number;
  readonly perKit: number;
  /** Lines without a price: the total lacks them. */
  readonly unpriced: number;
}

export interface VariantWish {
  readonly path: string;
  readonly settings: readonly string[];
  readonly cwd: string;
  readonly job: JobWish;
  /** True to search for layouts; else plates are laid in rows. */
  readonly nest: boolean;
}

/** A variant, and what was wrong with its values when they cannot be used at all. */
export type JudgedVariant = Variant & { readonly problems?: readonly Problem[] };

/** Derives, checks and prices one combination. What cannot be used is a reason, never thrown. */
export async function variantOf(
  { values, settings }: Combination,
  wish: VariantWish,
  progress: Progress,
  signal: AbortSignal,
): Promise<JudgedVariant> {
  try {
    const input = await readFrame(wish.path, [...wish.settings, ...settings], wish.cwd);
    const found = await figuresOf(input, wish, progress, signal);
    return "message" in found
      ? { values, fits: false, reason: found }
      : { values, fits: true, figures: found };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    const [first] = error.problems;
    const reason = { place: first?.field ?? first?.where ?? "", message: first?.message ?? error.message };
    const problems = error.problems.map((problem) => ({
      ...problem,
      where: problem.where.replace(/^--set /, "--vary "),
    }));
    return { values, fits: false, reason, problems };
  }
}

async function figuresOf(
  input: FrameInput,
  wish: VariantWish,
  progress: Progress,
  signal: AbortSignal,
): Promise<Figures | Reason> {
  const frame = deriveFrame(input.parameters);
  // What derivation refuses needs no further check: the first reason is known.
  const broken = firstError(frame.findings);
  if (broken !== undefined) return broken;
  const findings = findingsOf(frame, input);
  const refused = firstError(findings);
  if (refused !== undefined) return refused;

  const base = baseFigures(frame, findings, input);
  if (input.stock === undefined || input.shop === undefined) return base;
  const complete = completeInput(input, wish.path);
  return wish.nest ? searched(complete, wish, base, progress, signal) : inRows(complete, frame, wish, base);
}

function baseFigures(frame: Frame, findings: readonly Finding[], input: FrameInput): Figures {
  const cut = frame.plates.filter((plate) => plate.made === "cut");
  const weights = kitWeights(frame, input.stock ?? { hardware: [], lengths: [] });
  const materials = new Map<string, MaterialFigures>();
  for (const { sheet } of cut) {
    const same = cut.filter(
      (plate) => plate.sheet.material === sheet.material && plate.sheet.thickness === sheet.thickness,
    );
    materials.set(`${sheet.material} ${sheet.thickness}`, { ...sheet, area: plateArea(same) });
  }
  return {
    warnings: findings.filter((finding) => finding.severity === "warning").length,
    plates: cut.reduce((sum, plate) => sum + plate.count, 0),
    kinds: cut.length,
    mass: weights.total,
    massMissing: weights.missing.length,
    materials: [...materials.values()],
  };
}

/** Sheets from plates laid in rows; hardware and lengths are exact, so is what the shop charges for that layout. */
async function inRows(
  input: CompleteInput,
  frame: Frame,
  wish: VariantWish,
  base: Figures,
): Promise<Figures | Reason> {
  const quantity = quantityOf(wish.job.kits, input.stock.selling, wish.job.sparesPercent);
  const grouped = sheetGroups(frame.plates, input, quantity, wish.job.search);
  const refused = firstError(grouped.findings);
  if (refused !== undefined) return refused;
  const nests = grouped.groups.map((group) => ({ group, result: laidInRows(group) }));
  const materials = grouped.groups.map((group, index) => ({
    ...group.material,
    area: plateArea(group.plates),
    leastSheets: leastSheets(group),
    ...given({ sheets: nests[index]?.result?.sheets.length }),
  }));
  const laid = nests.flatMap(({ group, result }) =>
    result === undefined
      ? []
      : [
          {
            material: group.material.material,
            thickness: group.material.thickness,
            result,
            stock: group.job.stock,
            parts: group.job.parts,
          },
        ],
  );
  // A plate that fits no rectangle may still fit an offcut: then there is no quick price, and --nest tells.
  if (laid.length < nests.length) return { ...base, materials };
  const percent = wish.job.sparesPercent;
  const { options: bridges } = jobBridges(frame.plates, input.shop);
  const found = await estimate({
    frame,
    nests: laid,
    shop: input.shop,
    stockList: input.stock,
    kits: wish.job.kits,
    ...(percent === undefined ? {} : { spares: { plates: percent, hardware: percent, lengths: percent } }),
    given: input.given,
    ...(bridges && { bridges }),
  });
  return firstError(found.findings) ?? { ...base, materials, cost: costFigures(found) };
}

async function searched(
  input: CompleteInput,
  wish: VariantWish,
  base: Figures,
  progress: Progress,
  signal: AbortSignal,
): Promise<Figures | Reason> {
  const job = await layOutJob(input, wish.job, progress, signal);
  const refused = firstError(job.findings);
  if (refused !== undefined) return refused;
  const found = await priced(job, wish.job);
  const materials = job.groups.map((group) => ({
    ...group.material,
    area: plateArea(group.plates),
    leastSheets: leastSheets(group),
    sheets: group.result.sheets.reduce((sum, sheet) => sum + sheet.times, 0),
  }));
  return firstError(found.findings) ?? { ...base, materials, cost: costFigures(found) };
}

function costFigures({ currency, exponent, totals, perKit }: CostEstimate): CostFigures {
  return { currency, exponent, total: totals.total, perKit: perKit.total, unpriced: totals.unpriced };
}

function firstError(findings: readonly Finding[]): Reason | undefined {
  if (!hasErrors(findings)) return undefined;
  const found = findings.find((finding) => finding.severity === "error");
  return found === undefined ? undefined : { id: found.id, place: found.place, message: found.message };
}
