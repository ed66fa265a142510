import { circle, rectangle, roundedPolygon } from "../../contour/build.js";
import type { Contour } from "../../contour/contour.js";
import { hullOfCircles } from "../../contour/hull.js";
import { regionArea } from "../../contour/measure.js";
import type { OwnShape } from "../../frame/own-plate-parameters.js";

/** The contour of a shape, counter-clockwise. Throws RangeError when a radius does not fit or the shape has no area. */
export function shapeContour(shape: OwnShape): Contour {
  switch (shape.kind) {
    case "rectangle":
      return roundedRectangle(shape);
    case "round":
      return circle(shape.at, shape.diameter / 2);
    case "polygon": {
      const contour = roundedPolygon(shape.corners);
      if (!(regionArea({ outer: contour, openings: [] }) > 1e-3)) {
        throw new RangeError("the polygon's corners enclose no area");
      }
      return contour;
    }
    case "hull":
      return hullOfCircles(shape.circles.map(({ at, diameter }) => ({ center: at, radius: diameter / 2 })));
  }
}

function roundedRectangle({ width, height, radius, at }: OwnShape & { readonly kind: "rectangle" }): Contour {
  const [left, low] = [at.x - width / 2, at.y - height / 2];
  if (radius === 0) return rectangle(left, low, width, height);
  const corners = [
    { x: left, y: low },
    { x: left + width, y: low },
    { x: left + width, y: low + height },
    { x: left, y: low + height },
  ];
  return roundedPolygon(corners.map((corner) => ({ ...corner, radius })));
}
