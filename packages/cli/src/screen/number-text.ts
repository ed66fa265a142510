/** A length, area or share for people: at most `digits` decimals, no trailing zeros. */
export function numberText(value: number, digits = 2): string {
  const text = value.toFixed(digits);
  const short = text.includes(".") ? text.replace(/\.?0+$/, "") : text;
  return short === "-0" ? "0" : short;
}

/** `68 %` */
export function percentText(share: number): string {
  return `${numberText(100 * share, 0)} %`;
}

/** `1 sheet`, `3 sheets` */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}
