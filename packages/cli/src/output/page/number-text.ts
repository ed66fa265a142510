const THIN_SPACE = "\u202F";
const MINUS = "\u2212";

/** A number with at most `decimals` places, no trailing zeros, thousands set apart; the same on every machine. */
export function numberText(value: number, decimals = 2): string {
  if (!Number.isFinite(value)) throw new RangeError(`the page was given the number ${value}`);
  const [whole = "0", fraction = ""] = Math.abs(value).toFixed(decimals).split(".");
  const kept = fraction.replace(/0+$/, "");
  const digits = groupThousands(whole) + (kept === "" ? "" : `.${kept}`);
  return value < 0 && digits !== "0" ? MINUS + digits : digits;
}

/** A length with its unit: `72.4 mm`. */
export function lengthText(mm: number): string {
  return `${numberText(mm)}\u00A0mm`;
}

/** A share 0..1 as `61.3 %`. */
export function percentText(share: number): string {
  return `${numberText(share * 100, 1)}\u00A0%`;
}

/** A time span as a person says it: `45 s`, `12 min`, `3 h 05 min`. */
export function timeText(seconds: number): string {
  if (!Number.isFinite(seconds)) throw new RangeError(`the page was given the time ${seconds}`);
  if (seconds < 60) return `${numberText(seconds, 0)}\u00A0s`;
  const minutes = Math.round(seconds / 60);
  if (minutes < 60) return `${minutes}\u00A0min`;
  return `${groupThousands(String(Math.floor(minutes / 60)))}\u00A0h ${String(minutes % 60).padStart(2, "0")}\u00A0min`;
}

/** `1 sheet`, `2 sheets`. */
export function countText(count: number, one: string, many: string = `${one}s`): string {
  return `${numberText(count)}\u00A0${count === 1 ? one : many}`;
}

function groupThousands(digits: string): string {
  return digits.length < 5 ? digits : digits.replace(/\B(?=(\d{3})+$)/g, THIN_SPACE);
}
