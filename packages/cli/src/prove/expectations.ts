import type { Contour, Placement, Point, Region } from "@keelcut/geometry";

/** What a job's record says its files must hold. All lengths mm. */
export interface Expectations {
  readonly size: ExpectedSize;
  /** Least distance between two plates in nominal size, and between a plate and a keep-out. */
  readonly clearance: number;
  /** Least distance between a plate in nominal size and the stock's outline. */
  readonly edgeMargin: number;
  /** Half the width of the cut, mm. */
  readonly cutRadius: number;
  readonly layers: ExpectedLayers;
  /** Length of the gap in a cut line where a bridge stays, mm: the bridge's width and the kerf. Absent without bridges. */
  readonly bridgeGap?: number;
  /** Formats every drawing is written in. */
  readonly formats: readonly Format[];
  readonly plates: readonly ExpectedPlate[];
  readonly sheets: readonly ExpectedSheet[];
  readonly plateFiles: readonly ExpectedPlateFile[];
}

export type Format = "dxf" | "svg";

export type ExpectedSize =
  | { readonly state: "nominal" }
  | { readonly state: "compensated"; readonly kerf: number };

/** Names of the layers in the files; `opening` equals `outline` when all cuts share one layer. */
export interface ExpectedLayers {
  readonly outline: string;
  readonly opening: string;
  readonly mark: string;
  readonly stock: string;
}

export interface ExpectedPlate {
  readonly id: string;
  /** Nominal region in the plate's own frame. */
  readonly region: Region;
  /** Copies all sheets together must give: kits x copies in a kit + spares. */
  readonly copies: number;
  /** A printed template is drawn in its own files only, never compensated. */
  readonly printed?: boolean;
  /** Where its cut lines are interrupted. */
  readonly bridges?: readonly ExpectedBridge[];
}

/** Middle of one bridge, on the nominal contour in the plate's own frame. */
export interface ExpectedBridge {
  readonly part: "outline" | number;
  readonly at: Point;
}

export interface ExpectedSheet {
  /** Name of its files without folder and ending, for example `pe-hd-10mm-01-x3`. */
  readonly name: string;
  readonly stockOutline: Contour;
  readonly keepOuts: readonly Contour[];
  /** How often the sheet is cut. */
  readonly times: number;
  readonly placements: readonly (Placement & { readonly plate: string })[];
  readonly reference: ExpectedReference;
}

/** What is drawn beside the cuts. */
export interface ExpectedReference {
  /** The stock's outline and keep-outs are drawn. */
  readonly stock: boolean;
  /** Open strokes on the mark layer, and on the stock layer as the note. */
  readonly markStrokes: number;
  readonly noteStrokes: number;
  /** Short strokes on the mark layer, in waste material, that end where a cut begins. */
  readonly leadIns: number;
}

export interface ExpectedPlateFile {
  /** Name of its files without folder and ending, for example `deck-pe-hd-10mm-x2`. */
  readonly name: string;
  readonly plate: string;
  /** Copies to cut in all, as the file's name says. */
  readonly quantity: number;
  readonly reference: Omit<ExpectedReference, "stock">;
}

/** Half the kerf when contours are compensated, else 0: how far a cut line lies from the nominal contour. */
export function cutOffset(size: ExpectedSize): number {
  return size.state === "compensated" ? size.kerf / 2 : 0;
}
