import { z } from "zod";

/** Nothing in this family of frames is larger than that, mm: a larger number is a slip of the keys. */
export const largest = 5000;

export const length: z.ZodNumber = z.number().positive().max(largest);
export const lengthOrZero: z.ZodNumber = z.number().nonnegative().max(largest);
export const coordinate: z.ZodNumber = z.number().min(-largest).max(largest);
/** A name in words; line breaks and signs that steer a terminal or turn the writing direction have no place in it. */
export const words: z.ZodString = z
  .string()
  .min(1)
  .max(80)
  .regex(/^[^\p{Cc}\p{Cf}\p{Zl}\p{Zp}]*$/u, "a name on one line, without control characters");
export const thread: z.ZodString = z.string().regex(/^M\d{1,2}(\.\d)?$/, "a metric thread, for example M6");

/** Names of ducts, plates and motors end up in file names and in `--set` paths. */
export const identifier: z.ZodString = z
  .string()
  .max(40)
  .regex(
    /^[A-Za-z][A-Za-z0-9_-]*$/,
    "a name of letters, digits, - and _ that begins with a letter, for example port",
  );

/** A place on the deck: x forward, y to port. */
export const place: z.ZodArray<z.ZodNumber> = z.array(coordinate).length(2);
