import { bounds, type Region, regionArea } from "@keelcut/geometry";
import { describe, expect, it } from "vitest";
import { defaultImportOptions, importRegions } from "../../packages/cli/src/input/import/index.js";
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
  svg,
} from "./import-files.js";

interface Case {
  readonly text: string;
  /** Areas of the regions, mm2, smallest first. */
  readonly areas: readonly number[];
  /** Finding ids, each once, in alphabetical order. */
  readonly findings?: readonly string[];
  /** Box of all regions: minX, minY, maxX, maxY. */
  readonly box?: readonly [number, number, number, number];
  /** Largest error of the areas; curves that are no arcs are replaced within 0.01 mm. */
  readonly error?: number;
  readonly layers?: readonly string[];
}

const pi = Math.PI;
const slot = [
  [0, 0, 0],
  [20, 0, 1],
  [20, 10, 0],
  [0, 10, 1],
] as const;
const slotArea = 200 + 25 * pi;
const bow = line(0, 0, 40, 0) + arc(20, 0, 20, 0, 180);
const frozen = "0\nLAYER\n2\nold\n70\n1\n62\n7\n6\nCONTINUOUS\n";
const off = "0\nLAYER\n2\nold\n70\n0\n62\n-7\n6\nCONTINUOUS\n";

const cases: Readonly<Record<string, Case>> = {
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
  // SVG
  "every basic shape": {
    text: svg(
      '<rect x="10" y="10" width="20" height="10"/><rect x="40" y="10" width="20" height="10" rx="2"/><circle cx="20" cy="40" r="5"/><polygon points="50,40 60,40 60,50"/>',
    ),
    areas: [50, 25 * pi, 200 - (4 - pi) * 4, 200].sort((a, b) => a - b),
    box: [10, 30, 60, 70],
  },
  "an ellipse and a rectangle with elliptic corners": {
    text: svg(
      '<ellipse cx="30" cy="40" rx="20" ry="10"/><rect x="60" y="10" width="30" height="20" rx="6" ry="3"/>',
    ),
    areas: [600 - (4 - pi) * 18, 200 * pi],
    findings: ["import.fitted"],
    error: 1,
  },
  "lines and a polyline that close": {
    text: svg('<line x1="0" y1="0" x2="10" y2="0"/><polyline points="10,0 10,10 0,10 0,0"/>'),
    areas: [100],
    findings: ["import.joined"],
  },
  "arcs of a path": {
    text: svg('<path d="M10 10 h20 a5 5 0 0 1 0 10 h-20 a5 5 0 0 1 0-10z"/>'),
    areas: [200 + 25 * pi],
    box: [5, 60, 35, 70],
  },
  "a large arc": {
    text: svg('<path d="M20 20 A10 10 0 1 1 20 40 Z"/><path d="M60 30 A10 10 0 1 0 70 40 Z"/>'),
    areas: [50 * pi, 75 * pi + 50],
    error: 1e-6,
  },
  "an elliptic arc": {
    text: svg('<path d="M10 40 A20 10 0 0 1 50 40 Z"/>'),
    areas: [100 * pi],
    findings: ["import.fitted"],
    error: 0.6,
  },
  "relative commands, H, V, and two subpaths": {
    text: svg('<path d="m10 10 h30 v30 h-30 z m10 10 v10 h10 v-10 z"/>'),
    areas: [800],
  },
  "a curve": {
    text: svg('<path d="M0 40 C0 0 60 0 60 40 Z"/>'),
    areas: [60 * 40 * 0.6],
    findings: ["import.fitted"],
    error: 1.2,
  },
  "a curve whose first control point is its start": {
    text: svg('<path d="M0 40 C0 40 60 0 60 40 Z"/>'),
    areas: [60 * 40 * 0.3],
    findings: ["import.fitted"],
    error: 1.2,
  },
  "a curve with a cusp": {
    text: svg('<path d="M10 40 C50 10 10 10 50 40 Z"/><circle cx="80" cy="20" r="5"/>'),
    areas: [25 * pi, 360],
    findings: ["import.fitted"],
    error: 1.2,
  },
  "smooth curves": {
    text: svg('<path d="M10 40 Q20 20 30 40 T50 40 L50 60 L10 60 Z"/>'),
    areas: [800],
    findings: ["import.fitted"],
    error: 1.2,
  },
  "nested transforms": {
    text: svg(
      '<g transform="translate(50 40) rotate(90)"><g transform="scale(2)"><rect x="0" y="0" width="10" height="5"/></g></g>',
    ),
    areas: [200],
    box: [40, 20, 50, 40],
  },
  "a mirrored arc": {
    text: svg('<path transform="matrix(-1 0 0 1 60 0)" d="M10 10 h20 a5 5 0 0 1 0 10 h-20 z"/>'),
    areas: [200 + 12.5 * pi],
    box: [25, 60, 50, 70],
  },
  "a skewed circle": {
    text: svg('<circle transform="skewX(30)" cx="20" cy="20" r="10"/>'),
    areas: [100 * pi],
    findings: ["import.fitted"],
    error: 0.7,
  },
  "inches and a viewBox": {
    text: svg('<rect x="0" y="0" width="10" height="10"/>', 'width="2in" height="1in" viewBox="0 0 20 10"'),
    areas: [25.4 ** 2],
    box: [0, 0, 25.4, 25.4],
  },
  "px without a unit": {
    text: svg('<rect x="0" y="0" width="96" height="96"/>', 'width="96" height="96"'),
    areas: [25.4 ** 2],
    findings: ["import.unit"],
  },
  "no size at all": {
    text: svg('<rect x="0" y="0" width="96" height="96"/>', ""),
    areas: [25.4 ** 2],
    findings: ["import.unit"],
  },
  "lengths with units": {
    text: svg('<circle cx="10mm" cy="10mm" r="5mm"/>', 'width="100mm" height="100mm"'),
    areas: [25 * pi],
    box: [5, 85, 15, 95],
  },
  "a viewBox of another shape": {
    text: svg('<rect x="0" y="0" width="10" height="10"/>', 'width="20mm" height="40mm" viewBox="0 0 10 10"'),
    areas: [400],
    findings: ["import.aspect"],
    box: [0, 10, 20, 30],
  },
  "a viewBox with an origin": {
    text: svg(
      '<rect x="-50" y="-50" width="10" height="10"/>',
      'width="100mm" height="100mm" viewBox="-50 -50 100 100"',
    ),
    areas: [100],
    box: [0, 90, 10, 100],
  },
  "text, an image and a use": {
    text: svg(
      '<text x="1" y="1">deck</text><image href="a.png"/><use href="#a"/><circle cx="20" cy="20" r="5"/>',
    ),
    areas: [25 * pi],
    findings: ["import.not-understood"],
  },
  "definitions and what is hidden": {
    text: svg(
      '<defs><circle id="a" r="5"/></defs><circle style="display:none" r="5"/><g visibility="hidden"><circle r="5"/></g><circle cx="20" cy="20" r="5"/>',
    ),
    areas: [25 * pi],
    findings: ["import.hidden", "import.not-drawn"],
  },
  "a clip path and a style that moves": {
    text: svg(
      '<circle clip-path="url(#a)" cx="20" cy="20" r="5"/><rect style="transform:scale(2)" width="5" height="5"/>',
    ),
    areas: [25 * pi],
    findings: ["import.not-understood"],
  },
  "a transform that is no transform": {
    text: svg('<circle cx="20" cy="20" r="5" transform="rotate(9"/><circle cx="40" cy="20" r="5"/>'),
    areas: [25 * pi],
    findings: ["import.not-understood"],
  },
  "a radius that is no number": {
    text: svg('<circle cx="20" cy="20" r="big"/><circle cx="40" cy="20" r="5"/>'),
    areas: [25 * pi],
    findings: ["import.not-understood"],
  },
  "path data with an error in the middle": {
    text: svg('<path d="M0 0 L10 0 L10 10 oops Z"/><circle cx="40" cy="20" r="5"/>'),
    areas: [25 * pi],
    findings: ["import.not-understood"],
  },
  "a path with text entities in its id": {
    text: svg('<g id="a&amp;b&#33;"><circle cx="20" cy="20" r="5"/></g>'),
    areas: [25 * pi],
    layers: ["a&b!"],
  },
  // Broken files
  "an empty file": { text: "", areas: [], findings: ["import.unreadable"] },
  "some prose": { text: "Dear shop,\nplease cut this.\n", areas: [], findings: ["import.unreadable"] },
  "a DXF cut short": {
    text: dxf(lwpolyline(slot)).slice(0, -20),
    areas: [],
    findings: ["import.unreadable"],
  },
  "a DXF without EOF": {
    text: dxf(circle(0, 0, 5)).replace("0\nEOF\n", ""),
    areas: [],
    findings: ["import.unreadable"],
  },
  "a DXF with something after its end": {
    text: `${dxf(circle(0, 0, 5))}0\nSECTION\n`,
    areas: [],
    findings: ["import.unreadable"],
  },
  "a binary DXF": {
    text: "AutoCAD Binary DXF\r\n\u001a\u0000\u0000",
    areas: [],
    findings: ["import.unreadable"],
  },
  "a DXF without entities": {
    text: "0\nSECTION\n2\nHEADER\n0\nENDSEC\n0\nEOF\n",
    areas: [],
    findings: ["import.unreadable"],
  },
  "a coordinate 1.#QNAN": {
    text: dxf(circle(0, 0, 5).replace("\n40\n5", "\n40\n1.#QNAN")),
    areas: [],
    findings: ["import.unreadable"],
  },
  "a coordinate foo": {
    text: dxf(line(0, 0, 1, 1).replace("10\n0", "10\nfoo")),
    areas: [],
    findings: ["import.unreadable"],
  },
  "a coordinate beyond double range": {
    text: dxf(line(0, 0, 1, 1).replace("10\n0", "10\n1e999")),
    areas: [],
    findings: ["import.unreadable"],
  },
  "a circle without a radius": {
    text: dxf(
      entity("CIRCLE", [
        [10, 0],
        [20, 0],
      ]),
    ),
    areas: [],
    findings: ["import.unreadable"],
  },
  "a circle of negative radius": { text: dxf(circle(0, 0, -5)), areas: [], findings: ["import.unreadable"] },
  "a polyline that lies about its vertices": {
    text: dxf(lwpolyline(square(0, 0, 10)).replace("90\n4", "90\n3")),
    areas: [],
    findings: ["import.unreadable"],
  },
  "a polyline with groups dxf-parser stops at": {
    text: dxf(
      entity("LWPOLYLINE", [
        [90, 4],
        [70, 1],
        ...square(0, 0, 10).flatMap(
          ([x, y], i) =>
            [
              [10, x],
              [20, y],
              [91, i],
            ] as const,
        ),
      ]),
    ),
    areas: [100],
  },
  "a polyline without its end": {
    text: dxf(polyline(slot).replace("0\nSEQEND\n8\n0\n", "")),
    areas: [],
    findings: ["import.unreadable"],
  },
  "Windows line ends and spaces": {
    text: dxf(circle(5, 5, 5))
      .replace(/^(\d+)$/gm, "  $1")
      .replace(/\n/g, "\r\n"),
    areas: [25 * pi],
  },
  "a byte order mark": { text: `\uFEFF${dxf(circle(5, 5, 5))}`, areas: [25 * pi] },
  "an SVG cut short": {
    text: svg('<g><circle cx="5" cy="5" r="5"/></g>').slice(0, 130),
    areas: [],
    findings: ["import.unreadable"],
  },
  "an SVG with two roots": { text: `${svg("")}${svg("")}`, areas: [], findings: ["import.unreadable"] },
  "another XML": { text: "<html><body/></html>", areas: [], findings: ["import.unreadable"] },
  "an SVG nested too deep": {
    text: svg(`${"<g>".repeat(60000)}${"</g>".repeat(60000)}`),
    areas: [],
    findings: ["import.unreadable"],
  },
  "entities that would grow without end": {
    text: `<!DOCTYPE svg [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;">]>${svg('<desc>&b;</desc><circle cx="20" cy="20" r="5"/>')}`,
    areas: [25 * pi],
  },
  "a zero viewBox": {
    text: svg("", 'width="10mm" height="10mm" viewBox="0 0 0 0"'),
    areas: [],
    findings: ["import.unreadable"],
  },
};

/** Area between a chord and its arc. */
function segmentArea(chord: number, bulge: number): number {
  const sweep = 4 * Math.atan(bulge);
  const radius = (chord * (1 + bulge * bulge)) / (4 * bulge);
  return (radius * radius * (sweep - Math.sin(sweep))) / 2;
}

function boxOf(regions: readonly Region[]): number[] {
  const boxes = regions.map((region) => bounds(region.outer));
  return [
    Math.min(...boxes.map((box) => box.minX)),
    Math.min(...boxes.map((box) => box.minY)),
    Math.max(...boxes.map((box) => box.maxX)),
    Math.max(...boxes.map((box) => box.maxY)),
  ];
}

describe("a stranger's file", () => {
  it("comes in many kinds", () => {
    expect(Object.keys(cases).length).toBeGreaterThanOrEqual(40);
  });
  it.each(Object.entries(cases))("%s", (_, { text, areas, findings = [], box, error = 1e-6, layers }) => {
    const options = layers === undefined ? defaultImportOptions : { ...defaultImportOptions, layers };
    const imported = importRegions(text, options);
    expect([...new Set(imported.findings.map((finding) => finding.id))].sort()).toEqual(findings);
    const found = imported.regions.map(regionArea).sort((a, b) => a - b);
    expect(found).toHaveLength(areas.length);
    found.forEach((area, index) => {
      expect(Math.abs(area - (areas[index] ?? 0))).toBeLessThanOrEqual(error);
    });
    if (box !== undefined) {
      boxOf(imported.regions).forEach((value, index) => {
        expect(Math.abs(value - (box[index] ?? 0))).toBeLessThanOrEqual(Math.max(error / 20, 1e-6));
      });
    }
    for (const finding of imported.findings) {
      expect(finding.place).not.toBe("");
      expect(finding.message).not.toBe("");
    }
  });
});
