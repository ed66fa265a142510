import { z } from "zod";
import { length, words } from "./frame-words.js";

/** A sheet material that plates are cut from. */
export const sheet = z.strictObject({
  material: words.describe("Name in the table of sheet materials, for example PE-HD (keelcut catalog)"),
  thickness: length.describe("Nominal thickness, mm"),
  measured: length
    .optional()
    .describe("Thickness measured on the sheet at hand, mm; the standard's tolerance holds when absent"),
  grain: z
    .boolean()
    .optional()
    .describe(
      "True when every plate must lie along the sheet's length; as the table of sheet materials says when absent: plywood has a grain",
    ),
});

/** A foam that floats are cut from. */
export const floatSheet = sheet.extend({
  foam: words
    .optional()
    .describe(
      "Grade of the foam, a name in the table of foams (keelcut catalog foams), for example XPS V; XPS IV and PE foam 33 when absent",
    ),
});
