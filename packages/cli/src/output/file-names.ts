import type { Plate, SheetMaterial } from "@keelcut/geometry";
import type { SizeState } from "./drawing.js";

/** Longest file name without its ending; file systems take 255 bytes, people and post rooms take less. */
const LONGEST = 100;

/**
 * Name of a sheet's file without its ending: material, thickness with its unit, number, how often to cut, and whether
 * contours are compensated, for example `pe-hd-10mm-01-x3` or `pe-hd-10mm-01-x3-compensated-3.175mm`.
 */
export function sheetFileName(
  material: SheetMaterial,
  number: number,
  times: number,
  size: SizeState,
): string {
  const parts = [materialWords(material), String(number).padStart(2, "0"), `x${times}`];
  return joined([...parts, ...stateWords(size)]);
}

/** Name of a plate's file without its ending, for example `deck-pe-hd-10mm-x2`. */
export function plateFileName(plate: Plate, quantity: number, size: SizeState): string {
  const state = plate.made === "printed" ? [] : stateWords(size);
  return joined([fileWord(plate.id), materialWords(plate.sheet), `x${quantity}`, ...state]);
}

/** A text as it may stand in a file name everywhere: lower-case ASCII letters, digits, dots and hyphens. */
export function fileWord(text: string): string {
  const word = text
    .normalize("NFD")
    .replace(/\p{Mn}/gu, "")
    .toLowerCase()
    .replace(/[^a-z0-9.]+/g, "-")
    .replace(/^[-.]+|[-.]+$/g, "");
  return word === "" ? "unnamed" : word;
}

function materialWords(material: SheetMaterial): string {
  return `${fileWord(material.material)}-${material.thickness}mm`;
}

/** Nominal size is what a shop expects and goes unsaid; a compensated file says so and for which kerf. */
function stateWords(size: SizeState): string[] {
  return size.state === "nominal" ? [] : [`compensated-${size.kerf}mm`];
}

function joined(parts: readonly string[]): string {
  const name = parts.join("-");
  if (name.length <= LONGEST) return name;
  const [first = "", ...rest] = parts;
  const tail = rest.join("-");
  return `${first.slice(0, Math.max(8, LONGEST - tail.length - 1))}-${tail}`;
}
