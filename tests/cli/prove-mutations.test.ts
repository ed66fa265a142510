import { describe, expect, it } from "vitest";
import { type Expectations, prove, type WrittenFile } from "../../packages/cli/src/prove/index.js";
import {
  chords,
  copy,
  type Entity,
  edit,
  exploded,
  first,
  move,
  on,
  polyline,
  scaled,
  set,
  toLayer,
  value,
  vertices,
} from "./prove-damage.js";
import { type ProvedJob, writeJob } from "./prove-samples.js";

/** One sheet in both formats and one plate file, to keep every case quick. */
function small(job: ProvedJob): ProvedJob {
  const [sheet] = job.expectations.sheets;
  const [plateFile] = job.expectations.plateFiles;
  if (sheet === undefined || plateFile === undefined) throw new Error("the sample job is empty");
  const copies = (id: string): number =>
    sheet.placements.filter(({ plate }) => plate === id).length * sheet.times;
  const names = [sheet.name, plateFile.name];
  return {
    files: job.files.filter(({ name }) => names.some((wanted) => name.includes(`/${wanted}.`))),
    expectations: {
      ...job.expectations,
      sheets: [sheet],
      plateFiles: [plateFile],
      plates: job.expectations.plates.map((plate) => ({ ...plate, copies: copies(plate.id) })),
    },
  };
}

const kerf = 3.175;
const good = small(writeJob({ state: "nominal" }));
const compensated = small(writeJob({ state: "compensated", kerf }));
const dxf = good.files.findIndex(({ name }) => /sheets.*\.dxf$/.test(name));
const svg = good.files.findIndex(({ name }) => /sheets.*\.svg$/.test(name));
const plateDxf = good.files.findIndex(({ name }) => /plates.*\.dxf$/.test(name));

function change(index: number, damage: (text: string) => string, job: ProvedJob = good): ProvedJob {
  const files = job.files.map((file, at) => (at === index ? { ...file, text: damage(file.text) } : file));
  return { ...job, files };
}

const inDxf = (damage: (entities: Entity[]) => void): ProvedJob => change(dxf, (text) => edit(text, damage));
const inText = (damage: (text: string) => string): ProvedJob => change(dxf, damage);
const inSvg = (damage: (text: string) => string): ProvedJob => change(svg, damage);
const inRecord = (
  record: (expectations: Expectations) => Expectations,
  job: ProvedJob = good,
): ProvedJob => ({
  ...job,
  expectations: record(job.expectations),
});
const inFiles = (files: (files: readonly WrittenFile[]) => WrittenFile[]): ProvedJob => ({
  ...good,
  files: files(good.files),
});

function replace(entities: Entity[], old: Entity, ...fresh: Entity[]): void {
  entities.splice(entities.indexOf(old), 1, ...fresh);
}

function largest(entities: readonly Entity[], layer: string, type: string): Entity {
  const sizes = on(entities, layer, type).map((entity) => {
    const xs = vertices(entity).map(({ x }) => x);
    return { entity, size: Math.max(...xs) - Math.min(...xs) };
  });
  const found = sizes.sort((a, b) => b.size - a.size)[0]?.entity;
  if (found === undefined) throw new Error(`nothing on ${layer}`);
  return found;
}

function each(entities: readonly Entity[], damage: (entity: Entity) => void): void {
  for (const entity of entities) damage(entity);
}

/** The circle of a deck's large opening. */
function largeCircle(entities: readonly Entity[]): Entity {
  return hole(entities, 50);
}

function hole(entities: readonly Entity[], radius: number): Entity {
  const found = on(entities, "opening", "CIRCLE").find((entity) => value(entity, 40) === radius);
  if (found === undefined) throw new Error("no such circle");
  return found;
}

function toEnd(entities: Entity[], entity: Entity): void {
  entities.splice(entities.indexOf(entity), 1);
  entities.push(entity);
}

const square = (x: number, y: number, size: number): [number, number][] => [
  [x, y],
  [x + size, y],
  [x + size, y + size],
  [x, y + size],
];

/** Damage, and the finding that must name it. */
const cases: readonly (readonly [string, () => ProvedJob, string])[] = [
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
  // Files and record
  ["a missing file", () => inFiles((files) => files.filter((_, index) => index !== svg)), "prove.missing"],
  [
    "a file too many",
    () => inFiles((files) => [...files, { name: "sheets/more.dxf", text: "" }]),
    "prove.extra",
  ],
  [
    "a name that says another number",
    () => {
      const rename = (name: string): string => name.replace("-x3", "-x2");
      return {
        files: good.files.map((file) => ({ ...file, name: rename(file.name) })),
        expectations: {
          ...good.expectations,
          sheets: good.expectations.sheets.map((sheet) => ({ ...sheet, name: rename(sheet.name) })),
        },
      };
    },
    "prove.name",
  ],
  [
    "a kit more than the sheets give",
    () =>
      inRecord((record) => ({
        ...record,
        plates: record.plates.map((plate) => ({ ...plate, copies: plate.copies + 1 })),
      })),
    "prove.count",
  ],
  [
    "another plate in a plate's file",
    () => change(plateDxf, () => good.files[dxf]?.text ?? ""),
    "prove.missing",
  ],
  [
    "plates closer than the clearance",
    () => inRecord((record) => ({ ...record, clearance: 5.001 })),
    "prove.clearance",
  ],
  [
    "plates nearer to the edge than the margin",
    () => inRecord((record) => ({ ...record, edgeMargin: 10.001 + 15 })),
    "prove.margin",
  ],
  [
    "a plate over a keep-out",
    () =>
      inRecord((record) => ({
        ...record,
        sheets: record.sheets.map((sheet) => ({
          ...sheet,
          keepOuts: [
            [
              { x: 300, y: 250, bulge: 0 },
              { x: 340, y: 250, bulge: 0 },
              { x: 340, y: 270, bulge: 0 },
            ],
          ],
        })),
      })),
    "prove.keep-out",
  ],
  // Compensation
  [
    "nominal files where compensated ones are due",
    () => ({
      files: compensated.files.map((file, index) => ({
        name: file.name,
        text: good.files[index]?.text ?? "",
      })),
      expectations: compensated.expectations,
    }),
    "prove.half-kerf",
  ],
  [
    "compensated files where nominal ones are due",
    () => ({
      files: good.files.map((file, index) => ({
        name: file.name,
        text: compensated.files[index]?.text ?? "",
      })),
      expectations: good.expectations,
    }),
    "prove.changed",
  ],
  [
    "compensated for twice the kerf",
    () => {
      const twice = small(writeJob({ state: "compensated", kerf: kerf + 0.1 }));
      return {
        files: compensated.files.map((file, index) => ({
          name: file.name,
          text: twice.files[index]?.text ?? "",
        })),
        expectations: compensated.expectations,
      };
    },
    "prove.half-kerf",
  ],
  [
    "a hole compensated the wrong way",
    () =>
      change(
        dxf,
        (text) => edit(text, (all) => set(first(all, "opening", "CIRCLE"), 40, (r) => r + kerf)),
        compensated,
      ),
    "prove.half-kerf",
  ],
  [
    "an outline compensated the wrong way",
    () =>
      change(
        dxf,
        (text) => edit(text, (all) => set(first(all, "outline", "CIRCLE"), 40, (r) => r - kerf)),
        compensated,
      ),
    "prove.half-kerf",
  ],
  // SVG
  ["px for mm", () => inSvg((text) => text.replace(/(\d)mm"/g, '$1px"')), "prove.unit"],
  [
    "a viewBox of half the size",
    () => inSvg((text) => text.replace(/viewBox="0 0 [\d.]+ [\d.]+"/, 'viewBox="0 0 300 200"')),
    "prove.unit",
  ],
  ["no size", () => inSvg((text) => text.replace(/ width="[\d.]+mm" height="[\d.]+mm"/, "")), "prove.unit"],
  [
    "a path drawn twice",
    () => inSvg((text) => text.replace(/(<g id="outline-3"[\s\S]*?)(<path [^>]*>)/, "$1$2\n$2")),
    "prove.double",
  ],
  ["a path not closed", () => inSvg((text) => text.replace('Z"/>', '"/>')), "prove.open"],
  [
    "a circle of another radius",
    () => inSvg((text) => text.replace(/ r="3.3"/, ' r="3.31"')),
    "prove.changed",
  ],
  [
    "a group scaled",
    () => inSvg((text) => text.replace('<g id="outline-3"', '<g transform="scale(1.001)" id="outline-3"')),
    "prove.scale",
  ],
  [
    "a text element",
    () => inSvg((text) => text.replace("</svg>", '<text x="5" y="5">deck</text></svg>')),
    "import.not-understood",
  ],
  ["arcs as lines", () => inSvg((text) => text.replace(/A[\d.]+ [\d.]+ 0 0 [01] /g, "L")), "prove.changed"],
  ["an arc the other way", () => inSvg((text) => text.replace(/(A12 12 0 0 )0/, "$11")), "prove.changed"],
  [
    "a curve for an arc",
    () => inSvg((text) => text.replace(/A12 12 0 0 0 ([\d.]+) ([\d.]+)/, "Q$1 $2 $1 $2")),
    "prove.not-arcs",
  ],
  ["another group name", () => inSvg((text) => text.replace('id="outline-3"', 'id="cut"')), "prove.layer"],
  ["a tag never closed", () => inSvg((text) => text.replace("</g>", "")), "import.unreadable"],
  [
    "a drawing larger than its page",
    () =>
      inSvg((text) =>
        text.replace(
          /width="[\d.]+mm" height="([\d.]+)mm" viewBox="0 0 [\d.]+ /,
          'width="300mm" height="$1mm" viewBox="0 0 300 ',
        ),
      ),
    "prove.extent",
  ],
];

describe("damage done to good files", () => {
  it("starts from files that are proved", () => {
    expect(prove(good.files, good.expectations).findings).toEqual([]);
    expect(prove(compensated.files, compensated.expectations).findings).toEqual([]);
    expect(new Set(cases.map(([name]) => name)).size).toBe(cases.length);
    expect(cases.length).toBeGreaterThanOrEqual(50);
  });
  it.each(cases)("%s", (_, damaged, id) => {
    const job = damaged();
    expect(job).not.toEqual(good);
    const certificate = prove(job.files, job.expectations);
    expect(certificate.proved).toBe(false);
    expect([...new Set(certificate.findings.map((finding) => finding.id))].join(" ")).toContain(id);
    expect(certificate.findings.every((finding) => finding.place !== "" && finding.message !== "")).toBe(
      true,
    );
  });
});
