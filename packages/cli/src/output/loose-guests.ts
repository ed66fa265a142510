import type { Finding, Region } from "@keelcut/geometry";
import type { BridgeOptions } from "../bridges/bridge-places.js";
import { openingsAround } from "../tour/nesting-depths.js";

/**
 * Warns of plates that lie in openings which no bridge holds: their own bridges hang on the core of the opening, which comes
 * loose with them as soon as the opening is cut.
 *
 * @param ids whose plate each region is
 */
export function looseGuests(
  ids: readonly string[],
  regions: readonly Region[],
  bridges: BridgeOptions | undefined,
  place: string,
): Finding[] {
  if (bridges === undefined) return [];
  const loose = new Map<string, number>();
  openingsAround(regions).forEach(([around], index) => {
    const [guest, host] = [ids[index], ids[around?.region ?? -1]];
    if (around === undefined || guest === undefined || host === undefined) return;
    if (bridges.of(host).some(({ part }) => part === around.part)) return;
    const pair = `${guest} in an opening of ${host}`;
    loose.set(pair, (loose.get(pair) ?? 0) + 1);
  });
  return [...loose].map(
    ([pair, count]): Finding => ({
      id: "files.loose-guest",
      severity: "warning",
      place,
      message: `${count} x ${pair}: no bridge holds the core it hangs on, so both come loose when the opening is cut; let files.bridges.largeOpening in the shop profile take in that opening, or have the core held down`,
      why: "a loose plate under a running cutter is thrown or spoiled",
      source: "common practice of cutting shops",
    }),
  );
}
