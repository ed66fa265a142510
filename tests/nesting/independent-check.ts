import type { Contour, Region } from "@keelcut/geometry";
import type { NestJob, NestResult, PlacedPart } from "@keelcut/nesting";
import GeometryFactory from "jsts/org/locationtech/jts/geom/GeometryFactory.js";
import GeoJSONReader from "jsts/org/locationtech/jts/io/GeoJSONReader.js";
import DistanceOp from "jsts/org/locationtech/jts/operation/distance/DistanceOp.js";
import OverlayOp from "jsts/org/locationtech/jts/operation/overlay/OverlayOp.js";

/**
 * Distances, containment and counts of a result judged by jsts, from our own reading of bulges and placements: nothing
 * of the kernel or the packer is used. Arcs become polygons on the inner side of the material, at most 0.02 mm from it,
 * so no sound layout is refused, and errors beyond 0.04 mm are seen everywhere, on straight edges beyond 1e-6.
 */
export function independentFaults(job: NestJob, result: NestResult): string[] {
  const faults: string[] = [];
  const tolerance = 1e-6;
  for (const [index, sheet] of result.sheets.entries()) {
    const stock = job.stock.find((candidate) => candidate.id === sheet.stock);
    if (stock === undefined) return [`no stock ${sheet.stock}`];
    const outline = polygonOf([points(stock.outline, false)]);
    const edge = lineOf(points(stock.outline, false));
    const keepOuts = stock.keepOuts.map((keepOut) => polygonOf([points(keepOut, true)]));
    const plates = sheet.placements.map((placement) => {
      const part = job.parts.find((candidate) => candidate.id === placement.part);
      if (part === undefined) throw new Error(`no part ${placement.part}`);
      return { id: part.id, shape: placed(part.region, placement) };
    });
    plates.forEach((plate, number) => {
      const margin = DistanceOp.distance(plate.shape, edge);
      if (margin < job.edgeMargin - tolerance) faults.push(`sheet ${index}: ${plate.id} is in the margin`);
      // Clear of the edge it is wholly inside or wholly outside; touching it, the area outside tells.
      const out =
        margin > tolerance
          ? DistanceOp.distance(plate.shape, outline)
          : OverlayOp.difference(plate.shape, outline).getArea();
      if (out > 1e-3) faults.push(`sheet ${index}: ${plate.id} is outside by ${out}`);
      for (const other of [...plates.slice(number + 1).map(({ shape }) => shape), ...keepOuts]) {
        if (!near(plate.shape, other, job.clearance)) continue;
        const gap = DistanceOp.distance(plate.shape, other);
        if (gap < job.clearance - tolerance)
          faults.push(`sheet ${index}: ${plate.id} is ${gap} mm from another`);
        if (job.clearance === 0 && OverlayOp.intersection(plate.shape, other).getArea() > 1e-3) {
          faults.push(`sheet ${index}: ${plate.id} overlaps another`);
        }
      }
    });
  }
  for (const part of job.parts) {
    const placedCopies = result.sheets
      .map((sheet) => sheet.times * sheet.placements.filter((placement) => placement.part === part.id).length)
      .reduce((a, b) => a + b, 0);
    const left = result.unplaced.filter((entry) => entry.part === part.id).map((entry) => entry.count);
    const total = placedCopies + left.reduce((a, b) => a + b, 0);
    if (total !== part.demand) faults.push(`${part.id}: ${total} instead of ${part.demand}`);
  }
  return faults;
}

/** What is used of a geometry of jsts. */
interface Shape {
  getEnvelopeInternal(): { distance(other: unknown): number };
}

const reader = new GeoJSONReader(new GeometryFactory());

function polygonOf(rings: number[][][]): Shape {
  return reader.read({ type: "Polygon", coordinates: rings.map(closed) });
}

function lineOf(ring: number[][]): Shape {
  return reader.read({ type: "LineString", coordinates: closed(ring) });
}

function closed(ring: number[][]): number[][] {
  return [...ring, ring[0] as number[]];
}

function near(a: Shape, b: Shape, reach: number): boolean {
  return a.getEnvelopeInternal().distance(b.getEnvelopeInternal()) <= reach;
}

function placed(region: Region, placement: PlacedPart): Shape {
  const angle = (placement.rotation * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const place = ([x = 0, y = 0]: number[]): number[] => {
    const u = placement.mirrored ? -x : x;
    return [cos * u - sin * y + placement.x, sin * u + cos * y + placement.y];
  };
  return polygonOf([
    points(region.outer, true).map(place),
    ...region.openings.map((opening) => points(opening, false).map(place)),
  ]);
}

const SAG = 0.02;

/**
 * Corners of a polygon that lies inside the curve (`within`) or around it: chords where the arc bulges away from the
 * side wanted, tangents where it bulges towards it.
 */
function points(contour: Contour, within: boolean): number[][] {
  const result: number[][] = [];
  const way = Math.sign(twiceArea(contour));
  contour.forEach((vertex, index) => {
    result.push([vertex.x, vertex.y]);
    const next = contour[(index + 1) % contour.length] ?? vertex;
    const sweep = 4 * Math.atan(vertex.bulge);
    if (sweep === 0) return;
    const chord = Math.hypot(next.x - vertex.x, next.y - vertex.y);
    const radius = chord / 2 / Math.sin(Math.abs(sweep) / 2);
    const steps = Math.ceil(Math.abs(sweep) / (2 * Math.acos(Math.max(0.5, 1 - SAG / radius))));
    // The centre lies left of the chord for a counter-clockwise arc of less than half a turn.
    const apothem = chord / 2 / Math.tan(sweep / 2);
    const cx = (vertex.x + next.x) / 2 - ((next.y - vertex.y) / chord) * apothem;
    const cy = (vertex.y + next.y) / 2 + ((next.x - vertex.x) / chord) * apothem;
    const start = Math.atan2(vertex.y - cy, vertex.x - cx);
    const bulgesOut = Math.sign(sweep) === way;
    const tangents = bulgesOut !== within;
    const reach = tangents ? radius / Math.cos(sweep / steps / 2) : radius;
    for (let step = tangents ? 0.5 : 1; step < steps; step++) {
      const angle = start + (sweep * step) / steps;
      result.push([cx + reach * Math.cos(angle), cy + reach * Math.sin(angle)]);
    }
  });
  return result;
}

/** Twice the enclosed area of the chords plus that between chords and arcs; its sign is the way the contour runs. */
function twiceArea(contour: Contour): number {
  let sum = 0;
  contour.forEach((vertex, index) => {
    const next = contour[(index + 1) % contour.length] ?? vertex;
    sum += vertex.x * next.y - next.x * vertex.y;
    const sweep = 4 * Math.atan(vertex.bulge);
    if (sweep !== 0) {
      const radius = Math.hypot(next.x - vertex.x, next.y - vertex.y) / 2 / Math.sin(Math.abs(sweep) / 2);
      sum += radius * radius * (sweep - Math.sin(sweep));
    }
  });
  return sum;
}
