import type { Severity } from "@keelcut/geometry";

export type Paint = "red" | "yellow" | "blue" | "green" | "bold" | "dim";

const codes: Readonly<Record<Paint, readonly [number, number]>> = {
  red: [31, 39],
  yellow: [33, 39],
  blue: [34, 39],
  green: [32, 39],
  bold: [1, 22],
  dim: [2, 22],
};

/** The text in a colour of the terminal (ECMA-48 SGR), or as it is when colours are off. */
export function painted(text: string, paint: Paint, colour: boolean): string {
  if (!colour) return text;
  const [on, off] = codes[paint];
  return `\x1b[${on}m${text}\x1b[${off}m`;
}

export const severityPaint: Readonly<Record<Severity, Paint>> = {
  error: "red",
  warning: "yellow",
  note: "blue",
};
