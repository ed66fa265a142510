import {
  compensateRegion,
  type Finding,
  type Mark,
  type Path,
  type Plate,
  type Point,
  type Region,
} from "@keelcut/geometry";
import type { SizeState } from "./drawing.js";
import { missingLetters, strokeText, strokeTextWidth } from "./strokes.js";

export type RegionResult =
  | { readonly ok: true; readonly region: Region }
  | { readonly ok: false; readonly findings: readonly Finding[] };

/**
 * The contours to cut for a plate: its own, or moved by half a kerf, so that outlines grow and openings shrink.
 *
 * A printed template is never compensated: it is cut by hand along its line.
 */
export function cutRegion(plate: Plate, size: SizeState): RegionResult {
  if (size.state === "nominal" || plate.made === "printed") return { ok: true, region: plate.region };
  const compensated = compensateRegion(plate.region, size.kerf);
  if (compensated.ok) return { ok: true, region: compensated.region };
  return {
    ok: false,
    findings: compensated.faults.map((fault) => {
      const where = fault.contour === "outline" ? "the outline" : openingName(plate, fault.contour);
      return {
        id: "files.compensation",
        severity: "error",
        place: plate.id,
        message: `${where} ${fault.what} near x ${fault.at.x.toFixed(2)}, y ${fault.at.y.toFixed(2)} when moved by half of kerf ${size.kerf} mm: widen it or use a narrower cut`,
        measured: size.kerf,
        why: "a contour the cutter cannot follow cannot be cut to size",
        source: "geometry: the contour moved by half a kerf",
      };
    }),
  };
}

/** The plate's own marks as strokes in the plate's frame; a text with characters that have no strokes is reported. */
export function markPaths(plate: Plate): { paths: Path[]; findings: Finding[] } {
  const paths: Path[] = [];
  const findings: Finding[] = [];
  for (const mark of plate.marks) {
    const missing = mark.kind === "text" ? missingLetters(mark.text) : [];
    if (missing.length > 0) findings.push(noStrokes(plate.id, missing));
    else paths.push(...markStrokes(mark));
  }
  return { paths, findings };
}

/**
 * One mark as strokes in the plate's frame.
 *
 * @throws RangeError for a text with a character that has no strokes.
 */
export function markStrokes(mark: Mark): readonly Path[] {
  if (mark.kind === "line") return [mark.path];
  const { text, height, rotation } = mark;
  return strokeText(text, textStart(mark), height, rotation).strokes;
}

/** Where the base line of a text begins. */
export function textStart({ text, at, atEnd, height, rotation }: TextMark): Point {
  if (atEnd !== true) return at;
  const width = strokeTextWidth(text, height);
  const turn = (rotation * Math.PI) / 180;
  return { x: at.x - width * Math.cos(turn), y: at.y - width * Math.sin(turn) };
}

type TextMark = Extract<Mark, { kind: "text" }>;

/** A finding that a text is left out because some characters have no strokes. */
export function noStrokes(place: string, missing: readonly string[]): Finding {
  return {
    id: "files.mark-left-out",
    severity: "note",
    place,
    message: `a mark is left out: no strokes for ${missing.map((letter) => `"${letter}"`).join(", ")}; use printable ASCII`,
    why: "shops refuse live text, so marks are drawn in single strokes",
    source: "common practice of cutting shops: text as paths only",
  };
}

function openingName(plate: Plate, index: number): string {
  const feature = plate.features.find((candidate) => candidate.contour === index);
  return feature === undefined ? `opening ${index}` : `opening ${index} (${feature.name})`;
}
