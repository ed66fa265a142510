import {
  bounds,
  type Finding,
  flatten,
  type Path,
  type Point,
  type Region,
  regionCentroid,
} from "@keelcut/geometry";
import { noStrokes } from "./plate-cuts.js";
import { DESCENT, missingLetters, strokeText, strokeTextWidth } from "./strokes.js";

/** Least distance of a label from every cut edge and other mark, mm (common practice: half a cutter and some slack). */
const LABEL_MARGIN = 2;
/** Capital heights tried, largest first, mm; below 2.5 mm an engraved letter fills up (common practice). */
const HEIGHTS = [6, 5, 4, 3, 2.5];
const GRID = 24;
/** Arcs are followed by chords this near, mm; the margin is widened by as much. */
const CHORD_ERROR = 0.1;

/** A plate's label as strokes; empty, with a finding that says why, when it cannot be drawn. */
export interface PlateLabel {
  readonly paths: readonly Path[];
  readonly findings: readonly Finding[];
}

/**
 * A name with an arrow that points to the plate's +y, set where it fits: inside the material, clear of openings and
 * marks, as large and as near to the middle as possible.
 *
 * Of the texts, the fullest first, the first that fits is drawn; one with characters without strokes is passed over.
 */
export function plateLabel(
  region: Region,
  texts: readonly string[],
  marks: readonly Path[],
  plateId: string,
): PlateLabel {
  const drawable = texts.filter((text) => missingLetters(text).length === 0);
  for (const text of drawable) {
    const paths = labelStrokes(region, text, marks);
    if (paths !== undefined) return { paths, findings: [] };
  }
  const text = drawable.at(-1);
  if (text === undefined)
    return { paths: [], findings: [noStrokes(plateId, missingLetters(texts.join("")))] };
  return {
    paths: [],
    findings: [
      {
        id: "files.mark-left-out",
        severity: "note",
        place: plateId,
        message: `the label "${text}" is left out: at ${HEIGHTS.at(-1)} mm it does not fit between the openings and the outline`,
        measured: strokeTextWidth(text, HEIGHTS.at(-1) ?? 0),
        why: "a mark across an opening or an edge would be cut into scrap or into the next plate",
        source: "common practice",
      },
    ],
  };
}

function labelStrokes(region: Region, text: string, marks: readonly Path[]): readonly Path[] | undefined {
  const spots = spotsByDistance(region);
  const edges = edgesOf(region);
  const boxes = marks.map((mark) => bounds(mark.vertices));
  for (const height of HEIGHTS) {
    const length = strokeTextWidth(text, height) + 1.4 * height;
    for (const rotation of [0, 90]) {
      const spot = spots.find((middle) => {
        const box = labelBox(middle, length, height, rotation);
        return boxes.every((mark) => boxGap(box, mark) >= LABEL_MARGIN) && isInMaterial(box, middle, edges);
      });
      if (spot !== undefined) return draw(text, labelBox(spot, length, height, rotation), height, rotation);
    }
  }
  return undefined;
}

interface LabelBox {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

function labelBox(middle: Point, length: number, height: number, rotation: number): LabelBox {
  const tall = height * (1 + DESCENT);
  const [w, h] = rotation === 0 ? [length, tall] : [tall, length];
  return { minX: middle.x - w / 2, minY: middle.y - h / 2, maxX: middle.x + w / 2, maxY: middle.y + h / 2 };
}

/** Points of a grid over the region, nearest to the centroid first. */
function spotsByDistance(region: Region): Point[] {
  const box = bounds(region.outer);
  const centre = regionCentroid(region);
  const spots: Point[] = [centre];
  for (let i = 1; i < GRID; i++) {
    for (let j = 1; j < GRID; j++) {
      spots.push({
        x: box.minX + ((box.maxX - box.minX) * i) / GRID,
        y: box.minY + ((box.maxY - box.minY) * j) / GRID,
      });
    }
  }
  const far = (p: Point) => Math.hypot(p.x - centre.x, p.y - centre.y);
  return spots.sort((a, b) => far(a) - far(b));
}

interface Edge {
  readonly from: Point;
  readonly to: Point;
}

function edgesOf(region: Region): Edge[] {
  return [region.outer, ...region.openings].flatMap((contour) => {
    const points = flatten(contour, CHORD_ERROR, "on");
    return points.map((from, index) => ({ from, to: points[(index + 1) % points.length] ?? from }));
  });
}

/** No edge within the margin of the box, and the middle inside: an odd number of edges to its right. */
function isInMaterial(box: LabelBox, middle: Point, edges: readonly Edge[]): boolean {
  const margin = LABEL_MARGIN + CHORD_ERROR;
  const [minX, maxX] = [box.minX - margin, box.maxX + margin];
  const [minY, maxY] = [box.minY - margin, box.maxY + margin];
  let crossings = 0;
  for (const { from, to } of edges) {
    if (meetsBox(from, to, minX, minY, maxX, maxY)) return false;
    if (from.y > middle.y !== to.y > middle.y) {
      const x = from.x + ((middle.y - from.y) / (to.y - from.y)) * (to.x - from.x);
      if (x > middle.x) crossings += 1;
    }
  }
  return crossings % 2 === 1;
}

/** Separating axes: x, y, and across the edge. */
function meetsBox(from: Point, to: Point, minX: number, minY: number, maxX: number, maxY: number): boolean {
  if (Math.max(from.x, to.x) < minX || Math.min(from.x, to.x) > maxX) return false;
  if (Math.max(from.y, to.y) < minY || Math.min(from.y, to.y) > maxY) return false;
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const middle = dx * ((minY + maxY) / 2 - from.y) - dy * ((minX + maxX) / 2 - from.x);
  const reach = (Math.abs(dx) * (maxY - minY) + Math.abs(dy) * (maxX - minX)) / 2;
  return Math.abs(middle) <= reach;
}

function boxGap(a: LabelBox, b: LabelBox): number {
  const dx = Math.max(a.minX - b.maxX, b.minX - a.maxX, 0);
  const dy = Math.max(a.minY - b.maxY, b.minY - a.maxY, 0);
  return Math.hypot(dx, dy);
}

/** Text first, then the arrow at its end; the arrow points up whichever way the text runs. */
function draw(text: string, box: LabelBox, height: number, rotation: number): readonly Path[] {
  const drop = height * DESCENT;
  const width = strokeTextWidth(text, height);
  const along = rotation === 0;
  const at = along ? { x: box.minX, y: box.minY + drop } : { x: box.maxX - drop, y: box.minY };
  const arrowAt = along
    ? { x: at.x + width + 0.9 * height, y: at.y }
    : { x: at.x - height / 2, y: at.y + width + 0.4 * height };
  return [...strokeText(text, at, height, rotation).strokes, ...arrow(arrowAt, height)];
}

function arrow(foot: Point, height: number): Path[] {
  const tip = { x: foot.x, y: foot.y + height };
  const barb = height * 0.35;
  return [
    openPath([foot, tip]),
    openPath([{ x: tip.x - barb, y: tip.y - barb }, tip, { x: tip.x + barb, y: tip.y - barb }]),
  ];
}

function openPath(points: readonly Point[]): Path {
  return { vertices: points.map((point) => ({ ...point, bulge: 0 })), closed: false };
}
