import { z } from "zod";
import { exitCodes } from "../exit-codes.js";
import { frameFileSchema } from "../input/frame-file.js";
import { inputError } from "../input/input-error.js";
import { didYouMean } from "../input/nearest-name.js";
import { shopProfileSchema } from "../input/shop-profile.js";
import { stockListSchema } from "../input/stock-list.js";
import type { Screen } from "../screen/screen.js";

const schemas: Readonly<Record<string, { readonly title: string; readonly schema: z.ZodType }>> = {
  frame: { title: "Keelcut frame file", schema: frameFileSchema },
  stock: { title: "Keelcut stock list", schema: stockListSchema },
  shop: { title: "Keelcut shop profile", schema: shopProfileSchema },
};

/** Prints the JSON Schema (2020-12) of one input file. */
export function schema(file: string, screen: Screen): number {
  const known = Object.keys(schemas);
  const entry = Object.hasOwn(schemas, file) ? schemas[file] : undefined;
  if (entry === undefined) {
    const guess = didYouMean(file, known) || `; known: ${known.join(", ")}`;
    throw inputError("schema", `there is no schema "${file}"${guess}`);
  }
  const { $schema, ...rest } = z.toJSONSchema(entry.schema, { io: "input" });
  screen.print(JSON.stringify({ $schema, title: entry.title, ...rest }, undefined, 2));
  return exitCodes.fine;
}
