import type { CostEstimate } from "../cost/cost-estimate.js";
import { csv } from "./csv.js";

const HEADER = [
  "kind",
  "item",
  "length_mm",
  "mass_g",
  "per_kit",
  "kits",
  "spares",
  "job",
  "at_hand",
  "to_buy",
  "order",
  "what_for",
];

/**
 * `hardware.csv`: what is not cut from sheet. Screws and the like by the piece; rods and pipes by finished length, then by
 * the stock lengths they are sawn from, for these are bought. `mass_g` is that of one piece, empty where it is unknown.
 */
export function hardwareCsv(estimate: CostEstimate): string {
  const hardware = estimate.hardware.map((use) => [
    use.kind,
    use.item,
    undefined,
    hundredths(use.mass),
    use.perKit,
    estimate.kits,
    use.spares,
    use.total,
    use.atHand,
    use.bought,
    use.orders?.join("; "),
    usesText(use.uses),
  ]);
  const lengths = estimate.lengths.flatMap((use) =>
    use.pieces.map((piece) => [
      use.kind,
      use.item,
      piece.length,
      hundredths(piece.mass),
      piece.perKit,
      estimate.kits,
      piece.spares,
      piece.total,
      undefined,
      undefined,
      undefined,
      usesText(piece.uses),
    ]),
  );
  const bars = estimate.lengths.flatMap((use) =>
    (use.plan?.use ?? [])
      .map((bar, index) => ({ ...bar, order: use.orders?.[index] }))
      .filter(({ used }) => used > 0)
      .map(({ length, used, atHand, bought, order }) => [
        use.kind,
        use.item,
        length,
        undefined,
        undefined,
        estimate.kits,
        undefined,
        used,
        atHand,
        bought,
        bought > 0 ? order : undefined,
        "stock length, sawn into the pieces above",
      ]),
  );
  return csv([HEADER, ...hardware, ...lengths, ...bars]);
}

function hundredths(mass: number | undefined): number | undefined {
  return mass && Math.round(mass * 100) / 100;
}

function usesText(
  uses: readonly { readonly place: string; readonly count: number; readonly why: string }[],
): string {
  return uses.map((use) => `${use.count} x ${use.place}: ${use.why}`).join("; ");
}
