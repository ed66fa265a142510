import type { Instance } from "./instance.js";

/**
 * Weights and overlaps of pairs of items, kept only for pairs that overlap or did lately.
 *
 * Guided local search (Voudouris and Tsang 1999; for packing: Egeblad, Nielsen and Odgaard 2007, "Fast neighborhood
 * search for two- and three-dimensional nesting problems") raises the weight of a pair that stays in conflict, until it
 * costs less to put the conflict elsewhere. All other pairs weigh 1 and need no memory, so 2,000 items are no problem.
 *
 * Every record hangs in the lists of both its items. Before an item is moved its row is laid open: weights and record
 * numbers are spread over arrays indexed by the other item, so the inner loop reads them directly.
 */
export interface PairBook {
  size: number;
  one: Int32Array;
  other: Int32Array;
  nextOfOne: Int32Array;
  nextOfOther: Int32Array;
  weight: Float64Array;
  overlap: Float64Array;
  readonly first: Int32Array;
  /** How many items each item overlaps. */
  readonly conflicts: Int32Array;
  /** The open row: weight against each other item, 1 where there is no record. */
  readonly rowWeight: Float64Array;
  /** The open row: record number against each other item, or -1. */
  readonly rowRecord: Int32Array;
}

export function emptyPairBook(items: number): PairBook {
  return {
    size: 0,
    one: new Int32Array(256),
    other: new Int32Array(256),
    nextOfOne: new Int32Array(256),
    nextOfOther: new Int32Array(256),
    weight: new Float64Array(256),
    overlap: new Float64Array(256),
    first: new Int32Array(items).fill(-1),
    conflicts: new Int32Array(items),
    rowWeight: new Float64Array(items).fill(1),
    rowRecord: new Int32Array(items).fill(-1),
  };
}

/** Spreads the weights of an item's pairs over `rowWeight` and `rowRecord`. Close it before opening another. */
export function openRow(book: PairBook, item: number): void {
  for (let r = book.first[item]; r >= 0; ) {
    const isOne = book.one[r] === item;
    const j = isOne ? book.other[r] : book.one[r];
    book.rowWeight[j] = book.weight[r];
    book.rowRecord[j] = r;
    r = isOne ? book.nextOfOne[r] : book.nextOfOther[r];
  }
}

export function closeRow(book: PairBook, item: number): void {
  for (let r = book.first[item]; r >= 0; ) {
    const isOne = book.one[r] === item;
    const j = isOne ? book.other[r] : book.one[r];
    book.rowWeight[j] = 1;
    book.rowRecord[j] = -1;
    r = isOne ? book.nextOfOne[r] : book.nextOfOther[r];
  }
}

/** Forgets the overlaps of an item (its weights stay). */
export function clearOverlaps(book: PairBook, item: number): void {
  for (let r = book.first[item]; r >= 0; ) {
    const isOne = book.one[r] === item;
    if (book.overlap[r] > 0) {
      book.overlap[r] = 0;
      book.conflicts[book.one[r]]--;
      book.conflicts[book.other[r]]--;
    }
    r = isOne ? book.nextOfOne[r] : book.nextOfOther[r];
  }
}

/** Notes that the item whose row is open overlaps item j; the two must have no overlap on record. */
export function noteOverlap(book: PairBook, item: number, j: number, overlap: number): void {
  let r = book.rowRecord[j];
  if (r < 0) {
    r = addRecord(book, item, j, 1);
    book.rowRecord[j] = r;
  }
  book.overlap[r] = overlap;
  book.conflicts[item]++;
  book.conflicts[j]++;
}

/** Sum of weight * scale * overlap over the pairs of an item. */
export function weightedOverlap(book: PairBook, instance: Instance, item: number): number {
  const { kindOfItem, scale, kinds } = instance;
  let sum = 0;
  for (let r = book.first[item]; r >= 0; ) {
    const isOne = book.one[r] === item;
    if (book.overlap[r] > 0) {
      sum +=
        book.weight[r] * book.overlap[r] * scale[kindOfItem[book.one[r]] * kinds + kindOfItem[book.other[r]]];
    }
    r = isOne ? book.nextOfOne[r] : book.nextOfOther[r];
  }
  return sum;
}

/** Sum of scale * overlap over all pairs: what has to become 0. */
export function totalOverlap(book: PairBook, instance: Instance): number {
  const { kindOfItem, scale, kinds } = instance;
  let sum = 0;
  for (let r = 0; r < book.size; r++) {
    if (book.overlap[r] > 0) {
      sum += book.overlap[r] * scale[kindOfItem[book.one[r]] * kinds + kindOfItem[book.other[r]]];
    }
  }
  return sum;
}

/**
 * After a sweep: pairs that still overlap gain weight, the largest overlap by `most`, a vanishing one by `least`; the
 * others lose a part of theirs, and those back at 1 leave the book. Cost: the size of the book.
 */
export function reweigh(
  book: PairBook,
  instance: Instance,
  least: number,
  most: number,
  decay: number,
): void {
  const { kindOfItem, scale, kinds } = instance;
  const scaled = (r: number): number =>
    book.overlap[r] * scale[kindOfItem[book.one[r]] * kinds + kindOfItem[book.other[r]]];
  let largest = 0;
  for (let r = 0; r < book.size; r++) largest = Math.max(largest, scaled(r));
  const old = book.size;
  book.size = 0;
  book.first.fill(-1);
  for (let r = 0; r < old; r++) {
    const overlap = book.overlap[r];
    const weight =
      overlap > 0
        ? book.weight[r] * (least + ((most - least) * scaled(r)) / largest)
        : Math.max(1, book.weight[r] * decay);
    if (overlap === 0 && weight === 1) continue;
    // Records only move down, so nothing is overwritten before it is read.
    book.overlap[addRecord(book, book.one[r], book.other[r], weight)] = overlap;
  }
}

/** All weights back to 1 and no overlaps. */
export function clearBook(book: PairBook): void {
  book.size = 0;
  book.first.fill(-1);
  book.conflicts.fill(0);
}

function addRecord(book: PairBook, one: number, other: number, weight: number): number {
  if (book.size === book.weight.length) grow(book);
  const r = book.size++;
  book.one[r] = one;
  book.other[r] = other;
  book.weight[r] = weight;
  book.overlap[r] = 0;
  book.nextOfOne[r] = book.first[one];
  book.first[one] = r;
  book.nextOfOther[r] = book.first[other];
  book.first[other] = r;
  return r;
}

function grow(book: PairBook): void {
  const ints = (old: Int32Array): Int32Array => {
    const grown = new Int32Array(2 * old.length);
    grown.set(old);
    return grown;
  };
  const reals = (old: Float64Array): Float64Array => {
    const grown = new Float64Array(2 * old.length);
    grown.set(old);
    return grown;
  };
  book.one = ints(book.one);
  book.other = ints(book.other);
  book.nextOfOne = ints(book.nextOfOne);
  book.nextOfOther = ints(book.nextOfOther);
  book.weight = reals(book.weight);
  book.overlap = reals(book.overlap);
}
