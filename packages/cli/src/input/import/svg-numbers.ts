/** Millimetres per unit: CSS absolute lengths, 96 px to the inch (CSS Values 3, section 5.2; SVG 1.1, section 7.10). */
export const unitMillimetres: Readonly<Record<string, number>> = {
  "": 25.4 / 96,
  px: 25.4 / 96,
  mm: 1,
  cm: 10,
  q: 0.25,
  in: 25.4,
  pt: 25.4 / 72,
  pc: 25.4 / 6,
};

const NUMBER = "[+-]?(?:\\d+(?:\\.\\d*)?|\\.\\d+)(?:[eE][+-]?\\d{1,3})?";
const LENGTH = new RegExp(`^\\s*(${NUMBER})\\s*([a-zA-Z%]*)\\s*$`);
const LIST = new RegExp(`^\\s*(?:${NUMBER}(?:\\s*,\\s*|\\s+|(?=[+-])|$))*\\s*$`);

export interface Length {
  readonly value: number;
  /** Lower case; empty when the length has none. */
  readonly unit: string;
}

/** A length with its unit, or undefined when it is none (a percentage, a relative unit, a typing error). */
export function parseLength(text: string): Length | undefined {
  const match = LENGTH.exec(text);
  if (match === null) return undefined;
  const value = Number(match[1]);
  const unit = (match[2] ?? "").toLowerCase();
  return Number.isFinite(value) && unitMillimetres[unit] !== undefined ? { value, unit } : undefined;
}

/** A list of plain numbers, or undefined when there is anything else in it. */
export function parseNumbers(text: string): number[] | undefined {
  if (!LIST.test(text)) return undefined;
  const numbers = (text.match(new RegExp(NUMBER, "g")) ?? []).map(Number);
  return numbers.every(Number.isFinite) ? numbers : undefined;
}
