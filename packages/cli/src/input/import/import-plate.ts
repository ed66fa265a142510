import type { Finding, Region } from "@keelcut/geometry";
import { assemble } from "./assemble.js";
import { readDxf } from "./read-dxf.js";
import {
  defaultReadOptions,
  importFinding,
  type ReadFile,
  type ReadOptions,
  type ReadShape,
} from "./read-file.js";
import { readSvg } from "./read-svg.js";

export interface ImportOptions extends ReadOptions {
  /** Ends closer than this are joined, mm. */
  readonly joinTolerance: number;
}

/** 0.05 mm: importers of cutting shops close gaps of 0.025 to 0.051 mm. */
export const defaultImportOptions: ImportOptions = { ...defaultReadOptions, joinTolerance: 0.05 };

export interface Imported {
  readonly regions: readonly Region[];
  readonly findings: readonly Finding[];
}

/** Reads the regions of a DXF or SVG text, told apart by its first character. Never throws on bad input. */
export function importRegions(text: string, options: ImportOptions = defaultImportOptions): Imported {
  const file = readDrawing(text, options);
  const { shapes } = file;
  const { regions, findings } = assemble(shapes, options.joinTolerance);
  const all = [...file.findings, ...findings];
  all.push(...missingLayers(file, options.layers ?? []));
  const left = file.leftOut.length;
  if (left > 0) {
    all.push(
      importFinding(
        "layer",
        "note",
        "file",
        `${left} ${left === 1 ? "thing" : "things"} on other layers than ${options.layers?.join(", ")} left out`,
      ),
    );
  }
  const fitted = shapes.filter((shape) => shape.fitError !== undefined);
  if (fitted.length > 0) {
    const message = `${fitted.length} curves that are no arcs are replaced by arcs within ${options.fitError} mm`;
    all.push({
      ...importFinding("fitted", "note", fitted[0]?.place ?? "file", message),
      limit: options.fitError,
    });
  }
  if (regions.length === 0 && !all.some((finding) => finding.severity === "error")) {
    all.push(importFinding("nothing", "error", "file", "there is no closed contour in the file"));
  }
  return { regions, findings: all };
}

/** A file as its reader understands it, before contours are assembled. */
export function readDrawing(text: string, options: ReadOptions = defaultReadOptions): ReadFile {
  return text
    .replace(/^\uFEFF/, "")
    .trimStart()
    .startsWith("<")
    ? readSvg(text, options)
    : readDxf(text, options);
}

/** The layer of a shape; in an SVG file all groups it lies in. */
function namesOf({ layer, within = [] }: ReadShape): readonly string[] {
  return [layer, ...within];
}

/** Layers asked for that the file does not know: a misspelt one would leave out its holes. */
function missingLayers({ shapes, leftOut, named }: ReadFile, layers: readonly string[]): Finding[] {
  const there = [...new Set([...named, ...shapes.flatMap(namesOf), ...leftOut])].filter(
    (name) => name !== "",
  );
  const known = new Set(there.map((name) => name.toLowerCase()));
  return layers
    .filter((name) => !known.has(name.toLowerCase()))
    .map((name) =>
      importFinding(
        "layer",
        "error",
        "file",
        `there is no layer "${name}"; the file has ${there.length === 0 ? "none with a name" : there.join(", ")}`,
      ),
    );
}
