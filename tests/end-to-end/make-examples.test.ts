import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { contents, remove, scratch } from "../cli/command-run.js";
import { type Ended, examples, interrupted, program } from "./built-program.js";

let folder = "";
beforeAll(async () => {
  folder = await scratch({});
});
afterAll(() => remove(folder));

describe.each(["teal", "teal-110"])("the example %s", (name) => {
  const frame = join(examples, name, "frame.yaml");
  let first: Ended;

  it("is made, quietly, with files for shop and buyer", async () => {
    first = await program(["make", frame, "--out", `${name}-1`], folder);
    expect(first.err).toBe("");
    expect(first.code).toBe(0);
    expect(first.out).toContain(`Wrote ${name}-1`);
    const paths = [...(await contents(join(folder, `${name}-1`))).keys()];
    for (const path of ["page.html", "cost.csv", "hardware.csv", "job.json"]) expect(paths).toContain(path);
    expect(paths.some((path) => /^sheets\/pe-hd-10mm-01-x\d+\.dxf$/.test(path))).toBe(true);
    expect(paths.some((path) => /^plates\/deck-pe-hd-10mm-x1\.svg$/.test(path))).toBe(true);
  }, 120_000);

  it("comes out the same in another process, byte for byte", async () => {
    const again = await program(["make", frame, "--out", `${name}-2`], folder);
    expect(again.code).toBe(0);
    expect(again.out.replaceAll(`${name}-2`, `${name}-1`)).toBe(first.out);
    const one = await contents(join(folder, `${name}-1`));
    expect(one.size).toBeGreaterThan(10);
    expect(await contents(join(folder, `${name}-2`))).toEqual(one);
  }, 120_000);
});

describe("a search that is interrupted", () => {
  it("ends soon, with the best layout so far, and writes it whole", async () => {
    const frame = join(examples, "teal", "frame.yaml");
    const argv = ["make", frame, "--kits", "6", "--effort", "300", "--out", "stopped"];
    const ended = await interrupted(argv, folder, 12);
    expect([ended.code, ended.err]).toEqual([0, ""]);
    expect(ended.seconds).toBeLessThan(90);
    expect(ended.out).toContain("stopped early");
    expect((await contents(join(folder, "stopped"))).has("job.json")).toBe(true);
  }, 120_000);
});
