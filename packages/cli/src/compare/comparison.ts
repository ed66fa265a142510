import type { Variant } from "./variant.js";
import type { Varied } from "./vary.js";

/** The same frame with different values, side by side. */
export interface Comparison {
  readonly frame: string;
  readonly kits: number;
  readonly varied: readonly Varied[];
  readonly variants: readonly Variant[];
  /** How the figures were found, a sentence each. */
  readonly basis: readonly string[];
  /** True when the search was ended before all variants were looked at. */
  readonly stoppedEarly: boolean;
}

/** What an early end means for the comparison. */
export const ENDED_EARLY =
  "It was stopped early: not every variant was looked at, or not searched to its end.";

/** What the figures stand on, in sentences. */
export function basisOf(nested: boolean, variants: readonly Variant[]): readonly string[] {
  const priced = variants.some(({ figures }) => figures?.cost !== undefined);
  const missing = Math.max(0, ...variants.map(({ figures }) => figures?.massMissing ?? 0));
  const unpriced = variants.some(({ figures }) => (figures?.cost?.unpriced ?? 0) > 0);
  const some = variants.some(({ figures }) => figures !== undefined);
  return [
    ...(priced && nested
      ? ["Sheets and costs are of layouts found by the search, the same that make finds."]
      : []),
    ...(priced && !nested
      ? [
          "Sheets and costs are estimates: plates are laid in rows by their boxes, without offcuts of other shapes, so a search (--nest, make) usually finds less. Hardware, rods and pipes are exact.",
        ]
      : []),
    ...(some && !nested && priced
      ? ["Sheets: the least that could do by area, and those the rows take."]
      : []),
    ...(some && !priced ? ["No costs: name a stock list and a shop profile in the frame file."] : []),
    ...(missing > 0 ? [`Masses lack up to ${missing} things whose mass the stock list does not give.`] : []),
    ...(unpriced
      ? [
          "Where lines lack a price the cost is too low and not to be compared: give the prices in the stock list.",
        ]
      : []),
  ];
}
