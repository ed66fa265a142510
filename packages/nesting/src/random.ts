/** Numbers evenly spread over [0, 1). */
export type Random = () => number;

/**
 * A seeded source of random numbers: sfc32 (Doty-Humphrey, "Small Fast Counting" generator of the PractRand suite),
 * 128 bits of state, the same sequence on every machine.
 */
export function seededRandom(seed: number): Random {
  let a = seed | 0;
  let b = (seed / 4294967296) | 0;
  let c = 0x9e3779b9 | 0;
  let counter = 1;
  const next = (): number => {
    const t = (((a + b) | 0) + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = ((c << 21) | (c >>> 11)) + t;
    c |= 0;
    return (t >>> 0) / 4294967296;
  };
  for (let i = 0; i < 15; i++) next();
  return next;
}

/** A whole number from 0 to count - 1. */
export function randomIndex(random: Random, count: number): number {
  return (random() * count) | 0;
}

/** Puts the first `count` entries into random order (Fisher and Yates). */
export function shuffle(list: Int32Array, count: number, random: Random): void {
  for (let i = count - 1; i > 0; i--) {
    const j = randomIndex(random, i + 1);
    const kept = list[i];
    list[i] = list[j];
    list[j] = kept;
  }
}
