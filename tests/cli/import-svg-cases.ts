import type { Cases } from "./import-case.js";
import { svg } from "./import-files.js";

const pi = Math.PI;

/** Shapes, paths, transforms, units. */
export const svgCases: Cases = {
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
};
