/** A repeatable source of random numbers: the same seed gives the same sequence on every machine. */
export interface Random {
  /** At least 0, less than 1. */
  unit(): number;
  /** A whole number at least 0 and less than `count`. */
  below(count: number): number;
}

/**
 * The generator "mulberry32" (a 32-bit counter through a mixing function, public domain), seeded by hashing the seed's
 * low and high halves. Plenty for choosing among layouts; not for secrets.
 */
export function seededRandom(seed: number): Random {
  let state = mixed(seed >>> 0) ^ mixed(Math.floor(seed / 2 ** 32) >>> 0);
  const unit = (): number => {
    state = (state + 0x6d2b79f5) | 0;
    let mix = Math.imul(state ^ (state >>> 15), state | 1);
    mix ^= mix + Math.imul(mix ^ (mix >>> 7), mix | 61);
    return ((mix ^ (mix >>> 14)) >>> 0) / 2 ** 32;
  };
  return { unit, below: (count) => Math.floor(unit() * count) };
}

function mixed(value: number): number {
  let mix = Math.imul(value ^ (value >>> 16), 0x85ebca6b);
  mix = Math.imul(mix ^ (mix >>> 13), 0xc2b2ae35);
  return mix ^ (mix >>> 16);
}
