import type { Finding, Region } from "@keelcut/geometry";
import { assemble } from "./assemble.js";
import { readDxf } from "./read-dxf.js";
import { defaultReadOptions, importFinding, type ReadFile, type ReadOptions } from "./read-file.js";
import { readSvg } from "./read-svg.js";

export interface ImportOptions extends ReadOptions {
  /** Ends closer than this are joined, mm. */
  readonly joinTolerance: number;
  /** Only these layers (DXF) or groups with these ids (SVG); all when absent. Case does not matter. */
  readonly layers?: readonly string[];
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
  const shapes = file.shapes.filter((shape) => wanted(shape.layer, options.layers));
  const { regions, findings } = assemble(shapes, options.joinTolerance);
  const all = [...file.findings, ...findings];
  const left = file.shapes.length - shapes.length;
  if (left > 0) {
    all.push(
      importFinding(
        "layer",
        "note",
        "file",
        `${left} shapes on other layers than ${options.layers?.join(", ")} left out`,
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

function wanted(layer: string, layers: readonly string[] | undefined): boolean {
  return layers === undefined || layers.some((name) => name.toLowerCase() === layer.toLowerCase());
}
