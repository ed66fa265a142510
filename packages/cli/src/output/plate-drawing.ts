import { bounds, type Finding, type Plate, placePath, placeRegion } from "@keelcut/geometry";
import { cutEntities, cutLinesOf } from "./cut-lines.js";
import { type DrawingOptions, type DrawingResult, describeSize, type Entity } from "./drawing.js";
import { drawingExtent } from "./drawing-extent.js";
import { leadInEntities, strokeEntities } from "./entities.js";
import { faceMarks } from "./face-marks.js";
import { leadInFindings, withLeadIns } from "./lead-ins.js";
import { noteStrokes } from "./note-strokes.js";
import { cutRegion } from "./plate-cuts.js";
import { sheetText } from "./sheet-text.js";

/** Letter height and least line width of a plate's note, mm. */
const NOTE_HEIGHT = 3;
const NOTE_WIDTH = 120;

/**
 * One plate at 1:1, its lower-left corner at the origin: openings before the outline.
 *
 * `quantity` is how many are to be cut in all, as the note says it.
 */
export function plateDrawing(plate: Plate, quantity: number, options: DrawingOptions): DrawingResult {
  const cut = cutRegion(plate, options.size);
  if (!cut.ok) return cut;
  const box = bounds(cut.region.outer);
  const home = { x: -box.minX, y: -box.minY, rotation: 0, mirrored: false };
  const region = placeRegion(cut.region, home);
  const findings: Finding[] = [];
  const entities: Entity[] = [];
  if (options.marks) {
    const marks = faceMarks(plate, cut.region, options.labels?.(plate.id) ?? [plate.id], false);
    findings.push(...marks.findings);
    entities.push(
      ...strokeEntities(
        marks.paths.map((path) => placePath(path, home)),
        "mark",
      ),
    );
  }
  const bridges = plate.made === "printed" ? [] : (options.bridges?.of(plate.id) ?? []);
  const { outline, openings } = cutLinesOf(region, bridges, home);
  const lead = plate.made === "printed" || !options.marks ? undefined : options.leadIns;
  // Openings before the outline, so that the plate is still held while they are cut.
  const led = lead && withLeadIns([...openings, outline], lead, options.size);
  if (lead !== undefined && led !== undefined) {
    entities.push(...leadInEntities(led));
    findings.push(...leadInFindings(led, plate.id, lead, options.size));
  }
  const lines = led?.map(({ line }) => line) ?? [...openings, outline];
  entities.push(...lines.flatMap((line) => cutEntities(line, options.bridges)));
  const note = plateNote(plate, quantity, options);
  if (options.marks && options.stockOutline) {
    const width = Math.max(box.maxX - box.minX, NOTE_WIDTH);
    entities.push(...strokeEntities(noteStrokes(note, box.maxY - box.minY, width, NOTE_HEIGHT), "stock"));
  }
  const extent = drawingExtent(entities);
  return {
    ok: true,
    drawing: { title: plate.name, unit: "mm", entities, note, width: extent.maxX, height: extent.maxY },
    findings,
  };
}

function plateNote(plate: Plate, quantity: number, options: DrawingOptions): string[] {
  return [
    plate.id,
    sheetText(plate.sheet),
    `quantity ${quantity}`,
    "unit mm",
    describeSize(plate.made === "printed" ? { state: "nominal" } : options.size),
    "scale 1:1",
  ];
}
