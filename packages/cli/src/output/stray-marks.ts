import {
  type Finding,
  locateInRegion,
  type Mark,
  type Plate,
  type Point,
  pathSegments,
  pointAt,
  segmentLength,
} from "@keelcut/geometry";
import { markStrokes } from "./plate-cuts.js";
import { missingLetters } from "./strokes.js";

/** A mark that comes nearer to a cut than this runs into it, mm. */
const CLEAR = 0.1;

/** Marks that leave the plate they are drawn on, or run into one of its openings: what is cut away cannot be read. */
export function strayMarks(plate: Plate): readonly Finding[] {
  if (plate.made !== "cut") return [];
  return plate.marks.flatMap((mark): Finding[] => {
    const stray = pointsOf(mark).find((point) => locateInRegion(plate.region, point, CLEAR) !== "inside");
    if (stray === undefined) return [];
    const where = `x ${stray.x.toFixed(1)}, y ${stray.y.toFixed(1)}`;
    return [
      {
        id: "plate.stray-mark",
        severity: "error",
        place: plate.id,
        message: `${nameOf(mark)} leaves the plate, or runs into an edge or an opening, at ${where} mm: end it inside, or make it smaller`,
        why: "a mark across a cut is cut in two, and a shop cannot tell whether it is to be cut as well",
        source: "geometry: the mark against the plate's contours",
      },
    ];
  });
}

function nameOf(mark: Mark): string {
  if (mark.kind === "text") return `the text "${mark.text}"`;
  const [from, to] = [mark.path.vertices[0], mark.path.vertices.at(-1)].map((point) =>
    point === undefined ? "" : `(${point.x.toFixed(1)}, ${point.y.toFixed(1)})`,
  );
  return `the line from ${from} to ${to}`;
}

/** Points along a mark, close enough to meet every opening that can be cut. */
function pointsOf(mark: Mark): readonly Point[] {
  if (mark.kind === "text" && missingLetters(mark.text).length > 0) return [];
  return markStrokes(mark).flatMap((path) =>
    pathSegments(path).flatMap((piece) => {
      const steps = Math.max(4, Math.ceil(segmentLength(piece)));
      return Array.from({ length: steps + 1 }, (_, k) => pointAt(piece, k / steps));
    }),
  );
}
