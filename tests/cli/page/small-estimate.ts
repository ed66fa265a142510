import {
  COST_GROUPS,
  type CostEstimate,
  type CostGroup,
  type CostLine,
} from "../../../packages/cli/src/cost/cost-estimate.js";

/** A hand-made estimate whose groups are the sums of its lines, for N kits. */
export function smallEstimate(kits: number): CostEstimate {
  const sheets = Math.ceil(kits * 0.75);
  const lines: CostLine[] = [
    line("sheet", "PE-HD 10 mm, PE 1000x500", sheets, "sheet", 42),
    line("cutting", "machine time", 0.6 * kits, "h", 65),
    line("setup", "programming", 1, "job", 35),
    line("hardware", "motor m22", 2 * kits, "piece", 11.9),
    line("length", "pipe EN 1329-1 75x3", Math.ceil(kits / 8), "bar of 2000 mm", 9.5),
    {
      group: "hardware",
      item: "tie 3.6x200",
      quantity: 2 * kits,
      unit: "piece",
      from: "no price in the stock list",
    },
  ];
  const groups = groupSums(lines);
  const net = COST_GROUPS.reduce((sum, group) => sum + groups[group], 0);
  const share = (money: number): number => Math.round(money / kits);
  return {
    frame: "Heron",
    shop: "Bay router",
    currency: "EUR",
    exponent: 2,
    kits,
    spares: { plates: 0, hardware: 0, lengths: 0 },
    terms: { rates: { perHour: 65 }, minimum: 0, taxedGroups: [] },
    lines,
    totals: { groups, net, tax: 0, total: net, unpriced: 1 },
    perKit: {
      groups: Object.fromEntries(COST_GROUPS.map((g) => [g, share(groups[g])])) as Record<CostGroup, number>,
      total: share(net),
      sellingPrice: Math.round(net / kits / 0.75),
      marginPercent: 25,
    },
    material: [
      {
        material: "PE-HD",
        thickness: 10,
        sheets: [
          {
            material: "PE-HD",
            thickness: 10,
            stock: "PE 1000x500",
            used: sheets,
            atHand: 0,
            bought: sheets,
            each: 42,
          },
        ],
        sheetCount: sheets,
        sheetArea: sheets * 500_000,
        leastSheets: Math.max(1, sheets - 1),
        yield: 0.41,
      },
    ],
    cutting: [
      {
        material: "PE-HD",
        thickness: 10,
        layout: 1,
        stock: "PE 1000x500",
        times: sheets,
        plates: 3,
        starts: 15,
        metres: { drawn: 5.1, cut: 15.3, travel: 3.2 },
        minutes: { cut: 21.4, enter: 1.5, travel: 0.4, machine: 23.3, load: 4, plates: 1 },
      },
      {
        material: "PVC-U",
        thickness: 5,
        layout: 1,
        stock: "PVC corner",
        times: 1,
        plates: 5,
        starts: 30,
        metres: { drawn: 1.9, cut: 1.9, travel: 0.9 },
      },
    ],
    hardware: [],
    lengths: [],
    weights: { plates: 2100, hardware: 300, lengths: 260, total: 2660, missing: [] },
    assumptions: [
      { what: "machine rate", value: "65 EUR an hour", source: "shop profile", defaulted: false },
      { what: "saw kerf", value: "2 mm", source: "stock list", defaulted: true },
    ],
    findings: [],
  };
}

function line(group: CostGroup, item: string, quantity: number, unit: string, rate: number): CostLine {
  return {
    group,
    item,
    quantity,
    unit,
    rate,
    amount: Math.round(quantity * rate * 100),
    from: `${item} as stated`,
  };
}

function groupSums(lines: readonly CostLine[]): Record<CostGroup, number> {
  const sums = Object.fromEntries(COST_GROUPS.map((group) => [group, 0])) as Record<CostGroup, number>;
  for (const { group, amount = 0 } of lines) sums[group] += amount;
  return sums;
}
