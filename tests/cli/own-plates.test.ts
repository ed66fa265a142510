import { writeFile } from "node:fs/promises";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { readFrame } from "../../packages/cli/src/input/read-frame.js";
import { command, contents, remove, scratch } from "./command-run.js";
import { frame, shop, stock } from "./starter-texts.js";

/** A square of 60 with a hole of 8, and a text that is no contour. */
const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100">
<rect x="10" y="10" width="60" height="60"/><circle cx="40" cy="40" r="4"/><text x="5" y="5">note</text></svg>`;

/** A disc of 50 with a hole of 6, each on its layer. */
const dxf = [
  [
    "0",
    "SECTION",
    "2",
    "HEADER",
    "9",
    "$INSUNITS",
    "70",
    "4",
    "0",
    "ENDSEC",
    "0",
    "SECTION",
    "2",
    "ENTITIES",
  ],
  ["0", "CIRCLE", "8", "outline", "10", "30", "20", "30", "40", "25"],
  ["0", "CIRCLE", "8", "opening", "10", "30", "20", "30", "40", "3"],
  ["0", "CIRCLE", "8", "notes", "10", "130", "20", "30", "40", "3"],
  ["0", "ENDSEC", "0", "EOF", ""],
]
  .flat()
  .join("\n");

const all = `plates:
  - id: camera-mount
    outline: {rectangle: [60, 50], radius: 8, at: [0, 25]}
    holes:
      - {at: [0, 30], cross: [16, 24], screw: M3, rotation: 45, why: camera}
      - {at: [0, 30], diameter: 6}
    slots: [{from: [-15, 12], to: [15, 12], width: 5}]
    windows: [{round: 8, at: [-21, 30]}]
    tabs: [{into: deck, at: [0, 0], length: 24}]
    marks: [{text: FWD, at: [10, 43], height: 4}, {line: [[20, 20], [20, 24]]}]
    hardware: [{item: screw ISO 4762 M3x12, count: 4}]
    seats: [{at: [100, 0, 0], lies: across}]
  - id: guard
    sheet: {material: PVC-U, thickness: 5, grain: true}
    outline: {hull: [{at: [-15, 0], diameter: 16}, {at: [15, 0], diameter: 16}]}
    holes: [{row: {count: 2, pitch: 30}, screw: M4}]
    count: 3
  - id: rail-x2
    outline: {rectangle: [60, 20]}
    marks: [{text: PORT, at: [8, -2], height: 4}]
    mirrorable: false
    seats: [{at: [0, 0, -400]}, {at: [0, 40, -400], mirrored: true}]
  - {id: drawn, import: drawings/plate.svg}
  - {id: round, import: {file: drawings/round.dxf, layers: [outline, opening]}, count: 2}
`;

const files = {
  "frame.yaml": frame + all,
  "stock.yaml": stock,
  "shop.yaml": shop,
  "drawings/plate.svg": svg,
  "drawings/round.dxf": dxf,
};

let folder = "";
beforeEach(async () => {
  folder = await scratch(files);
});
afterEach(() => remove(folder));

interface Plates {
  readonly plates: readonly {
    readonly id: string;
    readonly count: number;
    readonly area: number;
    readonly length: number;
    readonly openings: number;
    readonly material: string;
  }[];
  readonly hardware: readonly { readonly item: string; readonly count: number }[];
  readonly findings: readonly {
    readonly id: string;
    readonly severity: string;
    readonly place: string;
    readonly message: string;
  }[];
}

async function plates(): Promise<Plates> {
  const ran = await command(["plates", "frame.yaml", "--json"], folder);
  expect(ran.err).toBe("");
  return JSON.parse(ran.out) as Plates;
}

describe("own plates in a frame file", () => {
  it("are plates like all others", async () => {
    const found = await plates();
    const own = new Map(found.plates.map((plate) => [plate.id, plate]));
    expect(own.get("own-camera-mount")).toMatchObject({ count: 1, openings: 7, material: "PE-HD" });
    expect(own.get("own-guard")).toMatchObject({ count: 3, openings: 2, material: "PVC-U", length: 46 });
    // 60 x 60 less the hole; a disc of 25 less one of 3.
    expect(own.get("own-drawn")?.area).toBeCloseTo(3600 - Math.PI * 16, 6);
    expect(own.get("own-round")).toMatchObject({ count: 2, openings: 1 });
    expect(own.get("own-round")?.area).toBeCloseTo(Math.PI * (625 - 9), 6);
    expect(found.hardware).toContainEqual(
      expect.objectContaining({ item: "screw ISO 4762 M3x12", count: 4 }),
    );
    expect(found.findings.filter(({ severity }) => severity === "error")).toEqual([]);
  });

  it("tell what a drawing holds that was not understood, with entity and place", async () => {
    const { findings } = await plates();
    const about = findings.filter(({ place }) => place.startsWith("plates.drawn, drawings/plate.svg"));
    expect(about.length).toBeGreaterThan(0);
    expect(about.map(({ place }) => place).join()).toMatch(/text/i);
  });

  it("say how large a drawing came out, and where it lies", async () => {
    const { findings } = await plates();
    const size = findings.find(({ id, place }) => id === "import.size" && place.startsWith("plates.drawn"));
    // The square's upper left corner is 10 mm from the upper left corner of a page of 100.
    expect(size?.message).toContain("60 x 60 mm and lies at x 10 to 70, y 30 to 90");
  });

  it.each([
    ["a DXF that says none", dxf.replace("$INSUNITS\n70\n4", "$INSUNITS\n70\n0"), "plate.dxf", 0],
    ["a DXF that says millimetres", dxf, "plate.dxf", 1],
    ["an SVG that says none", svg.replaceAll("100mm", "100"), "plate.svg", 0],
    ["an SVG that says millimetres", svg, "plate.svg", 1],
  ])("are read in the unit that the frame file gives: %s", async (_, drawing, name, warnings) => {
    const layers = name.endsWith("dxf") ? ", layers: [outline, opening]" : "";
    const text = `${frame}plates:\n  - {id: a, import: {file: ${name}, unit: in${layers}}, count: 1}\n`;
    const other = await scratch({ ...files, "frame.yaml": text, [name]: drawing });
    const ran = await command(["plates", "frame.yaml", "--json"], other);
    await remove(other);
    const found = JSON.parse(ran.out) as Plates;
    const side = name.endsWith("dxf") ? 50 : 60;
    expect(found.plates.find(({ id }) => id === "own-a")?.length).toBeCloseTo(side * 25.4, 6);
    expect(found.findings.filter(({ id }) => id === "import.unit")).toHaveLength(warnings);
  });

  it("guard their drawings against being written over", async () => {
    const input = await readFrame("frame.yaml", [], folder);
    expect(input.files.some((file) => file.endsWith("drawings/round.dxf"))).toBe(true);
  });

  it("are made: page, sheets, cost and proof", async () => {
    const ran = await command(["make", "frame.yaml", "--out", "made", "--effort", "1", "--json"], folder);
    expect([ran.code, ran.err]).toEqual([0, ""]);
    for (const name of ["own-camera-mount", "own-guard", "own-drawn", "own-round"]) {
      expect(ran.out).toContain(name);
    }
    // What was written is an own plate of the next frame: the same area, at 1:1.
    const written = [...(await contents(join(folder, "made/plates"))).keys()];
    const drawing = written.find((path) => /own-camera-mount.*\.dxf$/.test(path));
    const again = `{id: again, import: {file: made/plates/${drawing}, layers: [outline, opening]}}`;
    await writeFile(join(folder, "frame.yaml"), `${frame}${all}  - ${again}\n`);
    const areas = new Map((await plates()).plates.map(({ id, area }) => [id, area]));
    expect(areas.get("own-again")).toBeCloseTo(areas.get("own-camera-mount") ?? Number.NaN, 3);
  }, 120_000);

  it.each([
    ["{line: [[-30, 0], [-10, 0]]}", /the line from \(-30\.0, 0\.0\) to \(-10\.0, 0\.0\) leaves the plate/],
    ["{text: STARBOARD, at: [-29, 0], height: 9}", /the text "STARBOARD" leaves the plate/],
    ["{line: [[-20, 0], [20, 0]]}", undefined],
  ])("have marks that end inside: %s", async (mark, fault) => {
    const set = ["--set", `plates.rail-x2.marks=[${mark}]`];
    const ran = await command(["check", "frame.yaml", "--json", ...set], folder);
    const { findings } = JSON.parse(ran.out) as { findings: { id: string; message: string }[] };
    const about = findings.filter(({ id }) => id === "plate.stray-mark").map(({ message }) => message);
    if (fault === undefined) expect(about).toEqual([]);
    else expect(about).toContainEqual(expect.stringMatching(fault));
  });

  it("are told of where their screws are not listed", async () => {
    const { findings } = await plates();
    const about = findings.filter(({ id }) => id === "plate.screws-not-listed").map(({ place }) => place);
    expect(about).toEqual(["plates.guard"]);
  });

  it("are told of where tabs alone hold them", async () => {
    const of = async (...set: string[]): Promise<readonly string[]> => {
      const ran = await command(
        ["plates", "frame.yaml", "--json", ...set.flatMap((one) => ["--set", one])],
        folder,
      );
      const { findings } = JSON.parse(ran.out) as Plates;
      return findings.filter(({ id }) => id === "plate.held-by-tabs").map(({ place }) => place);
    };
    expect(await of()).toEqual([]);
    expect(await of("plates.camera-mount.hardware=[]")).toEqual([]);
    expect(await of("plates.camera-mount.hardware=[]", "plates.camera-mount.slots=[]")).toEqual([
      "plates.camera-mount",
    ]);
  });

  it("follow settings by their ids", async () => {
    const set = ["--set", "plates.guard.count=5", "--set", "plates.guard.outline={round: 50}"];
    const ran = await command(["plates", "frame.yaml", "--json", ...set], folder);
    const guard = (JSON.parse(ran.out) as Plates).plates.find(({ id }) => id === "own-guard");
    expect(guard).toMatchObject({ count: 5, length: 50 });
  });
});

const seated = "seats: [{at: [0, 0, 0]}]";
const disc = "{id: a, outline: {round: 9}";

describe("mistakes in own plates", () => {
  const table: readonly [string, string, RegExp][] = [
    ["no outline", "{id: a}", /plates\.a: give an outline/],
    ["two outlines", `${disc}, import: drawings/plate.svg}`, /plates\.a\.import: .*give one of the two/],
    [
      "two shapes",
      "{id: a, outline: {round: 9, rectangle: [1, 2]}}",
      /plates\.a\.outline: two of these at once/,
    ],
    ["an unknown shape", "{id: a, outline: {circle: 9}}", /plates\.a\.outline/],
    ["no such file", "{id: a, import: nowhere.dxf}", /plates\.a\.import: nowhere\.dxf: there is no such/],
    ["a folder", "{id: a, import: drawings}", /plates\.a\.import: drawings: is not a file/],
    ["no hole size", `${disc}, holes: [{at: [0, 0]}]}`, /plates\.a\.holes\[0\]: give a diameter/],
    [
      "two hole sizes",
      `${disc}, holes: [{diameter: 3, screw: M3}]}`,
      /plates\.a\.holes\[0\]\.diameter: .*give one of the two/,
    ],
    ["an unknown screw", `${disc}, holes: [{screw: M7}]}`, /plates\.a\.holes\[0\]\.screw: "M7"/],
    [
      "two patterns",
      `${disc}, holes: [{screw: M3, cross: [1, 2], ring: {diameter: 4, count: 3}}]}`,
      /plates\.a\.holes\[0\]: ring and cross at once/,
    ],
    [
      "tabs into nothing",
      `${disc}, tabs: [{into: dekc, at: [0, 0], length: 4}], ${seated}}`,
      /plates\.a\.tabs\[0\]\.into: there is no plate "dekc"; did you mean "deck"\?/,
    ],
    [
      "tabs without a seat",
      `${disc}, tabs: [{into: deck, at: [0, 0], length: 4}]}`,
      /plates\.a\.tabs: joints need seats/,
    ],
    [
      "a lap with itself",
      `${disc}, laps: [a], ${seated}}`,
      /plates\.a\.laps\[0\]: a plate does not join itself/,
    ],
    [
      "fewer copies than seats",
      `${disc}, count: 1, seats: [{at: [0, 0, 0]}, {at: [9, 0, 0]}]}`,
      /plates\.a\.count: 1 is less/,
    ],
    [
      "a name that is taken",
      "{id: deck, outline: {round: 9}}",
      /plates\.deck\.id: "deck" is the name of another plate/,
    ],
    [
      "names that differ in case",
      "{id: b, outline: {round: 9}}\n  - {id: B, outline: {round: 9}}",
      /plates\.B\.id: .*differ only in case/,
    ],
    [
      "names that would be one file name",
      "{id: camera_mount, outline: {round: 9}}\n  - {id: camera-mount, outline: {round: 9}}",
      /plates\.camera-mount\.id: .*"camera_mount" differ only in case, - and _/,
    ],
    [
      "an unknown material",
      `${disc}, sheet: {material: PE-HDD, thickness: 5}}`,
      /plates\.a\.sheet\.material: "PE-HDD"/,
    ],
    ["foam that is not there", `${disc}, sheet: float}`, /plates\.a\.sheet: there is no float under sheets/],
    [
      "a corner of negative radius",
      "{id: a, outline: {polygon: [[0, 0], [9, 0, -1], [0, 9]]}}",
      /plates\.a\.outline\.polygon\[1\]: a radius of -1/,
    ],
  ];

  it.each(table)("%s", async (_, plate, message) => {
    const other = await scratch({ ...files, "frame.yaml": `${frame}plates:\n  - ${plate}\n` });
    const ran = await command(["check", "frame.yaml"], other);
    await remove(other);
    expect([ran.code, ran.out]).toEqual([2, ""]);
    expect(ran.err.replace(/\s+/g, " ")).toMatch(message);
    expect(ran.err).toMatch(/frame\.yaml:\d+:\d+/);
  });

  it("a drawing with two plates is a finding", async () => {
    const two = svg.replace("<circle", '<rect x="80" y="10" width="15" height="15"/><circle');
    const text = `${frame}plates:\n  - {id: a, import: two.svg}\n`;
    const other = await scratch({ ...files, "frame.yaml": text, "two.svg": two });
    const ran = await command(["check", "frame.yaml", "--json"], other);
    await remove(other);
    expect(ran.code).toBe(1);
    expect((JSON.parse(ran.out) as Plates).findings).toContainEqual(
      expect.objectContaining({
        id: "import.several",
        severity: "error",
        place: "plates.a, two.svg: file",
      }),
    );
  });
});
