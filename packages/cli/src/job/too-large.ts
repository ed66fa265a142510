import { bounds, type Finding, flatten, type Plate, type Point } from "@keelcut/geometry";
import type { Stock } from "@keelcut/nesting";
import { numberText } from "../screen/number-text.js";

/** Angles tried for a plate that may be turned anyhow, degrees apart. */
const step = 0.5;

/** Chords of the outline used for its extents, mm. */
const chordError = 0.1;

interface Size {
  readonly length: number;
  readonly width: number;
}

/**
 * Plates that no stock can hold however they are turned: certain without any packing, so that `check` can tell and a
 * search need not begin. A plate that only just does not fit is left to the packer.
 */
export function tooLarge(plates: readonly Plate[], stock: readonly Stock[], edgeMargin: number): Finding[] {
  const rooms = stock.map((each) => ({ id: each.id, room: roomOf(each, edgeMargin) }));
  return plates.flatMap((plate): Finding[] => {
    const fits = rooms.some(({ room }) => mayFit(plate, room));
    if (fits) return [];
    const box = sizeOf(plate.region.outer);
    const [largest] = rooms.toSorted((a, b) => b.room.length * b.room.width - a.room.length * a.room.width);
    const room =
      largest === undefined
        ? "there is no stock"
        : `the largest stock, ${largest.id}, leaves ${sizeText(largest.room)} mm inside its edge margin of ${edgeMargin} mm`;
    return [
      {
        id: "stock.plate-too-large",
        severity: "error",
        place: plate.id,
        message: `${plate.id} is ${sizeText(box)} mm and fits no stock however it is turned: ${room}`,
        measured: Math.max(box.length, box.width),
        ...(largest === undefined ? {} : { limit: Math.max(largest.room.length, largest.room.width) }),
        why: "a plate is cut from one piece",
        source: "stock list",
      },
    ];
  });
}

function roomOf(stock: Stock, edgeMargin: number): Size {
  const { length, width } = sizeOf(stock.outline);
  return { length: Math.max(0, length - 2 * edgeMargin), width: Math.max(0, width - 2 * edgeMargin) };
}

function sizeOf(outline: Parameters<typeof bounds>[0]): Size {
  const box = bounds(outline);
  return { length: box.maxX - box.minX, width: box.maxY - box.minY };
}

/** False only when certain: turning by half a step changes an extent by no more than the plate's reach times that angle. */
function mayFit(plate: Plate, room: Size): boolean {
  const points = flatten(plate.region.outer, chordError, "on");
  const { length, width } = sizeOf(plate.region.outer);
  const free = plate.rotations === "any";
  const angles = free
    ? Array.from({ length: Math.round(180 / step) }, (_, index) => index * step)
    : (plate.rotations as readonly number[]);
  const slack = free ? Math.hypot(length, width) * ((step / 2) * (Math.PI / 180)) : 0;
  return angles.some((angle) => {
    const turned = extents(points, angle);
    return (
      turned.length <= room.length + slack + chordError && turned.width <= room.width + slack + chordError
    );
  });
}

function extents(points: readonly Point[], degrees: number): Size {
  const [cos, sin] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
  let [minX, maxX, minY, maxY] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const { x, y } of points) {
    const [turnedX, turnedY] = [x * cos - y * sin, x * sin + y * cos];
    minX = Math.min(minX, turnedX);
    maxX = Math.max(maxX, turnedX);
    minY = Math.min(minY, turnedY);
    maxY = Math.max(maxY, turnedY);
  }
  return { length: maxX - minX, width: maxY - minY };
}

function sizeText(size: Size): string {
  return `${numberText(size.length, 1)} x ${numberText(size.width, 1)}`;
}
