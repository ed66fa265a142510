/** A point of the plane, in millimetres. */
export interface Point {
  readonly x: number;
  readonly y: number;
}

/**
 * A corner of a contour and the way to the next one.
 *
 * `bulge` = tan(sweep / 4) of the arc from this vertex to the next, positive when the arc runs
 * counter-clockwise, 0 for a straight line (the convention of the DXF reference, group code 42).
 */
export interface Vertex extends Point {
  readonly bulge: number;
}

/**
 * A closed path of straight lines and true circular arcs; the last vertex leads back to the first.
 * A circle is two half arcs. Outer contours run counter-clockwise, openings clockwise.
 */
export type Contour = readonly Vertex[];

/** An open or closed line drawn on a plate, never cut through. Same vertices as a contour; when open, the last bulge is unused. */
export interface Path {
  readonly vertices: readonly Vertex[];
  readonly closed: boolean;
}

/** One outer contour (counter-clockwise) and the openings inside it (clockwise). */
export interface Region {
  readonly outer: Contour;
  readonly openings: readonly Contour[];
}
