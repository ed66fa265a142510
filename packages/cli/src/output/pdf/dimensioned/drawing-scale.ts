import { papers } from "../tiles.js";

/** Scales of technical drawings, largest first (ISO 5455). */
const SCALES = [
  [5, 1],
  [2, 1],
  [1, 1],
  [1, 2],
  [1, 5],
  [1, 10],
  [1, 20],
  [1, 50],
] as const;

/** A page for a plate: across, its regions in mm from its lower-left corner. */
export interface DrawingPage {
  readonly width: number;
  readonly height: number;
  readonly scale: number;
  /** `1:2` */
  readonly scaleText: string;
  /** Free room for the plate and its dimension lines. */
  readonly room: { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
  /** The strip at the right for tables. */
  readonly tables: { readonly x: number; readonly width: number };
}

const MARGIN = 10;
const TABLES = 104;
/** Room the dimension lines take on the left and below. */
export const DIMENSIONS = 16;

/** A4 across, or A3 when that gives a plate below half size a larger scale. */
export function drawingPage(width: number, height: number): DrawingPage {
  const small = pageOn("A4", width, height);
  if (small.scale >= 0.5) return small;
  const large = pageOn("A3", width, height);
  return large.scale > small.scale ? large : small;
}

function pageOn(paper: "A4" | "A3", width: number, height: number): DrawingPage {
  const { width: pageHeight, height: pageWidth } = papers[paper];
  const room = {
    x: MARGIN,
    y: MARGIN,
    width: pageWidth - 2 * MARGIN - TABLES - 6,
    height: pageHeight - 2 * MARGIN,
  };
  const fits = ([up, down]: readonly [number, number]): boolean =>
    (width * up) / down <= room.width - DIMENSIONS - 2 &&
    (height * up) / down <= room.height - DIMENSIONS - 2;
  const [up, down] = SCALES.find(fits) ?? SCALES[SCALES.length - 1] ?? [1, 1];
  return {
    width: pageWidth,
    height: pageHeight,
    scale: up / down,
    scaleText: `${up}:${down}`,
    room,
    tables: { x: pageWidth - MARGIN - TABLES, width: TABLES },
  };
}
