import { type ShopProfile, shopProfileSchema } from "../input/shop-profile.js";
import { type StockList, stockListSchema } from "../input/stock-list.js";
import type { Assumption, Spares } from "./cost-estimate.js";
import type { ShopCost } from "./shop-cost.js";

/** Tells whether a field was written in a file, by its dotted path, for example `shop.machine.travelFeed`. */
export type Given = (path: string) => boolean;

/** What an estimate was asked with. */
export interface AssumptionsInput {
  readonly shop: ShopProfile;
  readonly stockList: StockList;
  readonly kits: number;
  /** Absent when the stock list decides. */
  readonly spares?: Spares;
  readonly given?: Given | undefined;
}

/**
 * Everything the figures stand on: values of the two files, what was filled in, and how the estimate works. Without `given` a
 * value equal to the schema's default counts as defaulted.
 */
export function assumptions(input: AssumptionsInput, spares: Spares, cost: ShopCost): Assumption[] {
  const { shop, stockList, kits, given } = input;
  return [
    { what: "kits", value: String(kits), source: "asked for", defaulted: false },
    ...(["plates", "hardware", "lengths"] as const).map((kind) => ({
      what: `spares, ${kind}`,
      value: `${spares[kind]} %`,
      source: `${sparesSource(input)}; rounded up to whole pieces of each kind`,
      defaulted: spares[kind] === 0,
    })),
    ...statedValues(shop, stockList, given),
    ...cost.feeds.map((feed) => ({ ...feed, defaulted: false })),
    ...cost.filled.map((filled) => ({ ...filled, defaulted: true })),
    ...methods(shop, stockList),
  ];
}

function sparesSource({ spares, given }: AssumptionsInput): string {
  if (spares !== undefined) return "asked for";
  return given?.("stock.selling.spares") === false
    ? "none: the stock list says nothing"
    : "stock list, selling.spares";
}

type Section = Readonly<Record<string, unknown>>;

/** Fields of the files that a figure depends on, with the unit to show. */
const FIELDS: readonly (readonly [path: string, unit: string])[] = [
  ["shop.cutting.kerf", "mm"],
  ["shop.cutting.safetyGap", "mm"],
  ["shop.machine.travelFeed", "mm/min"],
  ["shop.machine.acceleration", "mm/s2"],
  ["shop.machine.cornerDeviation", "mm"],
  ["shop.machine.liftHeight", "mm"],
  ["shop.machine.toolChangeSeconds", "s"],
  ["shop.charges.perHour", "an hour"],
  ["shop.charges.perMetre", "a metre"],
  ["shop.charges.perPierce", "a start"],
  ["shop.charges.setupPerJob", "min"],
  ["shop.charges.setupPerLayout", "min"],
  ["shop.charges.loadPerSheet", "min"],
  ["shop.charges.perPlate", "s"],
  ["shop.charges.fixedPerJob", "a job"],
  ["shop.charges.minimum", "a job"],
  ["shop.charges.taxPercent", "%"],
  ["shop.charges.freight", "a job"],
  ["stock.sawKerf", "mm"],
  ["stock.pricesIncludeTax", ""],
  ["stock.selling.scrapPercent", "% of the cut plates"],
  ["stock.selling.spares.least.plates", "of each plate at least"],
  ["stock.selling.spares.least.hardware", "of each piece at least"],
  ["stock.selling.spares.least.lengths", "of each length at least"],
  ["stock.selling.packagingPerKit", "a kit"],
  ["stock.selling.packingMinutes", "min a kit"],
  ["stock.selling.labourPerHour", "an hour"],
];

/** Fields of the frame file that come before the profile's. */
const FRAME_FIELDS: Readonly<Record<string, readonly string[]>> = {
  "shop.cutting.kerf": ["cutting.kerf"],
  "shop.cutting.safetyGap": ["cutting.clearance"],
};

function statedValues(shop: ShopProfile, stockList: StockList, given: Given | undefined): Assumption[] {
  const values: Section = { shop, stock: stockList };
  const defaults: Section = {
    shop: leastProfile(),
    stock: stockListSchema.parse({ keelcut: 1, currency: "XXX" }),
  };
  return FIELDS.flatMap(([path, unit]) => {
    const value = valueAt(values, path);
    if (value === undefined) return [];
    const byFrame = (FRAME_FIELDS[path] ?? []).filter((field) => given?.(`frame.${field}`));
    const defaulted = given === undefined ? value === valueAt(defaults, path) : !given(path);
    const file = path.startsWith("shop.") ? "shop profile" : "stock list";
    const source = defaulted ? `default of the ${file}` : file;
    return [
      {
        what: path.slice(path.indexOf(".") + 1),
        value: `${String(value)} ${unit}`.trim(),
        source: byFrame.length > 0 ? `frame file: ${byFrame.join(", ")}` : source,
        defaulted: defaulted && byFrame.length === 0,
      },
    ];
  });
}

/** A profile with nothing but what must be given, so that every other value is the schema's default. */
function leastProfile(): ShopProfile {
  return shopProfileSchema.parse({
    keelcut: 1,
    name: "-",
    currency: "XXX",
    cutting: { method: "router", kerf: 1e-9 },
    feeds: [{ material: "-" }],
    charges: {},
  });
}

function valueAt(values: Section, path: string): unknown {
  return path
    .split(".")
    .reduce<unknown>(
      (node, key) => (typeof node === "object" && node !== null ? (node as Section)[key] : undefined),
      values,
    );
}

/** How the figures are made, for whoever checks them. */
function methods(shop: ShopProfile, stockList: StockList): Assumption[] {
  const rule = (what: string, value: string, source: string): Assumption => ({
    what,
    value,
    source,
    defaulted: false,
  });
  const taxed = stockList.pricesIncludeTax
    ? "cutting, handling, set-up and freight; prices of the stock list already hold the tax"
    : "sheets, hardware, lengths, cutting, handling, set-up and freight; packing is own work";
  const cutting =
    shop.charges.perMetre === undefined
      ? "machine time: cut, plunge or pierce, and travel"
      : "metres of contour as drawn; hours only for set-up and handling";
  return [
    rule(
      "rounding",
      "each line once, to the minor unit, half away from zero",
      "ISO 4217 minor units; common practice",
    ),
    rule(
      "speed along the path",
      "constant acceleration; arcs at most sqrt(a r); corners at most the speed of a circle within cornerDeviation; no limit on jerk",
      "kinematics of a point with bounded acceleration",
    ),
    rule(
      "cutter path",
      "contours moved by half a kerf, every pass over the whole contour",
      "common practice",
    ),
    rule(
      "travel",
      "openings before outlines, plates in openings first; nearest neighbour and 2-opt from and to the sheet's corner",
      "common practice; not the shortest tour",
    ),
    rule("marks", "not engraved: names and lines on the mark layer take no time", "cuts only are counted"),
    toolRule(shop, rule),
    rule("cutting charged by", cutting, "shop profile"),
    rule("minimum charge", "on the shop's work: cutting, handling, set-up, fixed charge", "common practice"),
    rule("tax on", taxed, "common practice"),
    rule(
      "price tiers",
      "a tier's price holds for the whole quantity, and more is bought where that costs less; increments hold from their quantity on, and layouts are planned at their first price",
      "stock list",
    ),
    rule("at hand", "used first, at no cost", "stock list"),
    rule(
      "sawing",
      `pieces and ${stockList.sawKerf} mm saw kerf between them; the last piece of a bar needs no cut within one kerf of the end`,
      "stock list",
    ),
  ];
}

function toolRule(
  { cutting, machine }: ShopProfile,
  rule: (what: string, value: string, source: string) => Assumption,
): Assumption {
  const drills = cutting.method === "router" ? machine.drills : [];
  if (drills.length === 0)
    return rule("tools", "one cutter, no tool change", "the shop profile names no drills");
  const list = drills.map((drill) => drill.diameter).join(", ");
  const value = `cutter and drills of ${list} mm; on a sheet that needs n > 1 tools n changes, the last back to the first; travel as with one tool`;
  return rule("tools", value, "shop profile");
}
