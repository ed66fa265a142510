import { readFile, stat } from "node:fs/promises";
import { resolve } from "node:path";
import { type DrawnOutline, type Finding, type Region, regionBounds } from "@keelcut/geometry";
import type { FrameFile } from "./frame-file.js";
import type { OwnPlateFile } from "./frame-own-plates.js";
import { defaultImportOptions, importFinding, importRegions, LARGEST_DXF } from "./import/index.js";
import type { Problem } from "./input-error.js";
import { fieldText, type Located, nodeAt, type PathStep, placeText } from "./located.js";

/** By the units of the frame file. */
const MILLIMETRES = { mm: 1, cm: 10, m: 1000, in: 25.4, ft: 304.8 } as const;

/** What the drawings that own plates name hold. */
export interface DrawnPlates {
  /** By the plate's id. */
  readonly outlines: ReadonlyMap<string, DrawnOutline>;
  /** Every file read, absolute. */
  readonly files: readonly string[];
  /** Files that could not be read. What a file holds and cannot be understood is a finding of its outline. */
  readonly problems: readonly Problem[];
}

/** Reads every drawing that an own plate imports, relative to the file that names it. */
export async function readDrawnPlates(file: FrameFile, root: Located): Promise<DrawnPlates> {
  const outlines = new Map<string, DrawnOutline>();
  const files: string[] = [];
  const problems: Problem[] = [];
  for (const [index, plate] of file.plates.entries()) {
    const { import: source } = plate;
    if (source === undefined || plate.outline !== undefined) continue;
    const path: readonly PathStep[] = [
      "plates",
      index,
      "import",
      ...(typeof source === "string" ? [] : ["file"]),
    ];
    const { place } = nodeAt(root, path).node;
    const name = typeof source === "string" ? source : source.file;
    const absolute = resolve(place.origin.folder, name);
    const text = await readText(absolute);
    if (typeof text !== "string") {
      const message = `${name}: ${text.fault}`;
      problems.push({ where: placeText(place), field: fieldText(root, path), message });
      continue;
    }
    files.push(absolute);
    outlines.set(plate.id, drawnOutline(text, name, source));
  }
  return { outlines, files, problems };
}

function drawnOutline(text: string, file: string, source: NonNullable<OwnPlateFile["import"]>): DrawnOutline {
  const { layers, unit } = typeof source === "string" ? {} : source;
  const { regions, findings } = importRegions(text, {
    ...defaultImportOptions,
    ...(layers === undefined ? {} : { layers }),
    ...(unit === undefined ? {} : { unit: MILLIMETRES[unit] }),
  });
  const [region] = regions;
  if (region === undefined) return { kind: "drawn", file, findings };
  if (regions.length === 1) return { kind: "drawn", file, region, findings: [...findings, sizeRead(region)] };
  const message = `${regions.length} separate outlines, and a plate is one; put each in a file of its own, or name the layer of one (import: {file: ..., layers: [...]})`;
  const several = importFinding("several", "error", "file", message);
  return { kind: "drawn", file, findings: [...findings, several] };
}

/** How large the outline came out, and where it lies: a wrong unit or zero is seen at once. */
function sizeRead(region: Region): Finding {
  const { minX, maxX, minY, maxY } = regionBounds(region);
  const text = (value: number): string => String(Number(value.toFixed(3)));
  return importFinding(
    "size",
    "note",
    "file",
    `the outline is ${text(maxX - minX)} x ${text(maxY - minY)} mm and lies at x ${text(minX)} to ${text(maxX)}, y ${text(minY)} to ${text(maxY)}, from where tabs, holes and seats count`,
  );
}

/** Old drawings are not UTF-8: their texts are of no account here, so any byte is taken as a letter. */
async function readText(absolute: string): Promise<string | { readonly fault: string }> {
  try {
    const facts = await stat(absolute);
    if (!facts.isFile()) return { fault: "is not a file; name a DXF or SVG file" };
    if (facts.size > LARGEST_DXF) {
      return { fault: `has ${Math.ceil(facts.size / 1e6)} MB; a plate's drawing has less than 40` };
    }
    const bytes = await readFile(absolute);
    try {
      return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
    } catch {
      return new TextDecoder("latin1").decode(bytes);
    }
  } catch (error) {
    const code = error instanceof Error && "code" in error ? error.code : undefined;
    if (code === "ENOENT" || code === "ENOTDIR") return { fault: "there is no such file" };
    if (code === "EACCES" || code === "EPERM") return { fault: "may not be read: no permission" };
    if (typeof code === "string") return { fault: `could not be read (${code})` };
    throw error;
  }
}
