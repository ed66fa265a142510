/** Things by the reason they share, in the order of the first of each. */
export function byReason(
  things: readonly { readonly what: string; readonly why: string }[],
): readonly { readonly why: string; readonly things: readonly string[] }[] {
  const groups = new Map<string, string[]>();
  for (const { what, why } of things) groups.set(why, [...(groups.get(why) ?? []), what]);
  return [...groups].map(([why, grouped]) => ({ why, things: grouped }));
}
