import { mkdir, readFile, rm, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { command, contents, type Ran, remove, scratch } from "./command-run.js";
import { hasEzdxf, outside } from "./dxf-outside.js";
import { edit, first, move, on, set, value } from "./prove-damage.js";
import { frame, shop, stock } from "./starter-texts.js";

interface Proof {
  readonly proved: boolean;
  readonly files: number;
  readonly findings: readonly { readonly id: string; readonly place: string; readonly message: string }[];
}

let folder = "";
let made: Ran;
/** A good folder as it was written, to be laid out anew for every test. */
let good: ReadonlyMap<string, string>;
let sheet = "";

beforeAll(async () => {
  const wishes = "files:\n  bridges: {count: 3, spacing: 200}\n  leadIns: {length: 4}\n";
  folder = await scratch({
    "frame.yaml": frame,
    "stock.yaml": stock,
    "shop.yaml": shop.replace("files:\n", wishes),
  });
  made = await command(["make", "frame.yaml", "--out", "made", "--json"], folder);
  good = await contents(join(folder, "made"));
  sheet = [...good.keys()].find((path) => /^sheets\/pe-hd.*\.dxf$/.test(path)) ?? "";
}, 120_000);
afterAll(() => remove(folder));

beforeEach(async () => {
  await rm(join(folder, "made"), { recursive: true });
  for (const [path, text] of good) {
    await mkdir(join(folder, "made", path, ".."), { recursive: true });
    await writeFile(join(folder, "made", path), text, "latin1");
  }
});

async function proof(...argv: string[]): Promise<{ code: number; proof: Proof }> {
  const ran = await command(["prove", ...argv, "--json"], folder);
  expect(ran.err).toBe("");
  return { code: ran.code, proof: JSON.parse(ran.out) as Proof };
}

async function changed(path: string, change: (text: string) => string): Promise<void> {
  const place = join(folder, "made", path);
  await writeFile(place, change(await readFile(place, "utf8")));
}

it("tells the maker and the shop of the bridges", () => {
  const record = JSON.parse(good.get("job.json") ?? "{}") as {
    plates: readonly { count: number; bridges?: readonly unknown[] }[];
  };
  const held = record.plates.reduce((sum, { count, bridges }) => sum + count * (bridges?.length ?? 0), 0);
  expect(held).toBeGreaterThan(3);
  expect(good.get("page.html")).toMatch(new RegExp(`[^0-9]${held}[^0-9]{1,3}bridges`));
  expect(good.get("cutting-list.html")).toContain("leave them uncut");
});

describe("prove", () => {
  it("takes the record for the folder it lies in", async () => {
    const [by, of] = await Promise.all(
      ["made", "made/job.json"].map((path) => command(["prove", path, "--json"], folder)),
    );
    expect(of).toEqual(by);
  });

  it("gives the same certificate for a written folder as make gave for it", async () => {
    expect([made.code, made.err]).toEqual([0, ""]);
    const { code, proof: certificate } = await proof("made");
    expect(code).toBe(0);
    const { largestDeviation, ...own } = (JSON.parse(made.out) as { proof: { largestDeviation: number } })
      .proof;
    expect(certificate).toMatchObject(own);
    expect(largestDeviation).toBeLessThan(3e-6);
    expect(certificate).toMatchObject({ proved: true, findings: [], format: "keelcut-proof" });
    expect(certificate.files).toBe([...good.keys()].filter((path) => /\.(dxf|svg)$/.test(path)).length);
  });

  it("prints a short certificate for people", async () => {
    const ran = await command(["prove", "made"], folder);
    expect([ran.code, ran.err]).toEqual([0, ""]);
    const lines = ran.out.trim().split("\n");
    expect(lines.length).toBeLessThan(10);
    expect(lines.at(-1)).toBe("proved");
    expect(ran.out).toMatch(/held by \d+ bridges/);
  });

  it("names the place of every change, and ends with 1", async () => {
    await changed(sheet, (text) =>
      edit(text, (entities) => {
        const [one, two, three] = on(entities, "opening", "CIRCLE");
        if (one === undefined || two === undefined || three === undefined) throw new Error("too few circles");
        move(one, 1.5, 0);
        set(two, 40, (radius) => radius + 0.25);
        entities.splice(entities.indexOf(three), 1);
      }),
    );
    const { code, proof: certificate } = await proof("made");
    expect(code).toBe(1);
    const messages = certificate.findings.map(({ message }) => message).join("\n");
    expect(messages).toContain("is moved by x 1.5000, y 0.0000 mm");
    expect(messages).toMatch(/has diameter [\d.]+ mm, expected/);
    expect(messages).toContain("is missing");
    expect(messages).toContain("saved again");
    const name = sheet.replace("sheets/", "");
    expect(
      certificate.findings.every(
        ({ place }) => place.includes(name) || place === "deck" || place === "cheek",
      ),
    ).toBe(true);
  });

  it.each([
    ["a table that was changed", "prove.bytes", "cost.csv"],
    ["a template that was changed", "prove.bytes", "wraps.pdf"],
  ])("finds %s", async (_, id, path) => {
    await changed(path, (text) => `${text} `);
    const { code, proof: certificate } = await proof("made");
    expect(code).toBe(1);
    expect(certificate.findings).toMatchObject([{ id, place: path }]);
  });

  it("finds files that went, and drawings that came; other new files are only noted", async () => {
    await rm(join(folder, "made/page.html"));
    await rm(join(folder, "made", sheet));
    await writeFile(join(folder, "made/sheets/extra.dxf"), good.get(sheet) ?? "");
    await writeFile(join(folder, "made/notes.txt"), "call the shop");
    const { code, proof: certificate } = await proof("made");
    expect(code).toBe(1);
    const found = certificate.findings.map(({ id, place }) => `${id} ${place}`);
    expect(found).toContain("prove.missing page.html");
    expect(found).toContain(`prove.missing ${sheet.replace("sheets/", "")}`);
    expect(found).toContain("prove.extra extra.dxf");
    expect(found).toContain("prove.added notes.txt");
  });

  it("says so when the record names a plate that it does not hold", async () => {
    await changed("job.json", (text) => text.replace('"part": "deck"', '"part": "dekk"'));
    const ran = await command(["prove", "made"], folder);
    expect([ran.code, ran.out]).toEqual([2, ""]);
    expect(ran.err).toMatch(/made\/job\.json: contradicts itself: .*"dekk"/);
  });

  it("is content with a note in the folder", async () => {
    await writeFile(join(folder, "made/notes.txt"), "call the shop");
    expect((await proof("made")).code).toBe(0);
  });

  it.each([
    ["is none of ours", "none", undefined],
    ["holds a record that is no JSON", "made", () => "{"],
    ["holds another program's record", "made", () => "{}"],
    [
      "holds a record of another version",
      "made",
      (text: string) => text.replace('"version": 1', '"version": 99'),
    ],
    ["holds half a record", "made", (text: string) => text.replace('"nests"', '"nest"')],
    [
      "holds a record that asks for too few",
      "made",
      (text: string) => text.replace('"demand": 2', '"demand": 1'),
    ],
    ["is not there", "nowhere", undefined],
    ["is a file", "frame.yaml", undefined],
  ])("ends with 2 and one line when the folder %s", async (_, name, change) => {
    if (name === "none") await mkdir(join(folder, "none"), { recursive: true });
    if (change !== undefined) await changed("job.json", change);
    const ran = await command(["prove", name], folder);
    expect([ran.code, ran.out]).toEqual([2, ""]);
    expect(ran.err.trim().split("\n")).toHaveLength(1);
    expect(ran.err).toContain(name);
  });
});

describe("prove with a drawing from elsewhere", () => {
  const copyName = "edited copy of ";

  it("takes an unchanged copy for what it is", async () => {
    const name = `${copyName}${sheet.replace("sheets/", "")}`;
    await writeFile(join(folder, name), good.get(sheet) ?? "");
    const { code, proof: certificate } = await proof("made", name);
    expect([code, certificate.files, certificate.findings]).toEqual([0, 1, []]);
  });

  it("does not take x1 for x10", async () => {
    const name = sheet.replace("sheets/", "");
    const other = name.replace(/-x(\d+)\.dxf$/, "-x$10.dxf");
    expect(other).not.toBe(name);
    await writeFile(join(folder, other), good.get(sheet) ?? "", "latin1");
    const ran = await command(["prove", "made", other], folder);
    expect([ran.code, ran.out]).toEqual([2, ""]);
    expect(ran.err).toContain("names no drawing of made");
  });

  it("says in words when no drawing is meant", async () => {
    await writeFile(join(folder, "other.dxf"), good.get(sheet) ?? "");
    const ran = await command(["prove", "made", "other.dxf"], folder);
    expect([ran.code, ran.out]).toEqual([2, ""]);
    expect(ran.err).toContain("names no drawing");
    expect((await command(["prove", "made", "gone.dxf"], folder)).err).toContain("cannot be read");
  });

  it.runIf(hasEzdxf)("says what somebody changed with another program", async () => {
    const name = `v2-${sheet.replace("sheets/", "")}`;
    const script = `
import sys, ezdxf
d = ezdxf.readfile(sys.argv[1])
m = d.modelspace()
holes = [e for e in m if e.dxftype() == "CIRCLE"]
holes[0].translate(2, -1, 0)
holes[1].dxf.radius += 0.1
m.add_text("hello", dxfattribs={"layer": "mark"})
d.saveas(sys.argv[2])
`;
    outside("/usr/bin/python3", ["-c", script, join(folder, "made", sheet), join(folder, name)]);
    const { code, proof: certificate } = await proof("made", name);
    expect(code).toBe(1);
    const messages = certificate.findings.map(({ message }) => message).join("\n");
    expect(messages).toContain("is moved by x 2.0000, y -1.0000 mm");
    expect(messages).toMatch(/has diameter/);
    expect(messages).toContain("hello");
    // Of the cut lines nothing else; the marks that led to the two no longer do.
    const ids = certificate.findings.map(({ id }) => id);
    expect(ids.filter((id) => id === "prove.changed")).toHaveLength(2);
    expect(ids.filter((id) => /missing|crossing|open|order|bridge|clearance/.test(id))).toEqual([]);
  });
});

it("the folder under test holds what it should", () => {
  for (const path of ["job.json", "cost.csv", "page.html", "wraps.pdf"]) expect(good.has(path)).toBe(true);
  expect([...good.keys()].filter((path) => /^plates\/deck.*\.pdf$/.test(path))).toHaveLength(1);
  edit(good.get(sheet) ?? "", (entities) => {
    expect(value(first(entities, "opening", "CIRCLE"), 40)).toBeGreaterThan(1);
  });
});
