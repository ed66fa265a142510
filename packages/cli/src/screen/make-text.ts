import type { Finding } from "@keelcut/geometry";
import type { CostEstimate } from "../cost/index.js";
import type { Job } from "../job/job.js";
import type { Destination } from "../output/destination.js";
import type { Certificate } from "../prove/index.js";
import { findingsBeside, resumeTexts, unpricedTexts } from "./beside-costs.js";
import { bewareText } from "./beware-text.js";
import { painted } from "./colour.js";
import { findingsCount, findingsText } from "./findings-text.js";
import { layoutJson, layoutTable } from "./layout-table.js";
import { groupsText, priceText } from "./money-text.js";
import { counted, numberText } from "./number-text.js";
import { planJson, planText } from "./plan-text.js";
import { type Screen, textWidth } from "./screen.js";
import { wrapped } from "./wrapped.js";

/** A job that was written. */
export interface Made {
  readonly job: Job;
  readonly findings: readonly Finding[];
  readonly estimate: CostEstimate;
  readonly certificate: Certificate;
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
    plans: planJson(job.groups),
    cost: { currency: estimate.currency, exponent: estimate.exponent, ...estimate.totals },
    proof: made.certificate,
    findings: made.findings,
    files: made.files,
  };
}

/** What Ctrl-C means for the layouts. */
export const STOPPED_EARLY = "The search was stopped early; these are the best layouts so far.";

/** The summary for people: what to cut, what it costs, what to look at, what to beware of, where it is. */
export function makeText(made: Made, screen: Screen): string {
  const { job, estimate, findings, certificate, destination } = made;
  const width = textWidth(screen);
  const bold = (text: string): string => painted(text, "bold", screen.colour);
  const plates = job.frame.plates.filter((plate) => plate.made === "cut");
  const copies = plates.reduce((sum, plate) => sum + job.demand(plate), 0);
  const kits = counted(job.quantity.kits, "kit");
  // What has no price is told with the cost, in one line instead of one warning each.
  const serious = findingsBeside(findings, [estimate]).filter(({ severity }) => severity !== "note");
  return [
    bold(
      `${job.frame.parameters.name}, ${kits}: ${counted(copies, "plate")} of ${counted(plates.length, "kind")}`,
    ),
    ...(made.stoppedEarly ? [STOPPED_EARLY] : []),
    "",
    layoutTable(layoutJson(job.groups, made.sheetFiles)),
    ...planText(job.groups).map((text) => wrapped(text, width, "  ")),
    ...resumeTexts(findings, width),
    "",
    wrapped(
      `${bold("Cost")} ${priceText(estimate.totals.total, estimate)}: ${groupsText(estimate)}`,
      width,
      "  ",
    ),
    ...(job.quantity.kits > 1 ? [`  ${priceText(estimate.perKit.total, estimate)} a kit`] : []),
    ...unpricedTexts(estimate).map((text) => `  ${wrapped(text, width - 2, "  ")}`),
    `${bold("Mass")} ${numberText(estimate.weights.total / 1000, 2)} kg a kit${massGap(estimate)}`,
    "",
    `${bold(findingsCount(findings))}${findings.length > serious.length ? "; page.html lists them all" : ""}`,
    ...(serious.length > 0 ? [findingsText(serious, screen)] : []),
    "",
    bewareText(job, screen, width),
    "  page.html says what to do.",
    "",
    `${bold("Proved")} ${counted(certificate.files, "drawing")} read back: ${counted(certificate.contours, "closed contour")}, least gap ${numberText(certificate.leastGap ?? 0, 3)} mm`,
    `${bold("Wrote")} ${destination.out} (${counted(made.files.length, "file")})`,
    `  ${destination.out}/page.html shows everything; the shop gets ${destination.out}/sheets, drawn in mm, ${sizeWords(job)}`,
  ].join("\n");
}

function massGap({ weights }: CostEstimate): string {
  const { missing } = weights;
  return missing.length === 0 ? "" : `, without ${counted(missing.length, "thing")} of unknown mass`;
}

function sizeWords(job: Job): string {
  const { compensation, kerf } = job.input.parameters.cutting;
  return compensation === "shop"
    ? "at the plates' own size: the shop offsets its cutter"
    : `moved by half the kerf of ${kerf} mm: cut on the line`;
}
