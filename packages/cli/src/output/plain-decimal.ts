/** A number in plain decimals: never an exponent, no trailing zeros, no minus zero. */
export function plainDecimal(value: number, decimals: number): string {
  if (!Number.isFinite(value) || Math.abs(value) >= 1e15) throw new RangeError(`${value} cannot be written`);
  const fixed = value.toFixed(decimals);
  const short = fixed.includes(".") ? fixed.replace(/\.?0+$/, "") : fixed;
  return short === "-0" ? "0" : short;
}
