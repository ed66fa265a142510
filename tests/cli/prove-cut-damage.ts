import {
  chords,
  copy,
  type Entity,
  exploded,
  first,
  move,
  on,
  polyline,
  scaled,
  set,
  vertices,
} from "./prove-damage.js";
import {
  type Damage,
  each,
  hole,
  inDxf,
  inText,
  largeCircle,
  largest,
  replace,
  square,
} from "./prove-damaged-job.js";

/** Damage to units, scale, and the lines that are cut. */
export const cutDamage: Damage = [
  // Units and scale
  ["everything 25.4 times as large", () => inText((text) => scaled(text, 25.4)), "prove.scale"],
  ["everything 25.4 times as small", () => inText((text) => scaled(text, 1 / 25.4)), "prove.scale"],
  ["everything two thousandths larger", () => inText((text) => scaled(text, 1.002)), "prove.scale"],
  ["everything a ten-thousandth larger", () => inText((text) => scaled(text, 1.0001)), "prove.changed"],
  ["unit inch", () => inText((text) => text.replace("$INSUNITS\n70\n4", "$INSUNITS\n70\n1")), "prove.unit"],
  [
    "unit centimetre",
    () => inText((text) => text.replace("$INSUNITS\n70\n4", "$INSUNITS\n70\n5")),
    "prove.unit",
  ],
  ["no unit", () => inText((text) => text.replace("9\n$INSUNITS\n70\n4\n", "")), "prove.unit"],
  [
    "unit light year",
    () => inText((text) => text.replace("$INSUNITS\n70\n4", "$INSUNITS\n70\n19")),
    "prove.unit",
  ],
  ["mirrored", () => inDxf((all) => each(all, (e) => set(e, 10, (x) => 600 - x))), "prove.missing"],
  ["everything 1 mm to the right", () => inDxf((all) => each(all, (e) => move(e, 1, 0))), "prove.changed"],
  ["everything below zero", () => inDxf((all) => each(all, (e) => move(e, -100, 0))), "prove.negative"],
  [
    "a wrong extent in the header",
    () => inText((text) => text.replace(/(\$EXTMAX\n10\n)[\d.]+/, "$1123")),
    "prove.extent",
  ],
  // Moved, resized
  [
    "a circle moved by 0.01 mm",
    () => inDxf((all) => move(first(all, "opening", "CIRCLE"), 0.01, 0)),
    "prove.changed",
  ],
  [
    "an outline moved by 0.001 mm",
    () => inDxf((all) => move(first(all, "outline", "LWPOLYLINE"), 0, 0.001)),
    "prove.changed",
  ],
  [
    "a circle 0.01 mm too large",
    () => inDxf((all) => set(first(all, "opening", "CIRCLE"), 40, (r) => r + 0.01)),
    "prove.changed",
  ],
  [
    "one vertex moved",
    () => inDxf((all) => set(largest(all, "outline", "LWPOLYLINE"), 10, (x) => x + 0.2, 1)),
    "prove.changed",
  ],
  [
    "a bulge the other way",
    () => inDxf((all) => set(largest(all, "outline", "LWPOLYLINE"), 42, (b) => -b)),
    "prove.changed",
  ],
  [
    "a bulge a little flatter",
    () => inDxf((all) => set(largest(all, "outline", "LWPOLYLINE"), 42, (b) => b * 0.999)),
    "prove.changed",
  ],
  // Doubled, crossing, extra, missing
  [
    "a doubled outline",
    () =>
      inDxf((all) => {
        all.push(copy(largest(all, "outline", "LWPOLYLINE")));
      }),
    "prove.double",
  ],
  [
    "a doubled circle",
    () =>
      inDxf((all) => {
        all.push(copy(first(all, "opening", "CIRCLE")));
      }),
    "prove.double",
  ],
  [
    "an outline doubled 0.0005 mm beside",
    () =>
      inDxf((all) => {
        const c = copy(largest(all, "outline", "LWPOLYLINE"));
        move(c, 0.0005, 0);
        all.push(c);
      }),
    "prove.double",
  ],
  [
    "a copy that crosses",
    () =>
      inDxf((all) => {
        const c = copy(largest(all, "outline", "LWPOLYLINE"));
        move(c, 3, 3);
        all.push(c);
      }),
    "prove.crossing",
  ],
  [
    "an extra rectangle in the free corner",
    () =>
      inDxf((all) => {
        all.push(polyline("outline", square(520, 60, 20)));
      }),
    "prove.extra",
  ],
  [
    "an extra hole in a plate",
    () =>
      inDxf((all) => {
        all.push(polyline("opening", square(60, 50, 5)));
      }),
    "prove.extra",
  ],
  [
    "a frame around the sheet on the cutting layer",
    () =>
      inDxf((all) => {
        all.push(polyline("outline", square(0, 0, 399)));
      }),
    "prove.extra",
  ],
  [
    "a stray line on a cutting layer",
    () =>
      inDxf((all) => {
        all.push(
          polyline(
            "outline",
            [
              [500, 50],
              [550, 50],
            ],
            false,
          ),
        );
      }),
    "prove.open",
  ],
  ["a missing hole", () => inDxf((all) => replace(all, first(all, "opening", "CIRCLE"))), "prove.missing"],
  [
    "a missing plate",
    () =>
      inDxf((all) => {
        for (const e of on(all, "outline", "CIRCLE").slice(0, 1)) replace(all, e);
      }),
    "prove.missing",
  ],
  [
    "no entity at all",
    () =>
      inDxf((all) => {
        all.length = 0;
      }),
    "prove.empty",
  ],
  // Open, broken contours
  [
    "a contour not closed",
    () => inDxf((all) => set(largest(all, "outline", "LWPOLYLINE"), 70, () => 0)),
    "prove.open",
  ],
  [
    "a contour exploded into lines",
    () =>
      inDxf((all) => {
        const e = first(all, "opening", "LWPOLYLINE");
        replace(all, e, ...exploded(e));
      }),
    "prove.open",
  ],
  [
    "a circle as two arcs",
    () =>
      inDxf((all) => {
        const e = first(all, "opening", "CIRCLE");
        const half = (from: number, to: number): Entity => ({
          type: "ARC",
          tags: [...copy(e).tags, [50, String(from)], [51, String(to)]],
        });
        replace(all, e, half(0, 180), half(180, 360));
      }),
    "prove.open",
  ],
  [
    "two vertices swapped",
    () =>
      inDxf((all) => {
        const e = first(all, "opening", "LWPOLYLINE");
        const [a, b, ...rest] = vertices(e);
        if (a !== undefined && b !== undefined)
          replace(
            all,
            e,
            polyline(
              "opening",
              [b, a, ...rest].map(({ x, y }) => [x, y] as const),
            ),
          );
      }),
    "prove.contour",
  ],
  [
    "a segment of no length",
    () =>
      inDxf((all) => {
        const e = on(all, "opening", "LWPOLYLINE").find((each) =>
          vertices(each).every(({ bulge }) => bulge === 0),
        );
        if (e === undefined) throw new Error("no rectangle");
        const points = vertices(e).map(({ x, y }) => [x, y] as const);
        replace(all, e, polyline("opening", [...points, ...points.slice(-1)]));
      }),
    "prove.contour",
  ],
  // Arcs
  [
    "a circle by 64 chords",
    () =>
      inDxf((all) => {
        const e = largeCircle(all);
        replace(all, e, chords(e, 64));
      }),
    "prove.changed",
  ],
  [
    "a circle by chords too fine to measure",
    () =>
      inDxf((all) => {
        const e = hole(all, 3.3);
        replace(all, e, chords(e, 2000));
      }),
    "prove.not-arcs",
  ],
  [
    "an arc replaced by its chord",
    () => inDxf((all) => set(largest(all, "outline", "LWPOLYLINE"), 42, () => 0, 1)),
    "prove.changed",
  ],
  [
    "a spline",
    () =>
      inDxf((all) => {
        all.push({
          type: "SPLINE",
          tags: [
            [8, "outline"],
            [70, "8"],
            [71, "3"],
            [72, "8"],
            [73, "4"],
            [74, "0"],
            ...[0, 0, 0, 0, 1, 1, 1, 1].map((k): [number, string] => [40, String(k)]),
            ...[
              [500, 60],
              [510, 80],
              [530, 80],
              [540, 60],
            ].flatMap(([x, y]): [number, string][] => [
              [10, String(x)],
              [20, String(y)],
              [30, "0"],
            ]),
          ],
        });
      }),
    "prove.not-arcs",
  ],
];
