import type { Finding } from "@keelcut/geometry";
import type { CostEstimate } from "../cost/index.js";
import type { OutputFile } from "../output/folder.js";
import { layerOrder } from "../output/layer-names.js";
import { renderPage } from "../output/page/index.js";
import { holdingBridges, isHeld, type JobBridges } from "./bridges.js";
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
  /** Where bridges hold the plates, when they are to be cut. */
  readonly bridges?: JobBridges;
}

/** The page of a job as a file. */
export function jobPage(facts: PageFacts): OutputFile {
  const { job, findings, estimate, batches, sheetFiles, files } = facts;
  const { input, frame, groups, quantity } = job;
  const bridges = facts.bridges && holdingBridges(frame.plates, input.shop, facts.bridges);
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
    layerOrder: layerOrder(input.shop.files),
    ...(sheetFiles.length > 0 && { held: isHeld(frame.plates, input.shop) }),
    costOnly: sheetFiles.length === 0,
    ...(bridges && { bridges }),
  });
  return { path: "page.html", content };
}
