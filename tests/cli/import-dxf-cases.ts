import { type Cases, segmentArea, slot, slotArea } from "./import-case.js";
import {
  arc,
  block,
  circle,
  dxf,
  entity,
  insert,
  line,
  lwpolyline,
  polyline,
  spline,
  square,
} from "./import-files.js";

const pi = Math.PI;

const bow = line(0, 0, 40, 0) + arc(20, 0, 20, 0, 180);

/** Every entity, and blocks. */
export const dxfCases: Cases = {
  // DXF: every entity
  "lines in any order and direction": {
    text: dxf(line(0, 0, 10, 0) + line(0, 10, 0, 0) + line(10, 10, 10, 0) + line(10, 10, 0, 10)),
    areas: [100],
    findings: ["import.joined"],
  },
  "a line and an arc": { text: dxf(bow), areas: [200 * pi], findings: ["import.joined"] },
  "a circle": { text: dxf(circle(5, 5, 5)), areas: [25 * pi], box: [0, 0, 10, 10] },
  "a closed polyline with bulges": { text: dxf(lwpolyline(slot)), areas: [slotArea], box: [-5, 0, 25, 10] },
  "an old polyline with bulges": { text: dxf(polyline(slot)), areas: [slotArea], box: [-5, 0, 25, 10] },
  "a bulge of more than half a circle": {
    text: dxf(
      lwpolyline([
        [0, 0, Math.tan((270 * pi) / 180 / 4)],
        [10, 0, 0],
      ]),
    ),
    areas: [(50 * 270 * pi) / 360 + 25],
    error: 1e-6,
  },
  "two arcs from 0 to 180 and back": {
    text: dxf(arc(0, 0, 10, 0, 180) + arc(0, 0, 10, 180, 360)),
    areas: [100 * pi],
    findings: ["import.joined"],
  },
  "an arc over zero degrees": {
    text: dxf(arc(0, 0, 10, 270, 90) + line(0, -10, 0, 10)),
    areas: [50 * pi],
    findings: ["import.joined"],
  },
  "a whole ellipse": {
    text: dxf(
      entity("ELLIPSE", [
        [10, 50],
        [20, 50],
        [11, 30],
        [21, 0],
        [40, 0.5],
        [41, 0],
        [42, 2 * pi],
      ]),
    ),
    areas: [450 * pi],
    findings: ["import.fitted"],
    error: 1.5,
    box: [20, 35, 80, 65],
  },
  "an ellipse that is a circle": {
    text: dxf(
      entity("ELLIPSE", [
        [10, 5],
        [20, 5],
        [11, 0],
        [21, 5],
        [40, 1],
        [41, 0],
        [42, 2 * pi],
      ]),
    ),
    areas: [25 * pi],
  },
  "half an ellipse and its axis": {
    text: dxf(
      entity("ELLIPSE", [
        [10, 0],
        [20, 0],
        [11, 30],
        [21, 0],
        [40, 0.5],
        [41, 0],
        [42, pi],
      ]) + line(-30, 0, 30, 0),
    ),
    areas: [225 * pi],
    findings: ["import.fitted", "import.joined"],
    error: 1,
  },
  "a rational spline that is a circle": {
    text: dxf(
      spline(
        2,
        [0, 0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 4],
        [
          [10, 0],
          [10, 10],
          [0, 10],
          [-10, 10],
          [-10, 0],
          [-10, -10],
          [0, -10],
          [10, -10],
          [10, 0],
        ],
        [1, Math.SQRT1_2, 1, Math.SQRT1_2, 1, Math.SQRT1_2, 1, Math.SQRT1_2, 1],
      ),
    ),
    areas: [100 * pi],
    findings: ["import.fitted"],
    error: 0.65,
  },
  "a cubic spline with a straight back": {
    // Area under the Bezier curve of these controls: 60 x 40 x 0.6.
    text: dxf(
      spline(
        3,
        [0, 0, 0, 0, 1, 1, 1, 1],
        [
          [0, 0],
          [0, 40],
          [60, 40],
          [60, 0],
        ],
      ) + line(60, 0, 0, 0),
    ),
    areas: [60 * 40 * 0.6],
    findings: ["import.fitted", "import.joined"],
    error: 1.2,
  },
  "holes and plates in holes": {
    text: dxf(
      lwpolyline(square(0, 0, 100)) +
        lwpolyline(square(10, 10, 60)) +
        lwpolyline(square(20, 20, 30)) +
        circle(85, 85, 5) +
        circle(35, 35, 5),
    ),
    areas: [900 - 25 * pi, 10000 - 3600 - 25 * pi],
  },
  // DXF: blocks
  "a block, turned, scaled, shifted": {
    text: dxf(
      insert("P", 100, 50, [
        [41, 2],
        [42, 2],
        [50, 90],
      ]),
      { blocks: block("P", lwpolyline(slot), [10, 5]) },
    ),
    areas: [4 * slotArea],
    box: [90, 20, 110, 80],
  },
  "a mirrored block": {
    text: dxf(
      insert("P", 0, 0, [
        [41, -1],
        [42, 1],
      ]),
      {
        blocks: block(
          "P",
          lwpolyline([
            [0, 0],
            [10, 0, 0.5],
            [10, 10],
            [0, 10],
          ]),
        ),
      },
    ),
    areas: [100 + segmentArea(10, 0.5)],
    box: [-12.5, 0, 0, 10],
  },
  "a block stretched one way": {
    text: dxf(
      insert("P", 0, 0, [
        [41, 2],
        [42, 1],
      ]),
      { blocks: block("P", circle(0, 0, 10)) },
    ),
    areas: [200 * pi],
    findings: ["import.fitted"],
    error: 1,
    box: [-20, -10, 20, 10],
  },
  "an array of blocks": {
    text: dxf(
      insert("P", 0, 0, [
        [70, 3],
        [71, 2],
        [44, 20],
        [45, 30],
      ]),
      { blocks: block("P", circle(5, 5, 5)) },
    ),
    areas: Array(6).fill(25 * pi),
    box: [0, 0, 50, 40],
  },
  "blocks in blocks": {
    text: dxf(insert("Q", 10, 0), {
      blocks:
        block("P", circle(0, 0, 5)) +
        block(
          "Q",
          insert("p", 0, 20, [
            [41, 2],
            [42, 2],
          ]),
        ),
    }),
    areas: [100 * pi],
    box: [0, 10, 20, 30],
  },
  "a block that contains itself": {
    text: dxf(insert("P", 0, 0), { blocks: block("P", insert("P", 1, 0) + circle(0, 0, 5)) }),
    areas: [25 * pi],
    findings: ["import.block"],
  },
  "a block that is not there": {
    text: dxf(insert("nowhere", 0, 0) + circle(0, 0, 5)),
    areas: [25 * pi],
    findings: ["import.block"],
  },
  "a block of another file": {
    text: dxf(insert("X", 0, 0) + circle(0, 0, 5), { blocks: block("X", "", [0, 0], 4) }),
    areas: [25 * pi],
    findings: ["import.block"],
  },
  "a layer given to a block's contents": {
    text: dxf(insert("P", 0, 0, [], "cut") + circle(50, 0, 5), { blocks: block("P", circle(0, 0, 5)) }),
    areas: [25 * pi],
    findings: ["import.layer"],
    layers: ["CUT"],
    box: [-5, -5, 5, 5],
  },
};
