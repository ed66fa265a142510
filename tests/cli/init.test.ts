import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { checkFrame, deriveFrame, type FrameParameters } from "@keelcut/geometry";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { offeredChoices, type StarterChoice } from "../../packages/cli/src/commands/starter/choices.js";
import { starterFrame } from "../../packages/cli/src/commands/starter/frame-text.js";
import { checked } from "../../packages/cli/src/input/checked.js";
import { frameFileSchema } from "../../packages/cli/src/input/frame-file.js";
import { frameParameters } from "../../packages/cli/src/input/frame-parameters.js";
import { parseYaml } from "../../packages/cli/src/input/yaml-text.js";
import { run } from "../../packages/cli/src/main.js";
import { command, contents, remove, scratch } from "./command-run.js";

let folder = "";
beforeEach(async () => {
  folder = await scratch({});
});
afterEach(() => remove(folder));

function parametersOf(choice: StarterChoice): FrameParameters {
  const root = parseYaml(starterFrame(choice), { shown: "frame.yaml", folder: "." });
  return frameParameters(checked(frameFileSchema, root), {
    method: "router",
    kerf: 3.175,
    clearance: 5.175,
    edgeMargin: 15,
    compensation: "shop",
  });
}

/** Pipe, motor and ducts settle what fits; the sheet takes turns. */
const shapes = offeredChoices().filter(
  ({ material }, index) => material === ["PE-HD", "PP-H", "PVC-U"][Math.floor(index / 9) % 3],
);

describe("the answers that are offered", () => {
  it("are many, each once", () => {
    const all = offeredChoices().map((choice) => JSON.stringify(choice));
    expect(all.length).toBeGreaterThan(200);
    expect(new Set(all).size).toBe(all.length);
    expect(shapes.length * 3).toBe(all.length);
    expect(new Set(shapes.map(({ material }) => material)).size).toBe(3);
  });

  it("all give a frame that fits together", () => {
    for (const choice of shapes) {
      const frame = deriveFrame(parametersOf(choice));
      const errors = frame.findings.filter(({ severity }) => severity === "error");
      expect(errors, JSON.stringify(choice)).toEqual([]);
      expect(frame.axes.filter(({ kind }) => kind === "pipe")).toHaveLength(choice.ducts);
    }
  }, 120_000);

  it("give a frame that can be cut and put together", () => {
    const some = shapes.filter((_, index) => index % 4 === 0);
    expect(some.length).toBeGreaterThan(15);
    for (const choice of some) {
      const found = checkFrame(deriveFrame(parametersOf(choice)));
      const errors = found.filter(({ severity }) => severity === "error");
      expect(errors, JSON.stringify(choice)).toEqual([]);
    }
  }, 120_000);

  it.each([
    ["EN 1451-1 110", "circle 25", "PP-H", "4"],
    ["ASTM D1785 3", "cross 19x25", "PVC-U", "3"],
  ])(
    "make a whole job with a price for everything: %s, %s, %s, %s ducts",
    async (pipe, motor, material, ducts) => {
      const flags = ["--pipe", pipe, "--motor", motor, "--material", material, "--ducts", ducts];
      const ran = await command(["init", "own", ...flags], folder);
      expect([ran.code, ran.err]).toEqual([0, ""]);
      const made = await command(
        ["make", "own/frame.yaml", "--out", "made", "--effort", "1", "--json"],
        folder,
      );
      expect([made.code, made.err]).toEqual([0, ""]);
      expect(made.out).not.toMatch(/has no price|no feed/);
      expect(await readFile(join(folder, "own/frame.yaml"), "utf8")).toMatch(/^# /m);
    },
    120_000,
  );
});

describe("flags", () => {
  it.each([
    [["--pipe", "EN 1329-1 76"], /--pipe: "EN 1329-1 76" is not offered here.*EN 1329-1 75/],
    [["--motor", "circle 25"], /--motor: "circle 25" is not offered here/],
    [["--ducts", "7"], /--ducts: "7" is not offered.*offered: 2, 3, 4/],
  ])("%s is refused, and nothing is written", async (flags, message) => {
    const ran = await command(["init", "own", ...flags], folder);
    expect([ran.code, ran.out]).toEqual([2, ""]);
    expect(ran.err.replace(/\s+/g, " ")).toMatch(message);
    expect((await contents(folder)).size).toBe(0);
  });

  it("may be written without care for case and spaces", async () => {
    expect((await command(["init", "own", "--pipe", "en1329-1 90"], folder)).code).toBe(0);
    expect(await readFile(join(folder, "own/frame.yaml"), "utf8")).toContain("size: 90");
  });
});

/** Runs init with somebody who answers; an answer too few ends the input. */
async function answered(answers: readonly string[]): Promise<{ code: number; asked: number; err: string }> {
  const left = [...answers];
  let asked = 0;
  let err = "";
  const code = await run(["init", "own"], {
    cwd: folder,
    env: {},
    stdout: { isTTY: true, write: () => undefined },
    stderr: {
      isTTY: true,
      write: (text) => {
        err += text;
      },
    },
    signal: new AbortController().signal,
    ask: async () => {
      asked += 1;
      return left.shift();
    },
  });
  return { code, asked, err };
}

describe("questions", () => {
  it("take a number, a name, or nothing for the first", async () => {
    const { code, asked, err } = await answered(["3", "Cross 19 x 25", "", "4"]);
    expect([code, asked]).toEqual([0, 4]);
    expect(err).toContain("Bolt pattern of the motors");
    const text = await readFile(join(folder, "own/frame.yaml"), "utf8");
    expect(text).toContain("pipe: {standard: EN 1329-1, size: 110}");
    expect(text).toContain("pattern: {cross: [19, 25]}");
    expect(text.match(/axis: heave/g)).toHaveLength(2);
  });

  it.each(["2", "3", "4"])("take %s ducts for that many, not for the answer in that place", async (ducts) => {
    const { code, asked, err } = await answered(["", "", "", ducts]);
    expect([code, asked]).toEqual([0, 4]);
    expect(err).not.toMatch(/\d +2\n/);
    const text = await readFile(join(folder, "own/frame.yaml"), "utf8");
    expect(text.match(/axis: (surge|heave)/g)).toHaveLength(Number(ducts));
  });

  it("are asked again after an answer that will not do", async () => {
    const { code, asked, err } = await answered(["0", "12 inch", "1", "1", "1", "2"]);
    expect([code, asked]).toEqual([0, 6]);
    expect(err).toContain('"12 inch" is not among them');
  });

  it("end without a file when the answers end", async () => {
    const { code, err } = await answered(["1", "1"]);
    expect(code).toBe(2);
    expect(err).toContain("answers ended early");
    expect((await contents(folder)).size).toBe(0);
  });
});

interface Found {
  readonly tables: readonly {
    readonly id: string;
    readonly source: string;
    readonly rows: readonly (readonly (string | number | null)[])[];
  }[];
}

describe("catalog", () => {
  it("names the source of every table in its list", async () => {
    const { tables } = JSON.parse((await command(["catalog", "--json"], folder)).out) as Found;
    const list = (await command(["catalog"], folder)).out.replace(/\s+/g, " ");
    expect(tables.length).toBeGreaterThan(20);
    for (const { source } of tables) expect(list).toContain(source.replace(/\s+/g, " "));
  });

  it("finds rows by words in them and in what the table says", async () => {
    const found = async (text: string): Promise<Found["tables"]> =>
      (JSON.parse((await command(["catalog", "--json", "--search", text], folder)).out) as Found).tables;
    const holes = (await found("ISO 273 m5")).find(({ id }) => id === "iso-273");
    expect(holes?.rows).toEqual([["M5", 5.3, 5.5, 5.8]]);
    const pipes = await found("110 drain");
    expect(pipes.map(({ id }) => id)).toContain("en-1401-1");
    for (const { rows } of pipes) {
      expect(rows.length).toBeGreaterThan(0);
      for (const row of rows) expect(row.map(String).join(" ").toLowerCase()).toContain("110");
    }
  });

  it("prints what it finds with its source, and ends with 1 when that is nothing", async () => {
    const some = await command(["catalog", "--search", "stator 22"], folder);
    expect([some.code, some.err]).toEqual([0, ""]);
    expect(some.out).toMatch(/Source:/);
    expect(some.out).toMatch(/^stator 22 /m);
    expect(some.out).not.toMatch(/^stator 28 /m);
    const none = await command(["catalog", "--search", "unobtainium"], folder);
    expect([none.code, none.err]).toEqual([1, ""]);
  });
});
