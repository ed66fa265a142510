import { asCircle, bounds, type Contour, type Plate, type Point, segments } from "@keelcut/geometry";
import { featureGroups, tightBox } from "../../feature-groups.js";

/** One opening as the table of a dimensioned drawing lists it; lengths mm from the outline's lower-left corner. */
export interface OpeningRow {
  /** `A1`: the letter of its feature on the page, a number for each opening of it. */
  readonly tag: string;
  readonly middle: Point;
  /** Half of its width and height. */
  readonly half: Point;
  /** `dia 6.6`, `slot 30 x 4.5`, `44 x 10.6 R1.59`. */
  readonly size: string;
  readonly name: string;
}

/** Every opening of a plate once, under the letters of its features, each letter from the left to the right. */
export function openingTable(plate: Plate): OpeningRow[] {
  const box = bounds(plate.region.outer);
  const origin = { x: box.minX, y: box.minY };
  const listed = new Set<number>();
  return featureGroups(plate).flatMap(({ letter, name, openings }) => {
    const own = openings.filter((index) => !listed.has(index));
    for (const index of own) listed.add(index);
    return own
      .map((index) => plate.region.openings[index])
      .filter((contour) => contour !== undefined)
      .map((contour) => ({
        middle: middleOf(contour, origin),
        half: halfOf(contour),
        size: sizeText(contour),
        name,
      }))
      .sort((a, b) => a.middle.x - b.middle.x || a.middle.y - b.middle.y)
      .map((opening, number) => ({ ...opening, tag: `${letter}${number + 1}` }));
  });
}

/** Radii of an outline with how often each comes, `R10 x 4, R1.59 x 12`; empty without arcs. */
export function radiiText(contour: Contour): string {
  const circle = asCircle(contour);
  if (circle !== undefined) return `circle, dia ${length(2 * circle.radius)}`;
  const counts = new Map<string, number>();
  for (const piece of segments(contour)) {
    if (piece.kind !== "arc") continue;
    const text = `R${length(piece.radius)}`;
    counts.set(text, (counts.get(text) ?? 0) + 1);
  }
  return [...counts].map(([text, count]) => (count === 1 ? text : `${text} x ${count}`)).join(", ");
}

/** A length as drawings state it: thousandths, because half a cutter of 3.175 mm has them; no trailing zeros. */
export function length(value: number): string {
  const text = value.toFixed(3).replace(/\.?0+$/, "");
  return text === "-0" ? "0" : text;
}

function middleOf(contour: Contour, origin: Point): Point {
  const circle = asCircle(contour);
  const box = bounds(contour);
  const at = circle?.center ?? { x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 };
  return { x: at.x - origin.x, y: at.y - origin.y };
}

function halfOf(contour: Contour): Point {
  const box = bounds(contour);
  return { x: (box.maxX - box.minX) / 2, y: (box.maxY - box.minY) / 2 };
}

function sizeText(contour: Contour): string {
  const circle = asCircle(contour);
  if (circle !== undefined) return `dia ${length(2 * circle.radius)}`;
  const slot = asSlot(contour);
  if (slot !== undefined) {
    const turned = slot.degrees === 0 ? "" : ` at ${length(slot.degrees)} deg`;
    return `slot ${length(slot.length)} x ${length(slot.width)}${turned}`;
  }
  const box = tightBox(contour);
  const radii = new Set(
    segments(contour).flatMap((piece) => (piece.kind === "arc" ? [`R${length(piece.radius)}`] : [])),
  );
  const flat = Math.round(box.degrees * 100) / 100;
  const turned = flat === 0 || flat === 90 ? "" : ` at ${length(flat)} deg`;
  const size = `${length(box.length)} x ${length(box.width)}${turned}`;
  return radii.size === 0
    ? size
    : `${size} ${[...radii].slice(0, 3).join(" ")}${radii.size > 3 ? " .." : ""}`;
}

interface Slot {
  /** Over both round ends, mm. */
  readonly length: number;
  readonly width: number;
  /** Direction of the length, 0 to 180. */
  readonly degrees: number;
}

/** Two equal parallel lines joined by two half circles. */
function asSlot(contour: Contour): Slot | undefined {
  const pieces = segments(contour);
  const [a, b] = pieces.filter((piece) => piece.kind === "line");
  const arcs = pieces.filter((piece) => piece.kind === "arc");
  const [end] = arcs;
  if (pieces.length !== 4 || arcs.length !== 2 || a === undefined || b === undefined || end === undefined)
    return undefined;
  if (arcs.some((arc) => Math.abs(Math.abs(arc.sweep) - Math.PI) > 1e-6)) return undefined;
  const [dx, dy] = [a.to.x - a.from.x, a.to.y - a.from.y];
  if (Math.hypot(dx + b.to.x - b.from.x, dy + b.to.y - b.from.y) > 1e-6) return undefined;
  const degrees = ((((Math.atan2(dy, dx) * 180) / Math.PI) % 180) + 180) % 180;
  const flat = Math.round(degrees * 100) / 100;
  return {
    length: Math.hypot(dx, dy) + 2 * end.radius,
    width: 2 * end.radius,
    degrees: flat === 180 ? 0 : flat,
  };
}
