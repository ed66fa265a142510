import { inputError } from "../input/input-error.js";

/** A whole number given with an option. */
function wholeNumber(option: string, text: string, least: number, most: number): number {
  const value = Number(text);
  if (/^[+-]?\d+$/.test(text.trim()) && value >= least && value <= most) return value;
  throw inputError(option, `"${text}" will not do; give a whole number from ${least} to ${most}`);
}

/** A number given with an option. */
function plainNumber(option: string, text: string, least: number, most: number): number {
  const value = Number(text);
  if (/^[+-]?(\d+\.?\d*|\.\d+)$/.test(text.trim()) && value >= least && value <= most) return value;
  throw inputError(option, `"${text}" will not do; give a number from ${least} to ${most}`);
}

/** Most kits of one job: beyond, it is no job of a club or a small shop but a slip of the keys. */
const mostKits = 10_000;

export function kitsNumber(text: string): number {
  return wholeNumber("--kits", text, 1, mostKits);
}

/** `1,10,50`: rising or not, each once. */
export function kitsNumbers(text: string): number[] {
  const numbers = text.split(",").map(kitsNumber);
  const twice = numbers.find((number, index) => numbers.indexOf(number) !== index);
  if (twice !== undefined) throw inputError("--kits", `${twice} is given twice`);
  if (numbers.length > 20) throw inputError("--kits", "more than 20 numbers at once; give fewer");
  return numbers;
}

export function sparesPercent(text: string | undefined): number | undefined {
  return text === undefined ? undefined : plainNumber("--spares", text, 0, 100);
}

export function seedNumber(text: string): number {
  return wholeNumber("--seed", text, 0, 2 ** 31 - 1);
}

export function effortSeconds(text: string | undefined): number | undefined {
  return text === undefined ? undefined : plainNumber("--effort", text, 0.01, 86_400);
}

export function layoutsNumber(text: string | undefined): number | undefined {
  return text === undefined ? undefined : wholeNumber("--max-layouts", text, 1, 1000);
}
