import { z } from "zod";
import { length } from "./frame-words.js";

/** Holes by which a bought part is held. */
export const pattern = z
  .union([
    z.strictObject({
      cross: z
        .array(length)
        .length(2)
        .describe("Two holes on each of two circles at 90 degrees: both diameters, mm"),
    }),
    z.strictObject({
      circle: length.describe("Diameter of the circle through the hole centres, mm"),
      holes: z.int().min(2).max(12).default(4).describe("Holes on the circle"),
    }),
    z.strictObject({
      rectangle: z.array(length).length(2).describe("Distances between hole centres, mm: width, height"),
    }),
  ])
  .describe("Holes by which the motor is held; say which kind, a pair of numbers alone is ambiguous");
