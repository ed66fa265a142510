import type { Finding, Frame, Plate } from "@keelcut/geometry";
import { readFrame } from "../input/read-frame.js";
import type { Progress } from "../screen/progress.js";
import { demandOf, type Quantity, quantityOf, surplusOf } from "./demand.js";
import { derived, hasErrors } from "./derived.js";
import type { EarlierPlan } from "./earlier-plan.js";
import { type LaidOut, layOutGroups, layoutFindings } from "./laid-out.js";
import { type CompleteInput, completeInput } from "./requirements.js";
import { type SearchWish, sheetGroups } from "./sheet-groups.js";

/** What was asked for on the command line. */
export interface JobWish {
  readonly kits: number;
  /** Percent of every kind of piece; as the stock list says when absent. */
  readonly sparesPercent: number | undefined;
  readonly search: SearchWish;
  /** A plan to go on from. */
  readonly earlier?: EarlierPlan;
}

/** A frame derived, checked and laid out. */
export interface Job {
  readonly input: CompleteInput;
  readonly frame: Frame;
  readonly quantity: Quantity;
  /** Copies of a plate to be cut: for all kits, spares, scrap, and the surplus of the plan. */
  readonly demand: (plate: Plate) => number;
  /** Empty when an error was found before or during the layout. */
  readonly groups: readonly LaidOut[];
  readonly findings: readonly Finding[];
}

/** Reads a frame file with the stock list and shop profile it needs. Throws InputError. */
export async function readJobInput(
  path: string,
  settings: readonly string[],
  cwd: string,
): Promise<CompleteInput> {
  return completeInput(await readFrame(path, settings, cwd), path);
}

/** Derives, checks and lays out. An error finding ends it early: what cannot work is not laid out. */
export async function layOutJob(
  input: CompleteInput,
  wish: JobWish,
  progress: Progress,
  signal: AbortSignal,
): Promise<Job> {
  const [job] = await layOutCounts(input, [wish.kits], wish, progress, signal);
  if (job === undefined) throw new RangeError("no number of kits");
  return job;
}

/**
 * The same for several numbers of kits; those above one share their search for layouts. When one of them ends early, so
 * do all.
 */
export async function layOutCounts(
  input: CompleteInput,
  counts: readonly number[],
  wish: Omit<JobWish, "kits">,
  progress: Progress,
  signal: AbortSignal,
): Promise<Job[]> {
  progress.stage("deriving plates");
  const { frame, findings } = derived(input);
  const started = counts.map((kits) => {
    const quantity = quantityOf(kits, input.stock.selling, wish.sparesPercent);
    const demand = (plate: Plate): number => demandOf(plate, quantity);
    const job: Job = { input, frame, quantity, demand, groups: [], findings };
    if (hasErrors(findings)) return { job, groups: [] };
    const grouped = sheetGroups(frame.plates, input, quantity, wish.search);
    return { job: { ...job, findings: [...findings, ...grouped.findings] }, groups: grouped.groups };
  });
  if (started.some(({ job }) => hasErrors(job.findings))) return started.map(({ job }) => job);

  const laid = await layOutGroups(
    started.map(({ groups }) => groups),
    progress,
    signal,
    wish.earlier,
  );
  return started.map(({ job }, index) => {
    const groups = laid[index] ?? [];
    const demand = (plate: Plate): number => job.demand(plate) + surplusOf(plate, groups);
    return { ...job, groups, demand, findings: [...job.findings, ...layoutFindings(groups)] };
  });
}
