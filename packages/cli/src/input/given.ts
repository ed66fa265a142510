/** The object without the keys whose value is `undefined`: what was not given is absent, not empty. */
export function given<T extends object>(
  values: T,
): { [K in keyof T as undefined extends T[K] ? never : K]: T[K] } & {
  [K in keyof T as undefined extends T[K] ? K : never]?: Exclude<T[K], undefined>;
} {
  const kept = Object.entries(values).filter(([, value]) => value !== undefined);
  return Object.fromEntries(kept) as ReturnType<typeof given<T>>;
}
