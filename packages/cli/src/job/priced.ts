import { type CostEstimate, estimate } from "../cost/index.js";
import { jobBridges } from "./bridges.js";
import type { Job, JobWish } from "./job.js";

/** What the job takes and costs. */
export function priced(job: Job, wish: Pick<JobWish, "sparesPercent">): Promise<CostEstimate> {
  const { input, frame, groups, quantity } = job;
  const percent = wish.sparesPercent;
  const { options: bridges } = jobBridges(frame.plates, input.shop);
  return estimate({
    frame,
    nests: groups.map(({ material, job: nest, result, plan }) => ({
      material: material.material,
      thickness: material.thickness,
      result,
      stock: nest.stock,
      parts: nest.parts,
      ...(plan && { leastSheets: plan.leastSheets.value }),
    })),
    shop: input.shop,
    stockList: input.stock,
    kits: quantity.kits,
    ...(percent === undefined ? {} : { spares: { plates: percent, hardware: percent, lengths: percent } }),
    given: input.given,
    ...(bridges && { bridges }),
  });
}
