import { mirrorX } from "../contour/transform.js";
import { composePlate, type PlateDraft } from "../plates/compose.js";
import { isSameStock, measuredThickness } from "../plates/measured-thickness.js";
import type { Plate, Seat, Vector } from "../plates/plate.js";

/**
 * Turns drafts into plates; drafts that cut as one shape become one plate with all their seats, so that a shop cuts one
 * program. A mirrored draft joins its twin, turned over, when the plate may be turned over.
 *
 * The merged plate's id is its template when it is the only one of it, otherwise its first draft's; its name tells all
 * its drafts: `Float main, layer 1 and 2`.
 */
export function mergePlates(drafts: readonly PlateDraft[]): readonly Plate[] {
  const groups: (PlateDraft & { readonly names: readonly string[] })[] = [];
  for (const draft of drafts) {
    const index = groups.findIndex((group) => sameMaking(group, draft) && sameShape(group, draft));
    const twin =
      index >= 0 || !draft.mirrorable
        ? -1
        : groups.findIndex((group) => sameMaking(group, draft) && sameShape(group, mirrored(draft)));
    const found = groups[Math.max(index, twin)];
    if (found === undefined) {
      groups.push({ ...draft, names: [draft.name] });
      continue;
    }
    const seats =
      index >= 0 ? draft.seats : draft.seats.map((seat) => turnedOver(seat, measuredThickness(draft.sheet)));
    const loose = (found.loose ?? 0) + (draft.loose ?? 0);
    const names = [...new Set([...found.names, draft.name])];
    groups[Math.max(index, twin)] = { ...found, names, seats: [...found.seats, ...seats], loose };
  }
  return groups.map((group) => {
    const alone = groups.filter((other) => other.template === group.template).length === 1;
    const name = nameOfAll(group.names);
    return composePlate(alone ? { ...group, name, id: group.template } : { ...group, name });
  });
}

/** The words all names begin with, then what is left of each; `Bracket` for itself and `Bracket, mirrored`. */
function nameOfAll([first = "", ...more]: readonly string[]): string {
  const others = more.filter((name) => !name.startsWith(`${first}, `));
  if (others.length === 0) return first;
  const words = first.split(" ");
  let shared = 0;
  while (shared < words.length - 1 && others.every((name) => name.split(" ")[shared] === words[shared])) {
    shared++;
  }
  const rests = [first, ...others].map((name) => name.split(" ").slice(shared).join(" "));
  const last = rests.pop() ?? "";
  return [...words.slice(0, shared), `${rests.join(", ")} and ${last}`].join(" ");
}

function sameMaking(a: PlateDraft, b: PlateDraft): boolean {
  return (
    a.template === b.template &&
    isSameStock(a.sheet, b.sheet) &&
    measuredThickness(a.sheet) === measuredThickness(b.sheet)
  );
}

/** Shapes are made by the same formulas, so that equal ones agree to the last digits; 1e-6 mm is far below any cutter. */
function sameShape(a: PlateDraft, b: PlateDraft): boolean {
  return shapeKey(a) === shapeKey(b);
}

/** Outline and openings as text, each contour from its lowest, then leftmost vertex, openings in a fixed order. */
function shapeKey(draft: PlateDraft): string {
  const contours = [draft.outline, ...draft.cuts.map((cut) => cut.contour)].map((contour) => {
    const rounded = contour.map((vertex) => [vertex.x, vertex.y, vertex.bulge].map(text).join(" "));
    const first = rounded.indexOf([...rounded].sort()[0] ?? "");
    return [...rounded.slice(first), ...rounded.slice(0, first)].join(",");
  });
  return [contours[0], ...contours.slice(1).sort()].join(";");
}

function text(value: number): string {
  const rounded = value.toFixed(6);
  return Number(rounded) === 0 ? "0.000000" : rounded;
}

function mirrored(draft: PlateDraft): PlateDraft {
  return {
    ...draft,
    outline: mirrorX(draft.outline),
    cuts: draft.cuts.map((cut) => ({ ...cut, contour: mirrorX(cut.contour) })),
  };
}

/** The same place for the plate turned over about its y axis: its other face is the lower one now. */
function turnedOver(seat: Seat, thickness: number): Seat {
  const normal = cross(seat.u, seat.v);
  return {
    origin: [0, 1, 2].map(
      (axis) => at(seat.origin, axis) + thickness * at(normal, axis),
    ) as unknown as Vector,
    u: seat.u.map((value) => -value) as unknown as Vector,
    v: seat.v,
  };
}

function cross(a: Vector, b: Vector): Vector {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

function at(vector: Vector, axis: number): number {
  return vector[axis] ?? 0;
}
