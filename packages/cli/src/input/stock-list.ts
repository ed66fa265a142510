import { z } from "zod";

const positive = z.number().positive();
const notNegative = z.number().nonnegative();
const count = z.int().nonnegative();

/** One price, or prices by quantity: the tier's price holds for the whole quantity bought. */
const price = z.union([
  notNegative,
  z.array(z.strictObject({ from: z.int().positive(), each: notNegative })).min(1),
]);

const polygon = z.array(z.tuple([notNegative, notNegative])).min(3);

const sheet = z.strictObject({
  id: z.string().min(1),
  material: z.string(),
  thickness: positive,
  measuredThickness: positive.optional(),
  length: positive.describe("Along the grain or extrusion, when the material has one; drawn along x"),
  width: positive,
  price,
  available: count.optional().describe("Pieces that can be had; as many as needed when absent"),
  atHand: count.default(0).describe("Pieces already owned: used first, at no cost"),
  minimumOrder: z.int().positive().optional(),
  keepOuts: z.array(polygon).default([]).describe("Areas where nothing may lie: clamps, defects"),
});

const offcut = z.strictObject({
  id: z.string().min(1),
  material: z.string(),
  thickness: positive,
  outline: polygon.describe("Corners [x, y], mm, in order around the piece"),
  count: z.int().positive().default(1),
  keepOuts: z.array(polygon).default([]),
});

const hardware = z.strictObject({
  item: z.string().describe("As hardware.csv names it, for example `nut ISO 4032 M6`"),
  pack: z.int().positive().default(1).describe("Pieces in a pack"),
  price: price.describe("Of one pack, or tiers by packs"),
  atHand: count.default(0).describe("Pieces already owned"),
});

const length = z.strictObject({
  item: z.string().describe("As hardware.csv names it, for example `rod DIN 976 M6`"),
  length: positive.describe("Length it is sold in"),
  price,
  available: count.optional(),
  atHand: count.default(0),
});

/** What can be bought or is at hand. Lengths mm, money in `currency`. */
export const stockListSchema = z.strictObject({
  keelcut: z.literal(1).describe("Version of this file format"),
  currency: z.string().regex(/^[A-Z]{3}$/, "a three-letter currency code (ISO 4217), for example EUR"),
  sheets: z.array(sheet).default([]),
  offcuts: z.array(offcut).default([]),
  hardware: z.array(hardware).default([]),
  lengths: z.array(length).default([]),
  sawKerf: notNegative.default(2).describe("Length one saw cut of pipe or rod takes"),
  offcutWorth: z
    .strictObject({
      length: positive,
      width: positive,
      percent: z.number().min(0).max(100),
    })
    .optional()
    .describe(
      "Rectangular rest of at least this size is credited at this percent of the sheet's price by area",
    ),
});

export type StockList = z.infer<typeof stockListSchema>;
export type PriceTiers = z.infer<typeof price>;
