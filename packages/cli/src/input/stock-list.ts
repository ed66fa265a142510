import { z } from "zod";
import { words } from "./frame-words.js";

const positive = z.number().positive();
const notNegative = z.number().nonnegative();
/** Far above any price of a thing, and far below what money is counted to. */
const money = notNegative.max(1e9);
const count = z.int().nonnegative();

/** Prices that fall with the quantity. The first tier's `from` is the least quantity sold. */
const tiers = z
  .array(
    z.strictObject({
      from: z.int().positive().describe("Least quantity of this tier"),
      each: money.describe("Price of one from this quantity on"),
    }),
  )
  .min(1)
  .superRefine((tiers, context) => {
    tiers.forEach((tier, index) => {
      const before = tiers[index - 1];
      if (before === undefined) return;
      if (tier.from <= before.from) {
        context.addIssue({
          code: "custom",
          path: [index, "from"],
          message: `tiers must rise: ${tier.from} comes after ${before.from}`,
        });
      }
      if (tier.each > before.each) {
        context.addIssue({
          code: "custom",
          path: [index, "each"],
          message: `a larger quantity must not cost more each: ${tier.each} comes after ${before.each}`,
        });
      }
    });
  });

/** One price, or prices by quantity: the tier's price holds for the whole quantity bought. */
const price = z.union([money, tiers]);

/** The same, or prices that hold only for the pieces from their quantity on. */
const priceOrIncrements = z.union([
  notNegative,
  tiers,
  z.strictObject({
    increments: tiers.describe(
      "Each price holds from its quantity to the next; the pieces before keep theirs",
    ),
  }),
]);

const percent = z.number().min(0).max(100);

const polygon = z.array(z.tuple([notNegative, notNegative])).min(3);

const id = words.describe("Own name of this piece, as layouts show it");
const material = words.describe("Sheet material as the frame file names it");
const thickness = positive.describe("Nominal thickness, mm");

const sheet = z.strictObject({
  id,
  material,
  thickness,
  length: positive.describe("Along the grain or extrusion, when the material has one; drawn along x"),
  width: positive.describe("mm"),
  price: priceOrIncrements.describe("Of one sheet, or tiers or increments by sheets"),
  available: count.optional().describe("Pieces that can be had; as many as needed when absent"),
  atHand: count.default(0).describe("Pieces already owned: used first, at no cost"),
  minimumOrder: z.int().positive().optional().describe("Least number sold at once"),
  keepOuts: z.array(polygon).default([]).describe("Areas where nothing may lie: clamps, defects"),
});

const offcut = z.strictObject({
  id,
  material,
  thickness,
  outline: polygon.describe("Corners [x, y], mm, in order around the piece"),
  count: z.int().positive().default(1).describe("Equal pieces"),
  keepOuts: z.array(polygon).default([]).describe("Areas where nothing may lie: clamps, defects"),
});

const hardware = z.strictObject({
  item: words.describe("As hardware.csv names it, for example `nut ISO 4032 M6`"),
  supplier: words
    .optional()
    .describe(
      "Who sells it: the same thing may be listed once for each supplier, and is bought where it costs least",
    ),
  order: words.optional().describe("The supplier's own number of it, for the order"),
  pack: z.int().positive().default(1).describe("Pieces in a pack"),
  price: priceOrIncrements.describe("Of one pack, or tiers or increments by packs"),
  atHand: count.default(0).describe("Pieces already owned"),
  mass: positive.optional().describe("Of one piece, g: for postage"),
});

const length = z.strictObject({
  item: words.describe("As hardware.csv names it, for example `rod DIN 976 M6`"),
  supplier: words.optional().describe("Who sells it; the same may be listed once for each supplier"),
  order: words.optional().describe("The supplier's own number of it, for the order"),
  length: positive.describe("Length it is sold in"),
  price: price.describe("Of one length, or tiers by lengths"),
  available: count.optional().describe("Lengths that can be bought; as many as needed when absent"),
  atHand: count.default(0).describe("Whole lengths already owned"),
  massPerMetre: positive.optional().describe("g/m: for postage"),
});

const SPARE_HARDWARE =
  "Of every screw, nut, washer, spacer, tie and other small thing; not of motors, propellers, parts and ballast";

/** What a kit seller adds: spares, packing, margin. */
const selling = z.strictObject({
  spares: z
    .strictObject({
      plates: percent.default(0).describe("Of every plate"),
      hardware: percent.default(0).describe(SPARE_HARDWARE),
      lengths: percent.default(0).describe("Of every piece of rod and pipe"),
      least: z
        .strictObject({
          plates: count.default(0).describe("Of every plate"),
          hardware: count.default(0).describe(SPARE_HARDWARE),
          lengths: count.default(0).describe("Of every piece of rod and pipe"),
        })
        .prefault({})
        .describe("Least number of spares for the whole job, whatever the percent says"),
    })
    .prefault({})
    .describe("Percent more than the kits need, rounded up to whole pieces of each kind"),
  scrapPercent: z
    .number()
    .min(0)
    .max(50)
    .default(0)
    .describe("Share of cut plates that turn out spoiled: so many more are cut that the rest suffices"),
  packagingPerKit: money.default(0).describe("Box, bags, labels: money a kit, with the tax paid on them"),
  packingMinutes: notNegative.default(0).describe("Minutes to count and pack one kit"),
  labourPerHour: money.optional().describe("Rate for packing"),
  marginPercent: z
    .number()
    .min(0)
    .lt(100)
    .optional()
    .describe("Share of the selling price that is not cost (not a mark-up on cost)"),
});

/** What can be bought or is at hand. Lengths mm, money in `currency`. */
export const stockListSchema = z.strictObject({
  keelcut: z.literal(1).describe("Version of this file format"),
  extends: words
    .optional()
    .describe(
      "Another stock list this one adds to, relative to this file: sheets and offcuts are merged by id, hardware and lengths by item, pack or length, and supplier; all else is replaced",
    ),
  currency: z
    .string()
    .regex(/^[A-Z]{3}$/, "a three-letter currency code (ISO 4217), for example EUR")
    .describe("Currency of every price (ISO 4217)"),
  sheets: z.array(sheet).default([]).describe("Whole sheets"),
  offcuts: z.array(offcut).default([]).describe("Offcuts at hand, used at no cost"),
  hardware: z.array(hardware).default([]).describe("Screws, nuts, motors and the like"),
  lengths: z.array(length).default([]).describe("Rods and pipes sold by length"),
  pricesIncludeTax: z
    .boolean()
    .default(false)
    .describe("True when the prices of this list already hold the tax the shop profile names"),
  sawKerf: notNegative.default(2).describe("Length one saw cut of pipe or rod takes"),
  offcutWorth: z
    .strictObject({
      length: positive.describe("mm"),
      width: positive.describe("mm"),
      percent: percent.describe("Of the sheet's price"),
    })
    .optional()
    .describe(
      "A rectangular offcut of at least this size is credited at this percent of the sheet's price by area",
    ),
  selling: selling.prefault({}).describe("What a kit seller adds"),
});

export type StockList = z.infer<typeof stockListSchema>;
export type PriceTiers = z.infer<typeof price>;
