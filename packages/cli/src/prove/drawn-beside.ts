import {
  type Box,
  bounds,
  type Contour,
  type Finding,
  locate,
  type Point,
  pathSegments,
  pointAt,
  type Region,
} from "@keelcut/geometry";
import type { ReadShape } from "../input/import/read-file.js";
import { sameCurve, WRITTEN } from "./compare-contours.js";
import { doubledStrokes } from "./line-faults.js";
import { proofFinding } from "./prove-finding.js";

/**
 * Marks must lie on plates, clear of every cut; there are as many as were drawn. On a printed template, which nothing
 * cuts, a line may run to the edge.
 */
export function markFaults(
  file: string,
  shapes: readonly ReadShape[],
  regions: readonly Region[],
  strokes: number,
  printed: boolean,
): Finding[] {
  const findings = [...doubledStrokes(file, shapes), ...countFault(file, "mark", shapes.length, strokes)];
  const materials = regions.map(materialOf);
  for (const shape of shapes) {
    const points = strokePoints(shape);
    const home = materials.findIndex((material) =>
      points.every((point) => isInside(material, point, printed)),
    );
    if (home >= 0) continue;
    findings.push(
      proofFinding("mark", `${file}, ${shape.place}`, "a mark does not lie on one plate, clear of its cuts"),
    );
  }
  return findings;
}

interface Ring {
  readonly contour: Contour;
  readonly box: Box;
}

interface Material {
  readonly outline: Ring;
  readonly openings: readonly Ring[];
}

function materialOf(region: Region): Material {
  const ring = (contour: Contour): Ring => ({ contour, box: bounds(contour) });
  return { outline: ring(region.outer), openings: region.openings.map(ring) };
}

function isInside({ outline, openings }: Material, point: Point, printed: boolean): boolean {
  if (!inBox(outline.box, point)) return false;
  const side = locate(outline.contour, point, WRITTEN);
  if (side === "outside" || (side === "on" && !printed)) return false;
  const hit = openings.find(({ contour, box }) => inBox(box, point) && locate(contour, point) !== "outside");
  return hit === undefined;
}

function inBox(box: Box, { x, y }: Point): boolean {
  const [minX, minY] = [box.minX - WRITTEN, box.minY - WRITTEN];
  return x >= minX && x <= box.maxX + WRITTEN && y >= minY && y <= box.maxY + WRITTEN;
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
