import {
  bounds,
  type Contour,
  type Finding,
  type Placement,
  type Plate,
  type Point,
  placePath,
  placeRegion,
  type Region,
  type SheetMaterial,
} from "@keelcut/geometry";
import type { Sheet, Stock } from "@keelcut/nesting";
import { cuttingTour } from "../tour/cutting-tour.js";
import { type CutLine, cutEntities, cutLinesOf } from "./cut-lines.js";
import {
  type Drawing,
  type DrawingOptions,
  type DrawingResult,
  describeSize,
  describeWidest,
  type Entity,
} from "./drawing.js";
import { drawingExtent } from "./drawing-extent.js";
import { leadInEntities, stockEntities, strokeEntities } from "./entities.js";
import { faceMarks } from "./face-marks.js";
import { leadInFindings, withLeadIns } from "./lead-ins.js";
import { looseGuests } from "./loose-guests.js";
import { noteStrokes } from "./note-strokes.js";
import { cutRegion } from "./plate-cuts.js";
import { sheetText } from "./sheet-text.js";

/** One sheet of a nest result, with what is needed to draw it. */
export interface SheetToDraw {
  readonly sheet: Sheet;
  /** Number of the layout among those of its material, from 1. */
  readonly number: number;
  readonly stock: Stock;
  readonly material: SheetMaterial;
  /** The plates by id; every placed part must be among them. */
  readonly plates: ReadonlyMap<string, Plate>;
}

/**
 * One sheet at 1:1 in the stock's coordinates: marks, then for each depth of nesting, deepest first, all openings
 * before all outlines, each along a short tour; the stock's edge, keep-outs and the note last, as reference.
 *
 * Fails with error findings when a contour cannot be compensated or leaves the stock's side of zero.
 *
 * @throws RangeError when a placed part is not among the plates.
 */
export function sheetDrawing(input: SheetToDraw, options: DrawingOptions): DrawingResult {
  const cuts = new Map<string, Region>();
  const faults: Finding[] = [];
  for (const id of placedIds(input.sheet)) {
    const cut = cutRegion(plateOf(input, id), options.size);
    if (cut.ok) cuts.set(id, cut.region);
    else faults.push(...cut.findings);
  }
  if (faults.length > 0) return { ok: false, findings: faults };

  const regions = input.sheet.placements.map((placed) => placeRegion(cutOf(cuts, placed.part), placed));
  const outside = outsideFindings(input, regions);
  if (outside.length > 0) return { ok: false, findings: outside };

  const marks = options.marks ? sheetMarks(input, cuts, options) : { entities: [], findings: [] };
  const lines = linesByContour(input, regions, options);
  const leads = leadIns(input, lines, options);
  const entities = [...marks.entities, ...leads.entities, ...inCuttingOrder(regions, leads.lines, options)];
  return {
    ok: true,
    drawing: withReference(input, options, entities),
    findings: [
      ...marks.findings,
      ...leads.findings,
      ...looseGuests(
        input.sheet.placements.map(({ part }) => part),
        regions,
        options.bridges,
        `sheet ${input.number} of ${input.material.material}`,
      ),
    ],
  };
}

function placedIds(sheet: Sheet): string[] {
  return [...new Set(sheet.placements.map((placed) => placed.part))];
}

function plateOf(input: SheetToDraw, id: string): Plate {
  const plate = input.plates.get(id);
  if (plate === undefined) throw new RangeError(`sheet ${input.number} holds "${id}", which is no plate`);
  return plate;
}

function cutOf(cuts: ReadonlyMap<string, Region>, id: string): Region {
  const region = cuts.get(id);
  if (region === undefined) throw new RangeError(`"${id}" has no contours to cut`);
  return region;
}

/** What a place on a sheet may be off by, mm, as in the check of layouts. */
const ROUNDING = 1e-6;

/** Cutting files start at the stock's corner: a contour at negative coordinates would be refused or cut off. */
function outsideFindings(input: SheetToDraw, regions: readonly Region[]): Finding[] {
  return regions.flatMap((region, index) => {
    const box = bounds(region.outer);
    const least = Math.min(box.minX, box.minY);
    if (least >= -ROUNDING) return [];
    const id = input.sheet.placements[index]?.part ?? "";
    return [
      {
        id: "files.outside-stock",
        severity: "error" as const,
        place: id,
        message: `the cut line of ${id} on sheet ${input.number} lies ${(-least).toFixed(3)} mm outside the stock's corner: use an edge margin of at least half the kerf`,
        measured: least,
        limit: 0,
        why: "shops place the origin at the sheet's corner and refuse negative coordinates",
        source: "common practice of cutting shops",
      },
    ];
  });
}

function sheetMarks(
  input: SheetToDraw,
  cuts: ReadonlyMap<string, Region>,
  options: DrawingOptions,
): { entities: Entity[]; findings: Finding[] } {
  const entities: Entity[] = [];
  const findings = new Map<string, Finding>();
  const known = new Map<string, ReturnType<typeof faceMarks>>();
  for (const placed of input.sheet.placements) {
    const key = `${placed.part}${placed.mirrored ? " upside down" : ""}`;
    let face = known.get(key);
    if (face === undefined) {
      const labels = options.labels?.(placed.part) ?? [placed.part];
      face = faceMarks(plateOf(input, placed.part), cutOf(cuts, placed.part), labels, placed.mirrored);
      known.set(key, face);
    }
    for (const finding of face.findings) findings.set(`${finding.place} ${finding.message}`, finding);
    const lying: Placement = { x: placed.x, y: placed.y, rotation: placed.rotation, mirrored: false };
    entities.push(
      ...strokeEntities(
        face.paths.map((path) => placePath(path, lying)),
        "mark",
      ),
    );
  }
  return { entities, findings: [...findings.values()] };
}

/** Every cut line by the contour it was before it was turned to begin at a lead-in. */
type Lines = ReadonlyMap<Contour, CutLine>;

function linesByContour(input: SheetToDraw, regions: readonly Region[], { bridges }: DrawingOptions): Lines {
  const lines = new Map<Contour, CutLine>();
  input.sheet.placements.forEach((placed, index) => {
    const region = regions[index];
    if (region === undefined) return;
    const { outline, openings } = cutLinesOf(region, bridges?.of(placed.part) ?? [], placed);
    for (const line of [outline, ...openings]) lines.set(line.contour, line);
  });
  return lines;
}

function leadIns(
  input: SheetToDraw,
  lines: Lines,
  options: DrawingOptions,
): { entities: Entity[]; lines: Lines; findings: Finding[] } {
  if (options.leadIns === undefined || !options.marks) return { entities: [], lines, findings: [] };
  const led = withLeadIns([...lines.values()], options.leadIns, options.size, input.stock);
  const turned = new Map([...lines.keys()].map((contour, index) => [contour, led[index]?.line]));
  return {
    entities: leadInEntities(led),
    lines: new Map(
      [...turned].flatMap(([contour, line]) => (line === undefined ? [] : [[contour, line] as const])),
    ),
    findings: leadInFindings(
      led,
      `sheet ${input.number} of ${input.material.material}`,
      options.leadIns,
      options.size,
    ),
  };
}

/** A closed line that begins anywhere is drawn from where the tour enters it. */
function inCuttingOrder(regions: readonly Region[], lines: Lines, options: DrawingOptions): Entity[] {
  const fixed = (line: CutLine, contour: Contour): boolean =>
    line.bridges.length > 0 || line.contour !== contour;
  const entriesOf = (contour: Contour): readonly Point[] => {
    const line = lines.get(contour);
    return line !== undefined && fixed(line, contour) ? line.contour.slice(0, 1) : contour;
  };
  return cuttingTour(regions, entriesOf).stops.flatMap(({ contour, entry }) => {
    const line = lines.get(contour);
    if (line === undefined) return [];
    const drawn = fixed(line, contour) ? line : { ...line, contour: startingAt(contour, entry) };
    return cutEntities(drawn, options.bridges);
  });
}

function startingAt(contour: Contour, entry: Point): Contour {
  const index = contour.findIndex(({ x, y }) => x === entry.x && y === entry.y);
  return index <= 0 ? contour : [...contour.slice(index), ...contour.slice(0, index)];
}

function withReference(input: SheetToDraw, options: DrawingOptions, cuts: readonly Entity[]): Drawing {
  const { material, sheet, number, stock } = input;
  const edge = bounds(stock.outline);
  const note = [
    sheetText(material),
    `sheet ${number}`,
    `cut ${sheet.times} ${sheet.times === 1 ? "time" : "times"}`,
    `stock ${stock.id}`,
    "unit mm",
    describeSize(options.size),
    ...describeWidest(options.size),
    "scale 1:1",
  ];
  const entities = [...cuts];
  if (options.stockOutline) entities.push(...stockEntities(stock));
  if (options.stockOutline && options.marks) {
    const height = noteHeight(edge.maxX);
    entities.push(...strokeEntities(noteStrokes(note, edge.maxY, edge.maxX, height), "stock"));
  }
  const extent = drawingExtent(entities);
  return {
    title: `${material.material} ${material.thickness} mm, sheet ${number}`,
    unit: "mm",
    entities,
    note,
    width: Math.max(extent.maxX, edge.maxX),
    height: Math.max(extent.maxY, edge.maxY),
  };
}

/** Readable beside the sheet: 1/80 of its length, 3 to 12 mm. */
function noteHeight(length: number): number {
  return Math.min(12, Math.max(3, Math.round(length / 80)));
}
