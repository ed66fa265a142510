import type { Finding } from "@keelcut/geometry";
import type { CostEstimate } from "../cost/index.js";
import { byReason } from "./by-reason.js";
import { wrapped } from "./wrapped.js";

/** What the total lacks, together with why. */
export function unpricedTexts({ lines }: CostEstimate): string[] {
  const unpriced = lines.flatMap(({ amount, from, item }) =>
    amount === undefined ? [{ what: item, why: from }] : [],
  );
  return byReason(unpriced).map(({ why, things }) => `without ${things.join(", ")}: ${why}`);
}

/** Findings without one for each thing the stock list has no price for: those are told in one line. */
export function findingsBeside(findings: readonly Finding[], estimates: readonly CostEstimate[]): Finding[] {
  const things = new Set(
    estimates.flatMap(({ lines }) =>
      lines.flatMap(({ group, item, amount }) =>
        amount === undefined && (group === "hardware" || group === "length") ? [item] : [],
      ),
    ),
  );
  return findings.filter(({ id, place }) => !(id === "cost.no-price" && things.has(place)));
}

/** What became of the layouts of an earlier job, a line each. */
export function resumeTexts(findings: readonly Finding[], width: number): string[] {
  return findings
    .filter(({ id }) => id.startsWith("resume."))
    .map(({ place, message }) => wrapped(`Note ${place}: ${message}`, width, "  "));
}
