import type { Finding } from "@keelcut/geometry";
import type { CostEstimate } from "../cost/index.js";
import type { OutputFile } from "../output/folder.js";
import { renderPage } from "../output/page/index.js";
import type { Job } from "./job.js";

export interface PageFacts {
  readonly job: Job;
  readonly findings: readonly Finding[];
  readonly estimate: CostEstimate;
  /** Cost at several numbers of kits, ascending, for the chart of the cost of a kit. */
  readonly batches?: readonly CostEstimate[];
  /** For each group, the DXF of each of its sheets. */
  readonly sheetFiles: readonly (readonly string[])[];
  readonly files: readonly string[];
}

/** The page of a job as a file. */
export function jobPage({ job, findings, estimate, batches, sheetFiles, files }: PageFacts): OutputFile {
  const { input, frame, groups, quantity } = job;
  const content = renderPage({
    frame,
    findings,
    nests: groups.map(({ material, job: nest, result, plan }, index) => ({
      material: material.material,
      thickness: material.thickness,
      stock: nest.stock,
      clearance: nest.clearance,
      result,
      ...(plan && { plan }),
      sheetFiles: sheetFiles[index] ?? [],
    })),
    plates: frame.plates,
    kits: quantity.kits,
    estimate,
    ...(batches && { batches }),
    files,
    shop: input.shop.name,
    stock: input.stockFile,
    compensation: input.parameters.cutting.compensation,
    kerf: input.parameters.cutting.kerf,
  });
  return { path: "page.html", content };
}
