/** An amount in the currency's minor unit (cents for EUR), always a safe integer. */
export type Money = number;

/**
 * Minor-unit exponents other than 2 (ISO 4217:2015, list one, column "minor unit"; from memory, tested against the
 * currency data of the JavaScript runtime).
 */
const EXPONENTS: Readonly<Record<string, number>> = {
  ...Object.fromEntries(
    "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF".split(" ").map((code) => [code, 0]),
  ),
  ...Object.fromEntries("BHD IQD JOD KWD LYD OMR TND".split(" ").map((code) => [code, 3])),
  CLF: 4,
  UYW: 4,
};

/** Decimals of a currency: 2 unless ISO 4217 says otherwise. */
export function currencyExponent(currency: string): number {
  return EXPONENTS[currency] ?? 2;
}

/** A decimal number held exactly: coefficient / 10^scale. */
interface Decimal {
  readonly coefficient: bigint;
  readonly scale: number;
}

/**
 * Product of decimal numbers in minor units, rounded once, half away from zero.
 *
 * The factors are taken as the decimals a person reads (1.005 is 1.005, not the binary number below it), so that the
 * amount of a line is what anybody gets who multiplies the printed figures.
 */
export function amount(exponent: number, ...factors: readonly number[]): Money {
  let coefficient = 10n ** BigInt(exponent);
  let scale = 0;
  for (const factor of factors) {
    const decimal = decimalOf(factor);
    coefficient *= decimal.coefficient;
    scale += decimal.scale;
  }
  const rounded = Number(divideHalfAway(coefficient, 10n ** BigInt(scale)));
  if (!Number.isSafeInteger(rounded)) throw new RangeError(`amount too large: ${factors.join(" x ")}`);
  return rounded === 0 ? 0 : rounded;
}

/** The amount in major units as a plain decimal text with a dot, for example `1234.50`. */
export function moneyText(money: Money, exponent: number): string {
  const sign = money < 0 ? "-" : "";
  const digits = String(Math.abs(money)).padStart(exponent + 1, "0");
  if (exponent === 0) return sign + digits;
  return `${sign}${digits.slice(0, -exponent)}.${digits.slice(-exponent)}`;
}

/** The amount in major units as a number; exact enough to print, never to add up. */
export function major(money: Money, exponent: number): number {
  return Number(moneyText(money, exponent));
}

/** `count` raised by `percent`, up to the next whole piece, in exact arithmetic (110 of 100 at 10 %, never 111). */
export function raised(count: number, percent: number): number {
  const share = decimalOf(percent);
  const hundred = 100n * 10n ** BigInt(share.scale);
  const whole = decimalOf(count);
  if (whole.scale !== 0) throw new RangeError(`a count must be whole, not ${count}`);
  const product = whole.coefficient * (hundred + share.coefficient);
  return Number((product + hundred - 1n) / hundred);
}

/** `count` with spares: raised by `percent`, and by `least` pieces at least. */
export function withSpares(count: number, percent: number, least: number): number {
  return Math.max(raised(count, percent), count + least);
}

/** How many must be made so that `count` are left when `percent` of them are spoiled: count / (1 - scrap), rounded up. */
export function withScrap(count: number, percent: number): number {
  if (!(percent >= 0 && percent < 100))
    throw new RangeError(`a scrap rate must be 0 or more and below 100 %, not ${percent}`);
  const share = decimalOf(percent);
  const hundred = 100n * 10n ** BigInt(share.scale);
  const whole = BigInt(count) * hundred;
  const kept = hundred - share.coefficient;
  return Number((whole + kept - 1n) / kept);
}

/** `money` divided by `count`, rounded half away from zero. */
export function shared(money: Money, count: number): Money {
  return Number(divideHalfAway(BigInt(money), BigInt(count)));
}

/**
 * Price of one of `count` that together cost `cost`, so that `percent` of the price is margin: cost / (1 - margin). A mark-up on
 * the cost would be less: 25 % margin on 60.00 is 80.00, 25 % mark-up 75.00.
 */
export function priceAtMargin(cost: Money, count: number, percent: number): Money {
  if (!(percent >= 0 && percent < 100))
    throw new RangeError(`a margin must be 0 or more and below 100 %, not ${percent}`);
  const margin = decimalOf(percent);
  const hundred = 100n * 10n ** BigInt(margin.scale);
  return Number(divideHalfAway(BigInt(cost) * hundred, BigInt(count) * (hundred - margin.coefficient)));
}

/** A measured quantity cut to `decimals` places, as lines print it. */
export function toDecimals(value: number, decimals: number): number {
  return Number(value.toFixed(decimals));
}

/** The number as a whole count of 10^-scale, exactly; throws when it has more decimals than `scale`. */
export function scaledInteger(value: number, scale: number): number {
  const decimal = decimalOf(value);
  if (decimal.scale > scale) throw new RangeError(`${value} has more than ${scale} decimals`);
  return Number(decimal.coefficient * 10n ** BigInt(scale - decimal.scale));
}

/** Decimals in the shortest decimal text of a number. */
export function decimalsOf(value: number): number {
  return decimalOf(value).scale;
}

function decimalOf(value: number): Decimal {
  if (!Number.isFinite(value)) throw new RangeError(`not a finite number: ${value}`);
  const [mantissa = "0", power = "0"] = String(value).split("e");
  const [whole = "0", fraction = ""] = mantissa.split(".");
  const scale = fraction.length - Number(power);
  const digits = BigInt(whole + fraction);
  return scale >= 0
    ? { coefficient: digits, scale }
    : { coefficient: digits * 10n ** BigInt(-scale), scale: 0 };
}

function divideHalfAway(numerator: bigint, denominator: bigint): bigint {
  const negative = numerator < 0n !== denominator < 0n;
  const n = numerator < 0n ? -numerator : numerator;
  const d = denominator < 0n ? -denominator : denominator;
  const quotient = (2n * n + d) / (2n * d);
  return negative ? -quotient : quotient;
}
