/** A number as findings print it: at most two decimals, no trailing zeros. */
export function numberText(value: number): string {
  return String(Math.round(value * 100) / 100);
}
