export type { CurvePoint } from "./biarc.js";
export { intersect, subtract, unite } from "./boolean.js";
export { type Box, bounds, regionBounds } from "./bounds.js";
export { type Corner, circle, obround, polygon, rectangle, roundedPolygon } from "./build.js";
export { type Compensation, type CompensationFault, compensateRegion } from "./compensate.js";
export type { Contour, Path, Point, Region, Vertex } from "./contour.js";
export { contourDistance, contourGap, type Gap, pointDistance, regionGap } from "./distance.js";
export { type Curve, type FitPoint, fitArcs } from "./fit.js";
export { type FlattenSide, flatten } from "./flatten.js";
export { hullOfCircles } from "./hull.js";
export { contoursCross, type Meeting, segmentIntersections } from "./intersect.js";
export { locate, locateInRegion, type Side } from "./locate.js";
export {
  contourCentroid,
  contourLength,
  contourSecondMoments,
  regionArea,
  regionCentroid,
  regionLength,
  regionSecondMoments,
  type SecondMoments,
  signedArea,
} from "./measure.js";
export { type CornerJoin, offsetContour, offsetRegion } from "./offset.js";
export { clockwise, counterClockwise, reversed } from "./orient.js";
export type { Placement } from "./placement.js";
export { roundCorners, roundInsideCorners } from "./round.js";
export {
  type ArcSegment,
  arcParameter,
  asCircle,
  bulgeOf,
  isStraight,
  type LineSegment,
  pathSegments,
  pointAt,
  type Segment,
  segmentLength,
  segments,
  tangentAt,
} from "./segment.js";
export { TOLERANCE } from "./tolerance.js";
export {
  exactSine,
  mirrorX,
  placeContour,
  placePath,
  placePoint,
  placeRegion,
  rotate,
  translate,
} from "./transform.js";
export { type ContourFault, contourFaults, type RegionFault, regionFaults } from "./validate.js";
