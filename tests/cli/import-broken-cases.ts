import { type Cases, slot } from "./import-case.js";
import { circle, dxf, entity, line, lwpolyline, polyline, square, svg } from "./import-files.js";

const pi = Math.PI;

/** Files that are cut short, malformed, or something else. */
export const brokenCases: Cases = {
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
