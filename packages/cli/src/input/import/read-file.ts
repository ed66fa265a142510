import type { Finding, Severity, Vertex } from "@keelcut/geometry";

/** One line or contour as a file holds it, in millimetres, y up, before ends are joined or contours sorted. */
export interface ReadShape {
  /** Layer of a DXF file, or id of the nearest group with one in an SVG file; empty when there is none. */
  readonly layer: string;
  /** Ids of the groups of an SVG file around that one, innermost first. */
  readonly within?: readonly string[];
  /** Where it stands in the file, for a person, for example `LWPOLYLINE in line 312`. */
  readonly place: string;
  /** What it was in the file, for example `LWPOLYLINE` or `path`. */
  readonly source: string;
  readonly vertices: readonly Vertex[];
  readonly closed: boolean;
  /** Name of the block it was expanded from, the innermost one. */
  readonly block?: string;
  /** Set when curves that are no arcs were replaced by arcs: the largest error, mm. */
  readonly fitError?: number;
}

/** What a reader found in a file. `findings` holds everything that was not understood, with its place. */
export interface ReadFile {
  readonly format: "dxf" | "svg";
  /** Millimetres per unit of the file. */
  readonly scale: number;
  /** False when the file does not say its unit and the scale is a guess. */
  readonly unitStated: boolean;
  readonly shapes: readonly ReadShape[];
  /** For each thing that was not read because of its layer, that layer. */
  readonly leftOut: readonly string[];
  /** Layers that the file names, or ids of its groups, whatever lies there. */
  readonly named: readonly string[];
  readonly findings: readonly Finding[];
  /** The drawing's size as the file itself states it, mm, when it does. */
  readonly stated?: {
    readonly minX: number;
    readonly minY: number;
    readonly maxX: number;
    readonly maxY: number;
  };
}

export interface ReadOptions {
  /** Largest error when ellipses and splines are replaced by arcs, mm. */
  readonly fitError: number;
  /** Millimetres per unit when a file does not say. */
  readonly unitlessScale: number;
  /** Millimetres per unit as whoever names the file says: it holds against what the file says, with a warning. */
  readonly unit?: number;
  /** Only these layers (DXF) or groups with these ids (SVG); all when absent. Case does not matter. */
  readonly layers?: readonly string[];
}

/** Whether what lies on a layer, or in groups, of these names is asked for. */
export function isAskedFor(names: readonly string[], { layers }: ReadOptions): boolean {
  if (layers === undefined) return true;
  const own = names.map((name) => name.toLowerCase());
  return layers.some((name) => own.includes(name.toLowerCase()));
}

export const defaultReadOptions: ReadOptions = { fitError: 0.01, unitlessScale: 1 };

/** Input limits: a larger file is refused before it is parsed. */
export const LARGEST_DXF = 40_000_000;
export const LARGEST_SVG = 10_000_000;
/** Blocks in blocks and groups in groups, deeper than any drawing made by hand. */
export const DEEPEST = 64;
/** Shapes after blocks are expanded. */
export const MOST_SHAPES = 200_000;

/** A file that says another unit than whoever names it. All mm. */
export function otherUnit(ofFile: number, asked: number, place: string): Finding {
  const message = `the file says that one unit is ${Number(ofFile.toPrecision(6))} mm, but ${asked} mm are used, as unit says`;
  return importFinding("unit", "warning", place, message);
}

/** A finding of a reader. */
export function importFinding(what: string, severity: Severity, place: string, message: string): Finding {
  return {
    id: `import.${what}`,
    severity,
    place,
    message,
    why: "what is read wrongly is cut wrongly",
    source: "file formats: DXF reference, SVG 1.1",
  };
}
