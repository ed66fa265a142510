import type { Path, Point } from "@keelcut/geometry";
import type { Drawing, Entity, Layer } from "../drawing.js";
import { drawingExtent } from "../drawing-extent.js";
import { layerColours } from "../layer-names.js";
import { footPaths, frameOrigin, joinMarks } from "./page-furniture.js";
import { newPdf } from "./pdf-document.js";
import { POINTS, tracePath } from "./pdf-pen.js";
import { type Paper, type Tile, type Tiling, tilingOf } from "./tiles.js";

/** Line widths on paper, mm. */
const WIDTHS: Readonly<Record<Layer, number>> = { outline: 0.25, opening: 0.25, mark: 0.18, stock: 0.18 };
const FURNITURE = { colour: "#000000", width: 0.15 };

/**
 * Drawings at 1:1 on paper, for those who cut by hand or check before they order: as many pages as each needs, with
 * join marks in the overlaps and a 100 mm check bar on every page. The same bytes for the same drawings.
 *
 * Marks on the reference layer, the note among them, are left out: the foot of each page says the same.
 *
 * @throws RangeError when there is nothing to print or a size is not finite.
 */
export function writePdf(drawings: readonly Drawing[], paper: Paper): Promise<Uint8Array> {
  if (drawings.length === 0) throw new RangeError("there is nothing to print");
  const { document, bytes } = newPdf("Keelcut plates at 1:1");
  for (const drawing of drawings) {
    const entities = drawing.entities.filter((entity) => entity.layer !== "stock");
    const { maxX, maxY } = drawingExtent(entities);
    if (!(Number.isFinite(maxX) && Number.isFinite(maxY) && maxX > 0 && maxY > 0)) {
      throw new RangeError(`"${drawing.title}" is ${maxX} x ${maxY} mm`);
    }
    const tiling = tilingOf(maxX, maxY, paper);
    for (const tile of tiling.tiles) drawPage(document, entities, drawing.note, tiling, tile);
  }
  document.end();
  return bytes;
}

function drawPage(
  document: PDFKit.PDFDocument,
  entities: readonly Entity[],
  note: readonly string[],
  tiling: Tiling,
  tile: Tile,
): void {
  const { pageWidth, pageHeight } = tiling;
  document.addPage({ size: [pageWidth * POINTS, pageHeight * POINTS], margin: 0 });
  const onPage = ({ x, y }: Point): Point => ({ x: x * POINTS, y: (pageHeight - y) * POINTS });
  const origin = frameOrigin();
  const inFrame = ({ x, y }: Point): Point => onPage({ x: x - tile.x + origin.x, y: y - tile.y + origin.y });
  stroke(document, footPaths(tiling, tile, note), FURNITURE.colour, FURNITURE.width, onPage);
  const corner = onPage({ x: origin.x, y: origin.y + tiling.height });
  document.save();
  document.rect(corner.x, corner.y, tiling.width * POINTS, tiling.height * POINTS).clip();
  stroke(document, joinMarks(tiling, tile), FURNITURE.colour, FURNITURE.width, inFrame);
  for (const layer of ["mark", "opening", "outline"] as const) {
    const paths = entities.filter((entity) => entity.layer === layer).map(pathOf);
    stroke(document, paths, layerColours[layer], WIDTHS[layer], inFrame);
  }
  document.restore();
}

function stroke(
  document: PDFKit.PDFDocument,
  paths: readonly Path[],
  colour: string,
  width: number,
  map: (point: Point) => Point,
): void {
  if (paths.length === 0) return;
  document
    .lineWidth(width * POINTS)
    .lineCap("butt")
    .lineJoin("round")
    .strokeColor(colour);
  for (const path of paths) tracePath(document, path, map);
  document.stroke();
}

function pathOf(entity: Entity): Path {
  return entity.kind === "path" ? entity.path : { vertices: entity.contour, closed: true };
}
