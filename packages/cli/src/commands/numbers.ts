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

/** Most numbers of kits side by side: each is laid out and priced. */
const mostCounts = 50;

/** `1,10,50` or `1-12,50`: rising or not, each once. */
export function kitsNumbers(text: string): number[] {
  const numbers = text.split(",").flatMap((part) => {
    const [first = "", last, ...more] = part.split("-");
    if (last === undefined || first.trim() === "" || more.length > 0) return [kitsNumber(part)];
    const [from, to] = [kitsNumber(first), kitsNumber(last)];
    if (to < from) throw inputError("--kits", `"${part}" runs backwards; give the smaller number first`);
    return Array.from({ length: Math.min(to - from, mostCounts) + 1 }, (_, index) => from + index);
  });
  const twice = numbers.find((number, index) => numbers.indexOf(number) !== index);
  if (twice !== undefined) throw inputError("--kits", `${twice} is given twice`);
  if (numbers.length > mostCounts)
    throw inputError("--kits", `more than ${mostCounts} numbers at once; give fewer`);
  return numbers;
}

export function sparesPercent(text: string | undefined): number | undefined {
  return text === undefined ? undefined : plainNumber("--spares", text, 0, 100);
}

export function surplusPercent(text: string | undefined): number | undefined {
  return text === undefined ? undefined : plainNumber("--surplus", text, 0, 100);
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
