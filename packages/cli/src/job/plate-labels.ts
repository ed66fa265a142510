import type { Frame, Plate } from "@keelcut/geometry";
import type { LaidOut } from "./laid-out.js";

/** The texts that may be drawn on a plate, the fullest first. */
export type PlateLabels = (plateId: string) => readonly string[];

/**
 * Id and revision, and the number of the kit when it is known; then the id alone; last the plate's number on the page,
 * for plates too small for more.
 */
export function plateLabels(frame: Frame, kit?: number): PlateLabels {
  const { revision } = frame.parameters;
  return (id) => {
    const number = frame.plates.findIndex((plate) => plate.id === id) + 1;
    const named = revision === "" ? id : `${id} ${revision}`;
    return [
      ...(kit === undefined ? [] : [`${named} kit ${kit}`]),
      ...new Set([named, id]),
      ...(number === 0 ? [] : [String(number)]),
    ];
  };
}

/**
 * For each sheet of each group the number of the one kit it is cut for, when it is cut once and holds plates of one kit
 * only. Kits are filled in the order of the sheets, those cut several times first; spare copies belong to no kit.
 */
export function kitNumbers(
  groups: readonly LaidOut[],
  plates: readonly Plate[],
  kits: number,
): (number | undefined)[][] {
  const perKit = new Map(plates.map((plate) => [plate.id, plate.count]));
  return groups.map(({ result }) => {
    const used = new Map<string, number>();
    const count = (part: string, copies: number): number => {
      const before = used.get(part) ?? 0;
      used.set(part, before + copies);
      return before;
    };
    for (const { times, placements } of result.sheets) {
      if (times > 1) for (const { part } of placements) count(part, times);
    }
    return result.sheets.map(({ times, placements }) => {
      if (times > 1) return undefined;
      const numbers = new Set(
        placements.map(({ part }) => Math.floor(count(part, 1) / (perKit.get(part) ?? 1)) + 1),
      );
      const [kit] = numbers;
      return numbers.size === 1 && kit !== undefined && kit <= kits ? kit : undefined;
    });
  });
}
