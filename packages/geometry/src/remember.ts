/**
 * Contours and regions are data that never change, so what follows from one may be computed once. The answers live as long
 * as the object they belong to.
 */
export function rememberedFor<Key extends object, Value>(work: (key: Key) => Value): (key: Key) => Value {
  const known = new WeakMap<Key, Value>();
  return (key) => {
    const found = known.get(key);
    if (found !== undefined) return found;
    const value = work(key);
    known.set(key, value);
    return value;
  };
}

/**
 * The same for things that are equal without being one object: `keyOf` says all that the answer depends on. Holds at most
 * `most` answers and then starts anew, so that a program which runs for long does not grow.
 */
export function rememberedBy<Input extends readonly unknown[], Value>(
  most: number,
  keyOf: (...input: Input) => string,
  work: (...input: Input) => Value,
): (...input: Input) => Value {
  const known = new Map<string, { readonly value: Value }>();
  return (...input) => {
    const key = keyOf(...input);
    const found = known.get(key);
    if (found !== undefined) return found.value;
    const value = work(...input);
    if (known.size >= most) known.clear();
    known.set(key, { value });
    return value;
  };
}
