import {
  bounds,
  type Contour,
  type Finding,
  locateInRegion,
  pathSegments,
  pointAt,
  type Region,
} from "@keelcut/geometry";
import type { ReadShape } from "../input/import/read-file.js";
import { sameCurve, WRITTEN } from "./compare-contours.js";
import { doubledStrokes } from "./line-faults.js";
import { proofFinding } from "./prove-finding.js";

/** Marks must lie on plates, clear of every cut; there are as many as were drawn. */
export function markFaults(
  file: string,
  shapes: readonly ReadShape[],
  regions: readonly Region[],
  strokes: number,
): Finding[] {
  const findings = [...doubledStrokes(file, shapes), ...countFault(file, "mark", shapes.length, strokes)];
  const boxes = regions.map((region) => bounds(region.outer));
  for (const shape of shapes) {
    const points = strokePoints(shape);
    const home = regions.findIndex((region, index) => {
      const box = boxes[index];
      const inBox = points.every(
        (p) => box !== undefined && p.x >= box.minX && p.x <= box.maxX && p.y >= box.minY && p.y <= box.maxY,
      );
      return inBox && points.every((p) => locateInRegion(region, p) === "inside");
    });
    if (home >= 0) continue;
    findings.push(
      proofFinding("mark", `${file}, ${shape.place}`, "a mark does not lie on one plate, clear of its cuts"),
    );
  }
  return findings;
}

/** The stock layer holds the stock's outline and keep-outs, each once, and the note outside the edge; nothing else. */
export function stockFaults(
  file: string,
  shapes: readonly ReadShape[],
  wanted: readonly Contour[],
  strokes: number,
): Finding[] {
  const closed = shapes.filter((shape) => shape.closed);
  const open = shapes.filter((shape) => !shape.closed);
  const findings = [...doubledStrokes(file, open), ...countFault(file, "note", open.length, strokes)];
  const free = new Set(closed);
  for (const contour of wanted) {
    const match = [...free].find((shape) => sameCurve(shape.vertices, contour).distance <= WRITTEN);
    if (match !== undefined) free.delete(match);
    else {
      const message =
        "the outline of the stock or of a keep-out is missing or changed on the reference layer";
      findings.push(proofFinding("stock", file, message));
    }
  }
  for (const shape of free) {
    const message = `${shape.source} on the reference layer is neither the stock nor a keep-out`;
    findings.push(proofFinding("extra", `${file}, ${shape.place}`, message));
  }
  return findings;
}

/** Strokes of the note that reach below `top`, where the stock or the plate is. */
export function noteFaults(file: string, shapes: readonly ReadShape[], top: number): Finding[] {
  return shapes
    .filter((shape) => !shape.closed && shape.vertices.some((vertex) => vertex.y < top - WRITTEN))
    .map((shape) =>
      proofFinding("note", `${file}, ${shape.place}`, "the note must lie outside the stock's edge"),
    );
}

function countFault(file: string, what: string, found: number, wanted: number): Finding[] {
  if (found === wanted) return [];
  return [
    proofFinding(`${what}-strokes`, file, `${found} strokes of ${what}s, expected ${wanted}`, found, wanted),
  ];
}

function strokePoints(shape: ReadShape): { x: number; y: number }[] {
  const pieces = pathSegments({ vertices: shape.vertices, closed: shape.closed });
  return pieces.flatMap((piece) => [0, 0.25, 0.5, 0.75, 1].map((t) => pointAt(piece, t)));
}
