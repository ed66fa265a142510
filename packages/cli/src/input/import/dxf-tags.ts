import { LARGEST_DXF } from "./read-file.js";

/** One group of a DXF file and the line its code stands in, from 1. */
export interface DxfTag {
  readonly code: number;
  readonly value: string;
  readonly line: number;
}

/** A file that cannot be read at all. */
export class DxfFault extends Error {
  readonly line: number;

  constructor(message: string, line: number) {
    super(`${message} (line ${line})`);
    this.name = "DxfFault";
    this.line = line;
  }
}

/**
 * Splits a DXF text into groups, strictly: what a lenient parser would turn into NaN or cut short is refused.
 *
 * @throws DxfFault with the line for a binary, truncated or malformed file.
 */
export function dxfTags(text: string): DxfTag[] {
  if (text.length > LARGEST_DXF) {
    throw new DxfFault(`the file has ${text.length} characters; at most ${LARGEST_DXF} are read`, 1);
  }
  if (text.includes("\u0000")) throw new DxfFault("this is a binary file: save it as ASCII DXF", 1);
  const lines = text.replace(/^\uFEFF/, "").split(/\r\n|\r|\n/);
  const tags: DxfTag[] = [];
  for (let i = 0; i + 1 < lines.length; i += 2) {
    const code = lines[i]?.trim() ?? "";
    const value = lines[i + 1]?.trim() ?? "";
    if (!/^-?\d{1,4}$/.test(code)) throw new DxfFault("expected a group code, a whole number", i + 1);
    const tag = { code: Number(code), value, line: i + 1 };
    tags.push(tag);
    if (tag.code === 0 && tag.value === "EOF") {
      refuseRest(lines, i + 2);
      return tags;
    }
  }
  throw new DxfFault("the file ends without EOF: it is cut short or no DXF file", lines.length);
}

/** The value of a numeric group. Throws DxfFault when it is not a plain finite number. */
export function numberOf(tag: DxfTag): number {
  if (!/^[+-]?(\d+(\.\d*)?|\.\d+)([eE][+-]?\d{1,3})?$/.test(tag.value)) {
    throw new DxfFault(
      `group ${tag.code} should be a number, found "${tag.value.slice(0, 40)}"`,
      tag.line + 1,
    );
  }
  const value = Number(tag.value);
  if (!Number.isFinite(value))
    throw new DxfFault(`group ${tag.code} is out of range: ${tag.value}`, tag.line + 1);
  return value;
}

/** Floating-point and integer groups of the DXF reference ("Group Code Value Types") that entities hold. */
export function isNumeric(code: number): boolean {
  return (code >= 10 && code <= 99) || (code >= 110 && code <= 149) || (code >= 210 && code <= 239);
}

function refuseRest(lines: readonly string[], from: number): void {
  const at = lines.findIndex((line, index) => index >= from && line.trim() !== "");
  if (at >= 0) throw new DxfFault("something follows the end of the file", at + 1);
}
