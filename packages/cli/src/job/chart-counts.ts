/**
 * Numbers of kits for the chart of the cost of a kit, ascending, the given one last: 1, 10, 100 and so on below it. Few,
 * because each is laid out and priced; for one kit nothing is done beside it.
 */
export function chartCounts(kits: number): number[] {
  const counts: number[] = [];
  for (let power = 1; power < kits; power *= 10) counts.push(power);
  return [...counts, kits];
}
