import type { Point } from "./contour.js";
import { type Segment, tangentAt } from "./segment.js";
import { polar, positiveAngle } from "./vector.js";

/** What follows a segment beyond its end, on its line or circle, for `reach` mm but at most half a turn. */
export function prolongation(segment: Segment, reach: number): Segment {
  if (segment.kind === "line") {
    const way = tangentAt(segment, 1);
    return {
      kind: "line",
      from: segment.to,
      to: { x: segment.to.x + way.x * reach, y: segment.to.y + way.y * reach },
    };
  }
  const startAngle = segment.startAngle + segment.sweep;
  const sweep = Math.sign(segment.sweep) * Math.min(Math.PI, reach / segment.radius);
  return {
    ...segment,
    from: segment.to,
    to: polar(segment.center, segment.radius, startAngle + sweep),
    startAngle,
    sweep,
  };
}

/** A segment with its start and end moved outwards along its line or circle, each to a point there if one is given. */
export function prolonged(segment: Segment, from: Point | undefined, to: Point | undefined): Segment {
  const ends = { from: from ?? segment.from, to: to ?? segment.to };
  if (segment.kind === "line") return { ...segment, ...ends };
  const { center, startAngle, sweep } = segment;
  const way = Math.sign(sweep);
  const extra = (angle: number): number => way * positiveAngle(way * angle);
  const before =
    from === undefined ? 0 : extra(startAngle - Math.atan2(from.y - center.y, from.x - center.x));
  const after =
    to === undefined ? 0 : extra(Math.atan2(to.y - center.y, to.x - center.x) - startAngle - sweep);
  return { ...segment, ...ends, startAngle: startAngle - before, sweep: before + sweep + after };
}
