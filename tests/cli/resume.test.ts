import { readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { command, remove, scratch } from "./command-run.js";
import { frame, shop, stock } from "./starter-texts.js";

const starter = { "frame.yaml": frame, "stock.yaml": stock, "shop.yaml": shop };
const HASTE = ["--effort", "0.2"];

interface Told {
  readonly ok: boolean;
  readonly layouts: readonly { readonly times: number }[];
  readonly findings: readonly { readonly id: string; readonly severity: string; readonly message: string }[];
}

interface JobRecord {
  readonly nests: readonly { readonly cost: number; readonly plan?: { readonly cost: number } }[];
}

let folder = "";
beforeAll(async () => {
  folder = await scratch(starter);
  const ran = await command(["nest", "frame.yaml", "--kits", "3", "--out", "first", ...HASTE], folder);
  expect([ran.code, ran.err]).toEqual([0, ""]);
}, 60_000);
afterAll(() => remove(folder));

async function recordOf(name: string): Promise<JobRecord> {
  return JSON.parse(await readFile(join(folder, name, "job.json"), "utf8")) as JobRecord;
}

function costOf({ nests }: JobRecord): number {
  return nests.reduce((sum, { cost, plan }) => sum + (plan?.cost ?? cost), 0);
}

async function told(...options: string[]): Promise<Told> {
  const ran = await command(["nest", "frame.yaml", "--json", ...options, ...HASTE], folder);
  expect(ran.err).toBe("");
  return JSON.parse(ran.out) as Told;
}

describe("--resume", () => {
  it("goes on from a folder or its record, and is never dearer", async () => {
    const before = costOf(await recordOf("first"));
    for (const given of ["first", "first/job.json"]) {
      const ran = await command(
        ["nest", "frame.yaml", "--kits", "3", "--resume", given, "--out", "again", "--force", ...HASTE],
        folder,
      );
      expect([ran.code, ran.err]).toEqual([0, ""]);
      expect(ran.out).not.toContain("not used again");
      expect(costOf(await recordOf("again"))).toBeLessThanOrEqual(before + 1e-9);
      const proof = await command(["prove", "again"], folder);
      expect(proof.code).toBe(0);
    }
  }, 60_000);

  it("serves another number of kits, one kit too", async () => {
    for (const kits of ["1", "5"]) {
      const { ok, findings } = await told("--kits", kits, "--resume", "first");
      expect(ok).toBe(true);
      expect(findings.filter(({ id }) => id === "resume.dropped")).toEqual([]);
      const used = findings.filter(({ id }) => id === "resume.used");
      expect(used.length).toBeGreaterThan(0);
      for (const { message } of used)
        expect(message).toMatch(/^\d+ of the \d+ layouts? of first\/job\.json that still serves?/);
    }
  }, 60_000);

  it("prices the layouts of an earlier job, and says how many it used", async () => {
    const argv = ["cost", "frame.yaml", "--kits", "3", "--resume", "first", "--json", ...HASTE];
    const ran = await command(argv, folder);
    expect([ran.code, ran.err]).toEqual([0, ""]);
    const { findings } = JSON.parse(ran.out) as Told;
    expect(findings.filter(({ id }) => id === "resume.used")).not.toEqual([]);
  }, 60_000);

  it("counts the layouts that are used again, also when the sheets lie at hand by now", async () => {
    await writeFile(join(folder, "owned.yaml"), stock.replace(/(id: pe-10-[a-z]+,)/g, "$1 atHand: 9,"));
    const looks = async (name: string): Promise<Set<string>> => {
      const { nests } = (await recordOf(name)) as unknown as {
        nests: { sheets: { stock: string; placements: { part: string; x: number; y: number }[] }[] }[];
      };
      const sheets = nests.flatMap((nest) => nest.sheets);
      return new Set(
        sheets.map(({ stock: on, placements }) =>
          JSON.stringify([
            on.replace(/\/.*$/, ""),
            placements.map(({ part, x, y }) => [part, x.toFixed(3), y.toFixed(3)]),
          ]),
        ),
      );
    };
    const earlier = await looks("first");
    for (const list of ["stock.yaml", "owned.yaml"]) {
      const options = ["--kits", "3", "--resume", "first", "--set", `stock=${list}`, "--out", "counted"];
      const { findings } = await told(...options, "--force");
      const used = findings
        .filter(({ id }) => id === "resume.used")
        .map(({ message }) => Number(/^\d+/.exec(message)?.[0]));
      const now = await looks("counted");
      const again = [...earlier].filter((look) => now.has(look)).length;
      expect(used.reduce((sum, count) => sum + count, 0)).toBe(again);
    }
  }, 60_000);

  it("says of a material that the earlier job had none of", async () => {
    const other = ["--set", "sheets.carrier.thickness=6", "--kits", "3", "--resume", "first"];
    await writeFile(join(folder, "thick.yaml"), stock.replace(/(material: PVC-U, thickness: )5/g, "$16"));
    const { findings } = await told(...other, "--set", "stock=thick.yaml");
    expect(findings.map(({ message }) => message)).toContain("first/job.json has no layouts of it");
  }, 60_000);

  it("drops layouts whose plates changed, with a note", async () => {
    const longer = ["--set", "deck.length=402", "--kits", "3", "--resume", "first"];
    const { ok, findings } = await told(...longer);
    expect(ok).toBe(true);
    const dropped = findings.filter(({ id }) => id === "resume.dropped");
    expect(dropped.length).toBeGreaterThan(0);
    for (const { severity, message } of dropped) {
      expect(severity).toBe("note");
      expect(message).toContain("first/job.json");
    }
    const ran = await command(["nest", "frame.yaml", ...longer, ...HASTE], folder);
    expect(ran.out).toContain("is not used again");
  }, 60_000);

  it("refuses what is no job record of ours, and says what would be right", async () => {
    const record = JSON.parse(await readFile(join(folder, "first/job.json"), "utf8")) as object;
    const files = {
      "text.json": ["plain words", "is not JSON"],
      "other.json": ['{"format": "other"}', "is not a job record of this program"],
      "newer.json": [JSON.stringify({ ...record, version: 99 }), "is a job record of version 99"],
      "broken.json": [JSON.stringify({ ...record, nests: [{ material: "PE-HD" }] }), "nests.0.thickness"],
    } as const;
    for (const [name, [text]] of Object.entries(files)) await writeFile(join(folder, name), text);
    for (const [name, says] of [
      ...Object.entries(files).map(([name, [, says]]) => [name, says] as const),
      ["nowhere.json", "cannot be read; give job.json of a folder that make or nest wrote"] as const,
      [".", "job.json cannot be read"] as const,
    ]) {
      for (const verb of ["nest", "make"]) {
        const ran = await command([verb, "frame.yaml", "--resume", name, ...HASTE], folder);
        expect([name, ran.code]).toEqual([name, 2]);
        expect(ran.err).toContain(says);
        expect(ran.out).toBe("");
      }
    }
  });
});
