import { plainDecimal } from "../plain-decimal.js";

/** One group of a DXF file: its code and its value as text. */
export interface Tag {
  readonly code: number;
  readonly value: string;
}

/** Decimals of lengths (1e-6 mm is far below any machine) and of bulges, which are multiplied by a chord. */
const LENGTH_DECIMALS = 6;
const BULGE_DECIMALS = 12;
const BULGE_CODE = 42;

/**
 * Joins tags to the text of a DXF file: plain decimals in numeric groups, one value a line, a final newline.
 *
 * The door for what breaks files silently: a value that is no number in a numeric group, or a line break in a text.
 *
 * @throws RangeError naming the tag.
 */
export function dxfText(tags: readonly Tag[]): string {
  const lines: string[] = [];
  for (const { code, value } of tags) {
    if (/[\r\n]/.test(value))
      throw new RangeError(`DXF group ${code} holds a line break: ${JSON.stringify(value)}`);
    lines.push(String(code), isNumeric(code) ? plainNumber(code, value) : value);
  }
  return `${lines.join("\n")}\n`;
}

/** A finite number for a tag. */
export function numberTag(code: number, value: number): Tag {
  if (!Number.isFinite(value)) throw new RangeError(`DXF group ${code} would hold ${value}`);
  return { code, value: String(value) };
}

export function textTag(code: number, value: string): Tag {
  return { code, value };
}

/** Splits a text of alternating code and value lines, as dxf-writer makes it. */
export function splitTags(text: string): Tag[] {
  const lines = text.split("\n");
  const tags: Tag[] = [];
  for (let i = 0; i + 1 < lines.length; i += 2)
    tags.push({ code: Number(lines[i]), value: lines[i + 1] ?? "" });
  return tags;
}

/** Floating-point groups of the DXF reference ("Group Code Value Types"). */
function isNumeric(code: number): boolean {
  return (code >= 10 && code <= 59) || (code >= 110 && code <= 149) || (code >= 210 && code <= 239);
}

function plainNumber(code: number, value: string): string {
  const number = value.trim() === "" ? Number.NaN : Number(value);
  if (!Number.isFinite(number))
    throw new RangeError(`DXF group ${code} holds "${value}", which is no number`);
  const decimals = code === BULGE_CODE ? BULGE_DECIMALS : LENGTH_DECIMALS;
  return plainDecimal(number, decimals);
}
