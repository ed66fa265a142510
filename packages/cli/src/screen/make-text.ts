import type { Finding } from "@keelcut/geometry";
import type { CostEstimate } from "../cost/index.js";
import type { Job } from "../job/job.js";
import type { Destination } from "../output/destination.js";
import { chooseCautions } from "../output/page/index.js";
import { painted } from "./colour.js";
import { findingsCount, findingsText } from "./findings-text.js";
import { layoutJson, layoutTable } from "./layout-table.js";
import { groupsText, priceText } from "./money-text.js";
import { counted, numberText } from "./number-text.js";
import type { Screen } from "./screen.js";
import { wrapped } from "./wrapped.js";

/** A job that was written. */
export interface Made {
  readonly job: Job;
  readonly findings: readonly Finding[];
  readonly estimate: CostEstimate;
  readonly destination: Destination;
  readonly sheetFiles: readonly (readonly string[])[];
  readonly files: readonly string[];
  /** The search ended by Ctrl-C with the best so far. */
  readonly stoppedEarly: boolean;
}

/** The summary for programs. */
export function makeJson(made: Made): object {
  const { job, estimate } = made;
  return {
    format: "keelcut-make",
    version: 1,
    ok: true,
    out: made.destination.out,
    frame: job.frame.parameters.name,
    kits: job.quantity.kits,
    stoppedEarly: made.stoppedEarly,
    layouts: layoutJson(job.groups, made.sheetFiles),
    cost: { currency: estimate.currency, exponent: estimate.exponent, ...estimate.totals },
    findings: made.findings,
    files: made.files,
  };
}

/** The summary for people: what to cut, what it costs, what to look at, what to beware of, where it is. */
export function makeText(made: Made, screen: Screen): string {
  const { job, estimate, findings, destination } = made;
  const width = Math.max(60, Math.min(screen.width, 110));
  const bold = (text: string): string => painted(text, "bold", screen.colour);
  const plates = job.frame.plates.filter((plate) => plate.made === "cut");
  const copies = plates.reduce((sum, plate) => sum + job.demand(plate), 0);
  const kits = counted(job.quantity.kits, "kit");
  const serious = findings.filter((finding) => finding.severity !== "note");
  const cautions = chooseCautions({ frame: job.frame, plates: job.frame.plates });
  const { unpriced } = estimate.totals;
  return [
    bold(
      `${job.frame.parameters.name}, ${kits}: ${counted(copies, "plate")} of ${counted(plates.length, "kind")}`,
    ),
    ...(made.stoppedEarly ? ["The search was stopped early; this is the best layout so far."] : []),
    "",
    layoutTable(layoutJson(job.groups, made.sheetFiles)),
    "",
    wrapped(
      `${bold("Cost")} ${priceText(estimate.totals.total, estimate)}: ${groupsText(estimate)}`,
      width,
      "  ",
    ),
    ...(job.quantity.kits > 1 ? [`  ${priceText(estimate.perKit.total, estimate)} a kit`] : []),
    ...(unpriced > 0
      ? [`  ${counted(unpriced, "line")} without a price not counted; cost.csv shows them`]
      : []),
    `${bold("Mass")} ${numberText(estimate.weights.total / 1000, 2)} kg a kit, without motors and what has no mass`,
    "",
    bold(findingsCount(findings)),
    ...(serious.length > 0 ? [findingsText(serious, screen)] : []),
    "",
    wrapped(
      `${bold("Beware")} ${cautions.map((caution) => caution.title).join("; ")}. page.html says what to do.`,
      width,
      "  ",
    ),
    "",
    `${bold("Wrote")} ${destination.out} (${counted(made.files.length, "file")})`,
    `  ${destination.out}/page.html shows everything; the shop gets ${destination.out}/sheets, drawn in mm, ${sizeWords(job)}`,
  ].join("\n");
}

function sizeWords(job: Job): string {
  const { compensation, kerf } = job.input.parameters.cutting;
  return compensation === "shop"
    ? "at the plates' own size: the shop offsets its cutter"
    : `moved by half the kerf of ${kerf} mm: cut on the line`;
}
