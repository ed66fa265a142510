import type { Contour, Finding, Path } from "@keelcut/geometry";

/** What an entity is for; the shop profile says what the layer is called in a file. */
export type Layer = "outline" | "opening" | "mark" | "stock";

/** The layers in the order a layer list shows them. */
export const layers: readonly Layer[] = ["opening", "outline", "mark", "stock"];

export type Entity =
  | { readonly kind: "contour"; readonly layer: Layer; readonly contour: Contour }
  | { readonly kind: "path"; readonly layer: Layer; readonly path: Path };

/**
 * One file's worth of lines, before any format: both writers draw exactly this.
 *
 * Millimetres, y up, every coordinate >= 0, entities in the order they are to be cut.
 */
export interface Drawing {
  readonly title: string;
  readonly unit: "mm";
  readonly entities: readonly Entity[];
  /** The facts a shop needs, also drawn outside the stock's edge when marks are allowed. */
  readonly note: readonly string[];
  /** Extent from the origin, mm. */
  readonly width: number;
  readonly height: number;
}

/** A drawing, or the reasons why the plates cannot be drawn as asked. `findings` of a drawing are warnings and notes. */
export type DrawingResult =
  | { readonly ok: true; readonly drawing: Drawing; readonly findings: readonly Finding[] }
  | { readonly ok: false; readonly findings: readonly Finding[] };

/** Whether contours are the plates' own size, or moved by half a kerf so that the cut piece comes out to size. */
export type SizeState =
  | { readonly state: "nominal" }
  | {
      readonly state: "compensated";
      /** Width the cut removes, mm. */
      readonly kerf: number;
    };

export interface DrawingOptions {
  readonly size: SizeState;
  /** Draw names, arrows, the plates' own marks and the note. */
  readonly marks: boolean;
  /** Draw the stock's outline, its keep-outs and the note on the reference layer. */
  readonly stockOutline: boolean;
  /** Text that names a plate on the sheet; its id when absent. */
  readonly label?: (plateId: string) => string;
}

/** `nominal size, not compensated` or `compensated for kerf 3.175 mm`: the words of the note and the page. */
export function describeSize(size: SizeState): string {
  return size.state === "nominal"
    ? "nominal size, not compensated"
    : `compensated for kerf ${size.kerf} mm, cut on the line`;
}

/** How many open strokes of marks and of the note a drawing holds: what the job record keeps for `prove`. */
export function strokeCounts(drawing: Drawing): { markStrokes: number; noteStrokes: number } {
  const paths = drawing.entities.filter((entity) => entity.kind === "path");
  return {
    markStrokes: paths.filter((entity) => entity.layer === "mark").length,
    noteStrokes: paths.filter((entity) => entity.layer === "stock").length,
  };
}
