/**
 * A growing bag of directed grid segments, the common currency of convolution, arrangement and winding.
 *
 * Segment k runs from (x0, y0)[k] to (x1, y1)[k]. `count` says how often it is run through in that direction (negative:
 * backwards).
 */
export interface Segments {
  size: number;
  x0: Float64Array;
  y0: Float64Array;
  x1: Float64Array;
  y1: Float64Array;
  count: Int32Array;
}

export function emptySegments(capacity: number): Segments {
  return {
    size: 0,
    x0: new Float64Array(capacity),
    y0: new Float64Array(capacity),
    x1: new Float64Array(capacity),
    y1: new Float64Array(capacity),
    count: new Int32Array(capacity),
  };
}

/** Adds one segment; segments of no length are ignored. */
export function addSegment(
  segments: Segments,
  x0: number,
  y0: number,
  x1: number,
  y1: number,
  count: number,
): void {
  if (x0 === x1 && y0 === y1) return;
  if (segments.size === segments.count.length) grow(segments);
  const k = segments.size++;
  segments.x0[k] = x0;
  segments.y0[k] = y0;
  segments.x1[k] = x1;
  segments.y1[k] = y1;
  segments.count[k] = count;
}

function grow(segments: Segments): void {
  const capacity = 2 * segments.count.length + 16;
  const reals = (old: Float64Array): Float64Array => {
    const grown = new Float64Array(capacity);
    grown.set(old);
    return grown;
  };
  segments.x0 = reals(segments.x0);
  segments.y0 = reals(segments.y0);
  segments.x1 = reals(segments.x1);
  segments.y1 = reals(segments.y1);
  const count = new Int32Array(capacity);
  count.set(segments.count);
  segments.count = count;
}
