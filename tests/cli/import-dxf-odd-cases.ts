import { type Cases, segmentArea } from "./import-case.js";
import { circle, dxf, entity, line, lwpolyline, polyline, square } from "./import-files.js";

const pi = Math.PI;

const frozen = "0\nLAYER\n2\nold\n70\n1\n62\n7\n6\nCONTINUOUS\n";
const off = "0\nLAYER\n2\nold\n70\n0\n62\n-7\n6\nCONTINUOUS\n";

/** Units, planes, things left out, and bad geometry. */
export const oddDxfCases: Cases = {
  // DXF: units, planes, things left out
  inches: { text: dxf(circle(1, 1, 1), { units: 1 }), areas: [25.4 ** 2 * pi] },
  metres: { text: dxf(circle(0.01, 0, 0.01), { units: 6 }), areas: [100 * pi] },
  "no unit": { text: dxf(circle(0, 0, 5), { units: 0 }), areas: [25 * pi], findings: ["import.unit"] },
  "no header": { text: dxf(circle(0, 0, 5), { units: -1 }), areas: [25 * pi], findings: ["import.unit"] },
  "seen from behind": {
    text: dxf(
      lwpolyline(
        [
          [0, 0],
          [10, 0, 0.5],
          [10, 10],
          [0, 10],
        ],
        true,
        [
          [210, 0],
          [220, 0],
          [230, -1],
        ],
      ),
    ),
    areas: [100 + segmentArea(10, 0.5)],
    box: [-12.5, 0, 0, 10],
  },
  "a circle seen from behind": {
    text: dxf(
      circle(20, 0, 5, [
        [210, 0],
        [220, 0],
        [230, -1],
      ]),
    ),
    areas: [25 * pi],
    box: [-25, -5, -15, 5],
  },
  "a circle that stands upright": {
    text: dxf(
      circle(20, 0, 5, [
        [210, 0],
        [220, 1],
        [230, 0],
      ]) + circle(0, 0, 1),
    ),
    areas: [pi],
    findings: ["import.tilted"],
  },
  "a polyline in space": {
    text: dxf(polyline(square(0, 0, 10), 9) + circle(0, 0, 1)),
    areas: [pi],
    findings: ["import.not-understood"],
  },
  "above the plane": {
    text: dxf(
      entity("CIRCLE", [
        [10, 0],
        [20, 0],
        [30, 7],
        [40, 5],
      ]),
    ),
    areas: [25 * pi],
    findings: ["import.height"],
  },
  "a wide line": {
    text: dxf(lwpolyline(square(0, 0, 10), true, [[43, 2]])),
    areas: [100],
    findings: ["import.line-width"],
  },
  "a frozen layer": {
    text: dxf(circle(0, 0, 5, [], "old") + circle(20, 0, 5), { layers: frozen }),
    areas: [25 * pi],
    findings: ["import.hidden"],
    box: [15, -5, 25, 5],
  },
  "a layer that is off": {
    text: dxf(circle(0, 0, 5, [], "old") + circle(20, 0, 5), { layers: off }),
    areas: [25 * pi],
    findings: ["import.hidden"],
  },
  "text, dimensions and points": {
    text: dxf(
      circle(0, 0, 5) +
        entity("TEXT", [
          [10, 0],
          [20, 0],
          [40, 3],
          [1, "deck"],
        ]) +
        entity("POINT", [
          [10, 0],
          [20, 0],
        ]) +
        entity("DIMENSION", [
          [10, 0],
          [20, 0],
        ]),
    ),
    areas: [25 * pi],
    findings: ["import.not-understood"],
  },
  "a spline of fit points": {
    text: dxf(
      entity("SPLINE", [
        [70, 8],
        [71, 3],
        [74, 2],
        [11, 0],
        [21, 0],
        [11, 5],
        [21, 5],
      ]) + circle(0, 0, 5),
    ),
    areas: [25 * pi],
    findings: ["import.not-understood"],
  },
  "only one of two layers": {
    text: dxf(circle(0, 0, 5, [], "a") + circle(20, 0, 5, [], "b")),
    areas: [25 * pi],
    findings: ["import.layer"],
    layers: ["A"],
    box: [-5, -5, 5, 5],
  },
  // DXF: bad geometry
  "a gap of 0.04 mm": {
    text: dxf(line(0, 0, 10, 0) + line(10.04, 0, 10, 10) + line(10, 10, 0, 10) + line(0, 10, 0, 0)),
    areas: [100],
    findings: ["import.joined"],
    error: 0.3,
  },
  "a gap of 0.2 mm": {
    text: dxf(line(0, 0, 10, 0) + line(10.2, 0, 10, 10) + line(10, 10, 0, 10) + line(0, 10, 0, 0)),
    areas: [],
    findings: ["import.open"],
  },
  "a doubled contour": {
    text: dxf(lwpolyline(square(0, 0, 10)) + lwpolyline(square(0, 0, 10).reverse())),
    areas: [100],
    findings: ["import.double"],
  },
  "a doubled circle beside a polyline": {
    text: dxf(
      circle(0, 0, 5) +
        lwpolyline([
          [5, 0, 1],
          [-5, 0, 1],
        ]),
    ),
    areas: [25 * pi],
    findings: ["import.double"],
  },
  "contours that cross": {
    text: dxf(lwpolyline(square(0, 0, 10)) + lwpolyline(square(5, 5, 10))),
    areas: [],
    findings: ["import.crossing"],
  },
  "a figure of eight": {
    text: dxf(
      lwpolyline([
        [0, 0],
        [10, 10],
        [10, 0],
        [0, 10],
      ]) + circle(50, 50, 1),
    ),
    areas: [pi],
    findings: ["import.contour"],
  },
  "repeated points": {
    text: dxf(lwpolyline([...square(0, 0, 10), [0, 10], [0, 0]])),
    areas: [100],
    findings: ["import.repeated-point"],
  },
  "three lines at a point": {
    text: dxf(line(0, 0, 10, 0) + line(10, 0, 10, 10) + line(10, 10, 0, 0) + line(10, 0, 20, 0)),
    areas: [],
    findings: ["import.branch", "import.open"],
  },
  "nothing but an open line": { text: dxf(line(0, 0, 10, 0)), areas: [], findings: ["import.open"] },
  "an empty drawing": { text: dxf(""), areas: [], findings: ["import.nothing"] },
};
