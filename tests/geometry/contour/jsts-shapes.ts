import { type Contour, flatten, type Region } from "@keelcut/geometry";
import GeometryFactory from "jsts/org/locationtech/jts/geom/GeometryFactory.js";
import GeoJSONReader from "jsts/org/locationtech/jts/io/GeoJSONReader.js";
import BufferOp from "jsts/org/locationtech/jts/operation/buffer/BufferOp.js";
import OverlayOp from "jsts/org/locationtech/jts/operation/overlay/OverlayOp.js";
import UnaryUnionOp from "jsts/org/locationtech/jts/operation/union/UnaryUnionOp.js";

/** What the tests use of a geometry of jsts, the independent judge of booleans and offsets. */
export interface Shape {
  getArea(): number;
  getNumGeometries(): number;
}

const reader = new GeoJSONReader(new GeometryFactory());

/** The regions as one multipolygon, arcs as chords no farther off than `chordError` mm. */
export function shapeOf(regions: readonly Region[], chordError: number): Shape {
  const coordinates = regions.map((region) =>
    [region.outer, ...region.openings].map((contour) => ring(contour, chordError)),
  );
  return UnaryUnionOp.union(
    reader.read({ type: "GeometryCollection", geometries: coordinates.map(polygonOf) }),
  );
}

function polygonOf(coordinates: number[][][]): object {
  return { type: "Polygon", coordinates };
}

function ring(contour: Contour, chordError: number): number[][] {
  const points = flatten(contour, chordError, "on").map(({ x, y }) => [x, y]);
  return [...points, points[0] ?? []];
}

export function overlay(a: Shape, b: Shape, how: "union" | "difference" | "intersection"): Shape {
  return OverlayOp[how](a, b);
}

/** Round joins, `steps` chords per quarter circle. */
export function buffered(shape: Shape, distance: number, steps = 64): Shape {
  return BufferOp.bufferOp(shape, distance, steps);
}
