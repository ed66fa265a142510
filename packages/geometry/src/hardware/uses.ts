import { type HardwareItem, hardwareKinds, type LengthItem } from "./item.js";
import { solidMass, standardPiece } from "./mass.js";

/** One use of one kind of hardware; uses of the same item are added up. */
export interface HardwareUse {
  readonly item: string;
  readonly kind: HardwareItem["kind"];
  readonly place: string;
  readonly count: number;
  readonly why: string;
  /** Of one piece, g; that of a standard piece follows from its designation. */
  readonly mass?: number;
}

/** One use of a piece cut from bar or pipe. */
export interface LengthUse {
  readonly item: string;
  readonly kind: LengthItem["kind"];
  readonly length: number;
  readonly place: string;
  readonly count: number;
  readonly why: string;
  /** Of one piece, g. */
  readonly mass: number;
}

/** Adds equal items up, in a fixed order by kind and name. */
export function collectHardware(uses: readonly HardwareUse[]): readonly HardwareItem[] {
  const byItem = grouped(uses, (use) => use.item);
  const items = [...byItem].map(([item, same]): HardwareItem => {
    const kind = same[0]?.kind ?? "other";
    const mass = massOf(item, kind, same);
    return {
      item,
      kind,
      count: total(same),
      uses: same.map(useOf),
      ...(mass === undefined ? {} : { mass }),
    };
  });
  return items.sort(
    (a, b) => hardwareKinds.indexOf(a.kind) - hardwareKinds.indexOf(b.kind) || compareText(a.item, b.item),
  );
}

/** Adds pieces of equal item and length up, longest first within an item. */
export function collectLengths(uses: readonly LengthUse[]): readonly LengthItem[] {
  const byPiece = grouped(uses, (use) => `${use.item} ${use.length}`);
  const items = [...byPiece.values()].flatMap((same): LengthItem[] => {
    const [first] = same;
    if (first === undefined) return [];
    return [
      {
        item: first.item,
        kind: first.kind,
        length: first.length,
        count: total(same),
        uses: same.map(useOf),
        mass: first.mass,
      },
    ];
  });
  return items.sort(
    (a, b) => compareText(a.kind, b.kind) || compareText(a.item, b.item) || b.length - a.length,
  );
}

/** As all uses state it, or as the designation tells. */
function massOf(
  item: string,
  kind: HardwareItem["kind"],
  [first, ...others]: readonly HardwareUse[],
): number | undefined {
  if (first?.mass !== undefined)
    return others.every(({ mass }) => mass === first.mass) ? first.mass : undefined;
  const piece = standardPiece({ item, kind });
  return piece && solidMass(piece);
}

function grouped<Use extends { readonly count: number }>(
  uses: readonly Use[],
  key: (use: Use) => string,
): Map<string, Use[]> {
  const groups = new Map<string, Use[]>();
  for (const use of uses) {
    if (use.count === 0) continue;
    const same = groups.get(key(use));
    if (same === undefined) groups.set(key(use), [use]);
    else same.push(use);
  }
  return groups;
}

function total(uses: readonly { readonly count: number }[]): number {
  return uses.reduce((sum, use) => sum + use.count, 0);
}

function useOf(use: HardwareUse | LengthUse): { place: string; count: number; why: string } {
  return { place: use.place, count: use.count, why: use.why };
}

/** Code-unit order: the same on every machine, whatever its language. */
function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
