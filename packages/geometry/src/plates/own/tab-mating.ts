import { dot } from "../../checks/assembly/vector-3d.js";
import { numberText } from "../../checks/number-text.js";
import type { Contour, Point } from "../../contour/contour.js";
import { locate } from "../../contour/locate.js";
import { counterClockwise } from "../../contour/orient.js";
import { segments } from "../../contour/segment.js";
import { rotate, translate } from "../../contour/transform.js";
import { tabSlot } from "../../features/tab-joint.js";
import type { OwnTab } from "../../frame/own-plate-parameters.js";
import type { Vector } from "../plate.js";
import {
  type Copy,
  directionInPlate,
  directionInVehicle,
  normalOf,
  pointInPlate,
  pointInVehicle,
} from "./copy.js";

/** A tab's middle may lie this far off the side it stands on, and off the face it stands on, mm: written numbers are rounded. */
const OFF_SIDE = 0.05;

/** A tab as it stands out of its own plate. */
export interface PlacedTab {
  readonly root: Point;
  /** Unit direction it stands out. */
  readonly out: Point;
  readonly length: number;
}

/** A plate that takes tabs, with its copies. */
export interface Mate {
  readonly name: string;
  readonly thickness: number;
  readonly copies: readonly Copy[];
  /** Outline, where it is settled before the tabs are: the slot must lie inside. */
  readonly outline?: Contour;
}

/** Finds the straight side a tab stands on. Throws RangeError when there is none or it is too short. */
export function placeTab({ at, length }: OwnTab, outline: Contour): PlacedTab {
  const sides = segments(counterClockwise(outline)).flatMap((side) => {
    if (side.kind !== "line") return [];
    const long = Math.hypot(side.to.x - side.from.x, side.to.y - side.from.y);
    const along = { x: (side.to.x - side.from.x) / long, y: (side.to.y - side.from.y) / long };
    const [dx, dy] = [at.x - side.from.x, at.y - side.from.y];
    const where = dx * along.x + dy * along.y;
    const off = Math.abs(dx * along.y - dy * along.x);
    return off > OFF_SIDE || where < 0 || where > long
      ? []
      : [{ along, room: Math.min(where, long - where) }];
  });
  const side = sides.toSorted((a, b) => b.room - a.room)[0];
  const place = `the tab at (${numberText(at.x)}, ${numberText(at.y)})`;
  if (side === undefined) {
    throw new RangeError(`${place} stands on no straight side of the outline; give a point on one`);
  }
  if (side.room < length / 2) {
    throw new RangeError(
      `${place} is ${numberText(length)} mm long; the straight side there has room for ${numberText(2 * side.room)} mm`,
    );
  }
  return { root: at, out: { x: side.along.y, y: -side.along.x }, length };
}

/**
 * The slot in the mating plate that takes a tab of one copy, in the mating plate's own plane.
 *
 * @param nominal thickness of the tabbed plate; @param thickest at its upper tolerance
 * @throws RangeError when the tab does not stand square on a face of the mating plate, with the distance that is missing
 */
export function matingSlot(
  tab: PlacedTab,
  copy: Copy,
  mate: Mate,
  nominal: number,
  thickest: number,
  relief: number,
): Contour {
  const root = pointInVehicle(copy, tab.root, nominal / 2);
  const out = directionInVehicle(copy, tab.out);
  const fits = mate.copies.map((other) => standing(root, out, other, mate.thickness));
  const touching = fits.filter((fit) => Math.abs(fit.gap) <= OFF_SIDE);
  const inside = touching.find(
    (fit) => mate.outline === undefined || locate(mate.outline, fit.at) === "inside",
  );
  const where = `its tab at (${numberText(tab.root.x)}, ${numberText(tab.root.y)})`;
  if (touching.length > 0 && inside === undefined) {
    throw new RangeError(`${where} misses the outline of ${mate.name}; move one of the two`);
  }
  if (inside === undefined) {
    const nearest = fits.toSorted((a, b) => Math.abs(a.gap) - Math.abs(b.gap))[0];
    throw new RangeError(
      nearest === undefined || !Number.isFinite(nearest.gap)
        ? `${where} does not stand square on ${mate.name}; turn the plate or name another`
        : `${where} ends ${numberText(Math.abs(nearest.gap))} mm ${nearest.gap > 0 ? "before" : "inside"} the face of ${mate.name}; move the plate by that much`,
    );
  }
  const side = directionInPlate(inside.copy, directionInVehicle(copy, { x: -tab.out.y, y: tab.out.x }));
  const slot = tabSlot({ x: 0, y: 0 }, tab.length, thickest, relief);
  return translate(rotate(slot, degrees(side)), inside.at.x, inside.at.y);
}

/** How a tab's root stands to the face it points into: the gap in mm, infinite when it is not square to it. */
function standing(
  root: Vector,
  out: Vector,
  copy: Copy,
  thickness: number,
): { readonly copy: Copy; readonly at: Point; readonly gap: number } {
  const at = pointInPlate(copy, root);
  const facing = dot(out, normalOf(copy.seat));
  if (Math.abs(facing) < 1 - 1e-6) return { copy, at, gap: Number.POSITIVE_INFINITY };
  return { copy, at, gap: facing > 0 ? -at.height : at.height - thickness };
}

/** Right angles come out exact, so that equal slots stay equal. */
function degrees({ x, y }: Point): number {
  const angle = (Math.atan2(y, x) * 180) / Math.PI;
  const whole = Math.round(angle / 90) * 90;
  return Math.abs(angle - whole) < 1e-9 ? whole : angle;
}
