import { type Box, bounds, type Contour, type Finding, type Region } from "@keelcut/geometry";
import { regionsOf } from "../input/import/assemble.js";
import { readDrawing } from "../input/import/import-plate.js";
import type { ReadFile, ReadShape } from "../input/import/read-file.js";
import { bridgeFaults } from "./bridges.js";
import { WRITTEN } from "./compare-contours.js";
import { orderFaults } from "./cutting-order.js";
import { markFaults, noteFaults, stockFaults } from "./drawn-beside.js";
import type { ExpectedLayers, Format } from "./expectations.js";
import type { ExpectedCut } from "./expected-cuts.js";
import { type LeadInSurroundings, leadInFaults, sortMarks } from "./lead-ins.js";
import { cutLineFaults } from "./line-faults.js";
import { cutName, type FoundCut, matchCuts } from "./match-cuts.js";
import { proofFinding } from "./prove-finding.js";
import { rejoin } from "./rejoin.js";

/** What one file must hold. */
export interface ExpectedFile {
  readonly place: string;
  readonly format: Format;
  readonly layers: ExpectedLayers;
  readonly cuts: readonly ExpectedCut[];
  /** Closed contours on the reference layer. */
  readonly stock: readonly Contour[];
  readonly markStrokes: number;
  readonly noteStrokes: number;
  readonly leadIns: number;
  readonly aroundLeadIns: LeadInSurroundings;
  /** Length of the gap at a bridge, mm; absent when no line may be interrupted. */
  readonly bridgeGap?: number;
  /** A template that is printed, not cut. */
  readonly printed: boolean;
  /** The note lies above this y, mm. */
  readonly noteAbove: number;
}

/** What one file turned out to be. */
export interface FileProof {
  readonly findings: readonly Finding[];
  /** Regions rebuilt from the cut lines, for distances. */
  readonly regions: readonly Region[];
  /** Matched outlines by plate. */
  readonly outlines: ReadonlyMap<string, number>;
  readonly contours: number;
  readonly arcs: number;
  readonly bridges: number;
  readonly largest: number;
}

/** Reads one file as a stranger would and compares it with what it should hold. */
export function proveFile(text: string, expected: ExpectedFile): FileProof {
  const { place } = expected;
  const file = readDrawing(text);
  const findings: Finding[] = [...formatFaults(file, expected), ...readerFaults(file, place)];
  const sorted = sortByLayer(file.shapes, expected.layers);
  for (const shape of sorted.unknown) {
    findings.push(
      proofFinding(
        "layer",
        `${place}, ${shape.place}`,
        `${shape.source} lies on layer "${shape.layer}", which is none of the job's`,
      ),
    );
  }
  const cuts = foundCuts(sorted.cut, expected.bridgeGap);
  const loose = sorted.cut.filter((shape) => !shape.closed && !cuts.some((cut) => cut.from.includes(shape)));
  findings.push(...extentFaults(file, place), ...cutLineFaults(place, loose, cuts));
  const regions = regionsOf(cuts.map(({ shape }) => shape));
  const scale = scaleFault(cuts, expected);
  const matched =
    scale === undefined
      ? matchCuts(place, expected.cuts, cuts)
      : { pairs: new Map(), largest: 0, findings: [scale] };
  findings.push(...matched.findings, ...layerFaults(matched.pairs, expected));
  findings.push(...orderFaults(place, matched.pairs), ...bridgeFaults(place, matched.pairs));
  const { marks, leadIns } = sortMarks(sorted.mark, cuts, expected.leadIns);
  findings.push(...markFaults(place, marks, regions, expected.markStrokes, expected.printed));
  findings.push(...leadInFaults(place, leadIns, cuts, regions, expected.leadIns, expected.aroundLeadIns));
  findings.push(...stockFaults(place, sorted.stock, expected.stock, expected.noteStrokes));
  findings.push(...noteFaults(place, sorted.stock, expected.noteAbove));
  return {
    findings,
    regions,
    outlines: countOutlines(matched.pairs),
    contours: cuts.length,
    arcs: cuts.reduce((sum, { contour }) => sum + contour.filter((vertex) => vertex.bulge !== 0).length, 0),
    bridges: cuts.reduce((sum, { gaps }) => sum + gaps.length, 0),
    largest: matched.largest,
  };
}

function formatFaults(file: ReadFile, { place, format }: ExpectedFile): Finding[] {
  const findings: Finding[] = [];
  if (file.format !== format)
    findings.push(proofFinding("format", place, `it holds ${file.format}, not ${format}`));
  if (!file.unitStated) findings.push(proofFinding("unit", place, "the file does not state its unit"));
  else if (Math.abs(file.scale - 1) > 1e-9) {
    findings.push(
      proofFinding("unit", place, `one unit of the file is ${file.scale} mm, not 1 mm`, file.scale, 1),
    );
  }
  return findings;
}

/** A file of ours holds nothing a reader has to remark on: every remark is an error. */
function readerFaults(file: ReadFile, place: string): Finding[] {
  const fitted = file.shapes.filter((shape) => shape.fitError !== undefined);
  const blocks = file.shapes.filter((shape) => shape.block !== undefined);
  return [
    ...blocks.map((shape) =>
      proofFinding(
        "block",
        `${place}, ${shape.place}`,
        `${shape.source} is hidden in block "${shape.block}"`,
      ),
    ),
    ...file.findings
      .filter((finding) => finding.id !== "import.unit")
      .map((finding) => ({ ...finding, severity: "error" as const, place: `${place}, ${finding.place}` })),
    ...fitted.map((shape) =>
      proofFinding(
        "not-arcs",
        `${place}, ${shape.place}`,
        `${shape.source} is a curve and no line or true arc`,
      ),
    ),
  ];
}

interface ByLayer {
  readonly cut: readonly ReadShape[];
  readonly mark: readonly ReadShape[];
  readonly stock: readonly ReadShape[];
  readonly unknown: readonly ReadShape[];
}

function sortByLayer(shapes: readonly ReadShape[], layers: ExpectedLayers): ByLayer {
  const on = (...names: string[]): ReadShape[] =>
    shapes.filter((shape) => names.some((name) => isOn(shape, name)));
  const known = [layers.outline, layers.opening, layers.mark, layers.stock];
  return {
    cut: on(layers.outline, layers.opening),
    mark: on(layers.mark),
    stock: on(layers.stock),
    unknown: shapes.filter((shape) => !known.some((name) => isOn(shape, name))),
  };
}

/** A layer that comes again in an SVG file has a number at the end of its id. */
function isOn(shape: ReadShape, name: string): boolean {
  return (
    shape.layer === name ||
    (shape.layer.startsWith(`${name}-`) && /^-\d+$/.test(shape.layer.slice(name.length)))
  );
}

/** A closed line, or one put together over its bridges from the open lines `from`. */
interface ReadCut extends FoundCut {
  readonly from: readonly ReadShape[];
}

function foundCuts(shapes: readonly ReadShape[], bridgeGap: number | undefined): ReadCut[] {
  const sound = shapes.filter(
    ({ vertices }) =>
      vertices.length > 1 && vertices.every((vertex) => Number.isFinite(vertex.x + vertex.y + vertex.bulge)),
  );
  const open = sound.filter((shape) => !shape.closed);
  const joined = bridgeGap === undefined ? [] : rejoin(open, bridgeGap).joined;
  const closed = sound
    .filter((shape) => shape.closed)
    .map((shape) => ({ shape, from: [shape], gaps: [], oneWay: true }));
  return [...closed, ...joined]
    .map(({ shape, from, gaps, oneWay }) => ({
      shape,
      from,
      gaps,
      oneWay,
      contour: shape.vertices,
      box: bounds(shape.vertices),
      order: Math.min(...from.map((each) => shapes.indexOf(each))),
      lastOrder: Math.max(...from.map((each) => shapes.indexOf(each))),
    }))
    .sort((a, b) => a.order - b.order);
}

/** No coordinate below zero, and what the file states as its extent holds. */
function extentFaults(file: ReadFile, place: string): Finding[] {
  const boxes = file.shapes
    .filter((shape) => shape.vertices.length > 1)
    .map((shape) => bounds(shape.vertices));
  if (boxes.length === 0) return [proofFinding("empty", place, "the file draws nothing")];
  const { minX, minY, maxX, maxY } = around(boxes);
  const findings: Finding[] = [];
  if (Math.min(minX, minY) < -WRITTEN) {
    findings.push(proofFinding("negative", place, `coordinates reach down to ${Math.min(minX, minY)}`));
  }
  const { stated } = file;
  if (stated === undefined)
    findings.push(proofFinding("extent", place, "the file does not state its extent"));
  else {
    const exact = file.format === "dxf";
    const beyond = Math.max(maxX - stated.maxX, maxY - stated.maxY, stated.minX - minX, stated.minY - minY);
    const short = Math.max(stated.maxX - maxX, stated.maxY - maxY, minX - stated.minX, minY - stated.minY);
    if (beyond > WRITTEN || (exact && short > WRITTEN)) {
      const message = `the file states an extent of ${stated.maxX} x ${stated.maxY} mm, drawn is ${maxX} x ${maxY} mm`;
      findings.push(proofFinding("extent", place, message));
    }
  }
  return findings;
}

/** A drawing that is off by less is changed rather than scaled; a unit or a page fitted wrongly is off by far more. */
const SCALED = 5e-4;

/** The same factor in both directions between what is cut and what should be. */
function scaleFault(cuts: readonly FoundCut[], expected: ExpectedFile): Finding | undefined {
  const has = extent(cuts.map((cut) => cut.box));
  const wants = extent(expected.cuts.map((cut) => bounds(cut.cut)));
  if (has.x <= 0 || has.y <= 0 || wants.x <= 0 || wants.y <= 0) return undefined;
  const [sx, sy] = [has.x / wants.x, has.y / wants.y];
  if (Math.abs(sx - 1) < SCALED || Math.abs(sx / sy - 1) > SCALED) return undefined;
  return proofFinding("scale", expected.place, `everything is ${sx.toPrecision(6)} times its size`, sx, 1);
}

function extent(boxes: readonly Box[]): { x: number; y: number } {
  const { minX, minY, maxX, maxY } = around(boxes);
  return { x: maxX - minX, y: maxY - minY };
}

/** The box around all boxes; a file may hold more of them than a call takes arguments. */
function around(boxes: readonly Box[]): Box {
  const all = { minX: Infinity, minY: Infinity, maxX: -Infinity, maxY: -Infinity };
  for (const { minX, minY, maxX, maxY } of boxes) {
    all.minX = Math.min(all.minX, minX);
    all.minY = Math.min(all.minY, minY);
    all.maxX = Math.max(all.maxX, maxX);
    all.maxY = Math.max(all.maxY, maxY);
  }
  return all;
}

function layerFaults(pairs: ReadonlyMap<ExpectedCut, FoundCut>, expected: ExpectedFile): Finding[] {
  const findings: Finding[] = [];
  for (const [cut, { shape }] of pairs) {
    const wanted = cut.part === "outline" ? expected.layers.outline : expected.layers.opening;
    if (isOn(shape, wanted)) continue;
    const message = `${cutName(cut)} lies on layer "${shape.layer}", expected "${wanted}"`;
    findings.push(proofFinding("layer", `${expected.place}, ${shape.place}`, message));
  }
  return findings;
}

function countOutlines(pairs: ReadonlyMap<ExpectedCut, FoundCut>): Map<string, number> {
  const counts = new Map<string, number>();
  for (const cut of pairs.keys()) {
    if (cut.part === "outline") counts.set(cut.plate, (counts.get(cut.plate) ?? 0) + 1);
  }
  return counts;
}
