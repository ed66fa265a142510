import { copy, type Entity, edit, first, move, on, polyline, set, toLayer } from "./prove-damage.js";
import {
  type Damage,
  good,
  inDxf,
  inText,
  largeCircle,
  largest,
  replace,
  svg,
  toEnd,
} from "./prove-damaged-job.js";

/** Damage to layers, marks, the text of a file, and the order of cuts. */
export const otherDamage: Damage = [
  // Layers and what is drawn beside
  [
    "an opening on the outline's layer",
    () => inDxf((all) => toLayer(first(all, "opening"), "outline")),
    "prove.layer",
  ],
  [
    "an outline on the openings' layer",
    () => inDxf((all) => toLayer(first(all, "outline"), "opening")),
    "prove.layer",
  ],
  [
    "an outline on a layer of its own",
    () => inDxf((all) => toLayer(first(all, "outline"), "Layer 1")),
    "prove.layer",
  ],
  [
    "an outline on the reference layer",
    () => inDxf((all) => toLayer(first(all, "outline", "CIRCLE"), "stock")),
    "prove.missing",
  ],
  [
    "the stock's edge on a cutting layer",
    () => inDxf((all) => toLayer(first(all, "stock"), "outline")),
    "prove.extra",
  ],
  ["no stock outline", () => inDxf((all) => replace(all, first(all, "stock"))), "prove.stock"],
  [
    "a stock outline 1 mm too wide",
    () => inDxf((all) => set(first(all, "stock"), 10, (x) => x * (601 / 600))),
    "prove.stock",
  ],
  [
    "a mark in the free corner",
    () =>
      inDxf((all) => {
        all.push(
          polyline(
            "mark",
            [
              [500, 50],
              [510, 50],
            ],
            false,
          ),
        );
      }),
    "prove.mark",
  ],
  ["a mark moved across an opening", () => inDxf((all) => move(first(all, "mark"), 60, 60)), "prove.mark"],
  [
    "a mark drawn twice",
    () =>
      inDxf((all) => {
        all.unshift(copy(first(all, "mark")));
      }),
    "prove.double",
  ],
  ["a mark stroke missing", () => inDxf((all) => replace(all, first(all, "mark"))), "prove.mark-strokes"],
  [
    "a note stroke moved into the sheet",
    () => inDxf((all) => move(on(all, "stock").at(-1) ?? first(all, "stock"), 0, -200)),
    "prove.note",
  ],
  [
    "live text",
    () =>
      inDxf((all) => {
        all.push({
          type: "TEXT",
          tags: [
            [8, "mark"],
            [10, "100"],
            [20, "100"],
            [40, "5"],
            [1, "deck"],
          ],
        });
      }),
    "import.not-understood",
  ],
  [
    "a hatch",
    () =>
      inDxf((all) => {
        all.push({
          type: "HATCH",
          tags: [
            [8, "outline"],
            [2, "SOLID"],
          ],
        });
      }),
    "import.not-understood",
  ],
  [
    "a dimension",
    () =>
      inDxf((all) => {
        all.push({
          type: "DIMENSION",
          tags: [
            [8, "outline"],
            [10, "0"],
            [20, "0"],
          ],
        });
      }),
    "import.not-understood",
  ],
  [
    "a plate in a block",
    () =>
      inText((text) => {
        const e: { entity?: Entity } = {};
        const without = edit(text, (all) => {
          e.entity = largest(all, "outline", "LWPOLYLINE");
          replace(all, e.entity, {
            type: "INSERT",
            tags: [
              [8, "outline"],
              [2, "B"],
              [10, "0"],
              [20, "0"],
            ],
          });
        });
        const body = e.entity?.tags.map(([c, v]) => `${c}\n${v}\n`).join("");
        const block = `0\nBLOCK\n8\n0\n2\nB\n70\n0\n10\n0\n20\n0\n0\nLWPOLYLINE\n${body}0\nENDBLK\n8\n0\n`;
        return without.replace("2\nBLOCKS\n", `2\nBLOCKS\n${block}`);
      }),
    "prove.block",
  ],
  // Things readers see differently
  [
    "a line width",
    () =>
      inDxf((all) => {
        largest(all, "outline", "LWPOLYLINE").tags.splice(3, 0, [43, "2"]);
      }),
    "import.line-width",
  ],
  [
    "a height above the plane",
    () =>
      inDxf((all) => {
        largest(all, "outline", "LWPOLYLINE").tags.splice(3, 0, [38, "5"]);
      }),
    "import.height",
  ],
  [
    "an invisible outline",
    () =>
      inDxf((all) => {
        largest(all, "outline", "LWPOLYLINE").tags.push([60, "1"]);
      }),
    "import.hidden",
  ],
  [
    "an outline in paper space",
    () =>
      inDxf((all) => {
        largest(all, "outline", "LWPOLYLINE").tags.push([67, "1"]);
      }),
    "import.hidden",
  ],
  [
    "a circle seen from behind",
    () =>
      inDxf((all) => {
        first(all, "opening", "CIRCLE").tags.push([210, "0"], [220, "0"], [230, "-1"]);
      }),
    "prove.negative",
  ],
  [
    "a tilted circle",
    () =>
      inDxf((all) => {
        first(all, "opening", "CIRCLE").tags.push([210, "1"], [220, "0"], [230, "0"]);
      }),
    "import.tilted",
  ],
  // Broken text
  ["a file cut short", () => inText((text) => text.slice(0, text.length / 2)), "import.unreadable"],
  ["a file without its end", () => inText((text) => text.replace("0\nEOF\n", "")), "import.unreadable"],
  [
    "a coordinate that is no number",
    () => inDxf((all) => set(first(all, "opening", "CIRCLE"), 10, () => "NaN")),
    "import.unreadable",
  ],
  [
    "a comma for the decimal point",
    () => inDxf((all) => set(first(all, "opening", "CIRCLE"), 40, () => "3,3")),
    "import.unreadable",
  ],
  ["an empty file", () => inText(() => ""), "import.unreadable"],
  ["an SVG under the name of the DXF", () => inText(() => good.files[svg]?.text ?? ""), "prove.format"],
  // Order
  [
    "an outline before its openings",
    () =>
      inDxf((all) => {
        const e = largest(all, "outline", "LWPOLYLINE");
        replace(all, e);
        all.unshift(e);
      }),
    "prove.order",
  ],
  ["an opening after the outline", () => inDxf((all) => toEnd(all, largeCircle(all))), "prove.order"],
  [
    "a plate in an opening after that opening",
    () =>
      inDxf((all) => {
        for (const e of on(all, "outline", "CIRCLE")) toEnd(all, e);
      }),
    "prove.order",
  ],
];
