import type { Contour, Finding, Path } from "@keelcut/geometry";
import type { BridgeOptions } from "../bridges/bridge-places.js";

/** What an entity is for; the shop profile says what the layer is called in a file. */
export type Layer = "outline" | "opening" | "mark" | "stock";

/** The layers in the order a layer list shows them. */
export const layers: readonly Layer[] = ["opening", "outline", "mark", "stock"];

export type Entity =
  | { readonly kind: "contour"; readonly layer: Layer; readonly contour: Contour }
  | {
      readonly kind: "path";
      readonly layer: Layer;
      readonly path: Path;
      /** Set on a stroke of the mark layer that shows, in waste material, where a cut begins. */
      readonly leadIn?: true;
    };

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
  | {
      readonly state: "nominal";
      /** Widest cut the layout leaves room for, mm; not said when absent. */
      readonly widestCut?: number;
    }
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
  /** Texts that name a plate, the fullest first: the first that fits is drawn. Its id when absent. */
  readonly labels?: (plateId: string) => readonly string[];
  /** Interrupts cut lines, so that plates stay in the sheet until somebody cuts them free. */
  readonly bridges?: BridgeOptions;
  /** Shows where to begin each cut. */
  readonly leadIns?: LeadInWish;
}

export interface LeadInWish {
  /** Longest stroke through waste material, mm. */
  readonly length: number;
  /** Half the width of the cut, mm: what goes along a stroke takes that much on both sides of it. */
  readonly cutRadius: number;
}

/** `for cuts up to 3 mm wide`, where the shop offsets its cutter: plates lie no farther apart than that and the gap. */
export function describeWidest(size: SizeState): readonly string[] {
  const widest = size.state === "nominal" ? size.widestCut : undefined;
  return widest === undefined ? [] : [`for cuts up to ${widest} mm wide`];
}

/** `nominal size, not compensated` or `compensated for kerf 3.175 mm`: the words of the note and the page. */
export function describeSize(size: SizeState): string {
  return size.state === "nominal"
    ? "nominal size, not compensated"
    : `compensated for kerf ${size.kerf} mm, cut on the line`;
}

/** How many open strokes a drawing holds beside its cuts: what the job record keeps for `prove`. */
export interface StrokeCounts {
  readonly markStrokes: number;
  readonly noteStrokes: number;
  readonly leadIns: number;
}

export function strokeCounts(drawing: Drawing): StrokeCounts {
  const paths = drawing.entities.filter((entity) => entity.kind === "path");
  const marks = paths.filter((entity) => entity.layer === "mark");
  const leadIns = marks.filter((entity) => entity.leadIn === true).length;
  return {
    markStrokes: marks.length - leadIns,
    noteStrokes: paths.filter((entity) => entity.layer === "stock").length,
    leadIns,
  };
}
