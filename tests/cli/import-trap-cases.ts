import type { Cases } from "./import-case.js";
import { circle, dxf, entity, svg } from "./import-files.js";

const insert = (name: string): string =>
  entity("INSERT", [
    [2, name],
    [10, 0],
    [20, 0],
  ]);
const block = (name: string, entities: string): string =>
  `0\nBLOCK\n8\n0\n2\n${name}\n70\n0\n10\n0\n20\n0\n${entities}0\nENDBLK\n`;
const plate = '<rect x="1" y="1" width="98" height="98"/>';

/** Files that look harmless and were, or could be, read as something else. */
export const trapCases: Cases = {
  "shapes in a comment": {
    text: svg(
      `${plate}<!-- old: <circle cx="20" cy="50" r="5"/> <circle cx="80" cy="50" r="5"/> --><!-- <g>> -->`,
    ),
    areas: [98 * 98],
  },
  "a contour with a line shorter than what ends are joined over": {
    text: dxf(
      [
        [0, 0],
        [20, 0],
        [20.03, 0.02],
        [20.03, 20],
        [0, 20],
      ]
        .map(([x = 0, y = 0], index, all) => {
          const [toX = 0, toY = 0] = all[(index + 1) % all.length] ?? [];
          return entity("LINE", [
            [10, x],
            [20, y],
            [11, toX],
            [21, toY],
          ]);
        })
        .join(""),
    ),
    areas: [20 * 20 + 0.03 * 20 - 0.0003],
    findings: ["import.joined"],
  },
  "a hole in a group within the group asked for": {
    text: svg(`<g id="layer1">${plate}<g id="g42"><circle cx="50" cy="50" r="10"/></g></g>`),
    layers: ["layer1"],
    areas: [98 * 98 - 100 * Math.PI],
  },
  "a misspelt layer": {
    text: dxf(circle(0, 0, 20, [], "cut") + circle(0, 0, 5, [], "holes")),
    layers: ["cut", "hols"],
    areas: [400 * Math.PI],
    findings: ["import.layer"],
  },
  "a layer that is there and empty": {
    text: dxf(circle(0, 0, 20, [], "cut"), { layers: "0\nLAYER\n2\nholes\n70\n0\n62\n7\n" }),
    layers: ["cut", "holes"],
    areas: [400 * Math.PI],
  },
  "what cannot be read, on a layer that nobody asked for": {
    text: dxf(
      circle(0, 0, 20, [], "cut") +
        circle(9, 9, 0, [], "notes") +
        entity(
          "TEXT",
          [
            [10, 0],
            [20, 0],
            [40, 3],
            [1, "x"],
          ],
          "notes",
        ),
    ),
    layers: ["cut"],
    areas: [400 * Math.PI],
    findings: ["import.layer"],
  },
  "a drawing that is mirrored as a whole": {
    text: svg(plate).replace("<svg ", '<svg transform="scale(-1,1)" '),
    areas: [],
    findings: ["import.unreadable"],
  },
  "a drawing that is scaled as a whole by its style": {
    text: svg(plate).replace("<svg ", '<svg style="scale: 2" '),
    areas: [],
    findings: ["import.unreadable"],
  },
  "a drawing that is not displayed": {
    text: svg(plate).replace("<svg ", '<svg style="display:none" '),
    areas: [],
    findings: ["import.unreadable"],
  },
  "a circle turned about another place": {
    text: svg(
      `${plate}<circle transform="rotate(90)" style="transform-origin:50px 50px" cx="20" cy="50" r="5"/>`,
    ),
    areas: [98 * 98],
    findings: ["import.not-understood"],
  },
  "a width alone, which the viewBox completes": {
    text: '<svg xmlns="http://www.w3.org/2000/svg" width="100mm" viewBox="0 0 50 25"><rect x="5" y="5" width="20" height="10"/></svg>',
    areas: [40 * 20],
    box: [10, 20, 50, 40],
  },
  "a copied hole": {
    text: svg(`${plate}<circle id="hole" cx="20" cy="50" r="5"/><use href="#hole" x="60"/>`),
    areas: [98 * 98 - 25 * Math.PI],
    findings: ["import.not-understood"],
  },
  "a move that is closed at once": {
    text: svg('<path d="M10 10H60V60H10Z M20 20Z M30 30zz"/>'),
    areas: [2500],
  },
  "a frozen layer in another case": {
    text: dxf(circle(0, 0, 20) + circle(0, 0, 5, [], "Old"), { layers: "0\nLAYER\n2\nOLD\n70\n1\n62\n7\n" }),
    areas: [400 * Math.PI],
    findings: ["import.hidden"],
  },
  "blocks that double forty times and draw nothing": {
    text: dxf(insert("b0"), {
      blocks: [
        ...Array.from({ length: 40 }, (_, k) => block(`b${k}`, insert(`b${k + 1}`).repeat(2))),
        block("b40", ""),
      ].join(""),
    }),
    areas: [],
    findings: ["import.unreadable"],
  },
  "a number of a hundred thousand digits and a letter": {
    text: dxf(circle(0, 0, 20).replace("\n20\n0\n", `\n20\n${"1".repeat(100_000)}x\n`)),
    areas: [],
    findings: ["import.unreadable"],
  },
};
