import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { version } from "../../packages/cli/src/version.js";
import { command, contents, remove, scratch } from "./command-run.js";
import { frame, shop, stock } from "./starter-texts.js";

let folder = "";
beforeEach(async () => {
  folder = await scratch({ "frame.yaml": frame, "stock.yaml": stock, "shop.yaml": shop });
});
afterEach(() => remove(folder));

function json<T>(text: string): T {
  return JSON.parse(text) as T;
}

describe("plates", () => {
  it("lists plates, hardware and lengths", async () => {
    const ran = await command(["plates", "frame.yaml"], folder);
    expect([ran.code, ran.err]).toEqual([0, ""]);
    for (const name of ["deck", "cheek", "carrier", "wrap", "nut ISO 4032 M6", "rod DIN 976 M6"]) {
      expect(ran.out).toContain(name);
    }
  });

  it("follows a setting in every dimension it touches", async () => {
    interface Plates {
      dimensions: { name: string; value: number }[];
      plates: { id: string; length: number; width: number }[];
    }
    const small = json<Plates>((await command(["plates", "frame.yaml", "--json"], folder)).out);
    const set = ["--set", "ducts.*.pipe.size=110"];
    const large = json<Plates>((await command(["plates", "frame.yaml", "--json", ...set], folder)).out);
    const value = (of: Plates, name: string) =>
      of.dimensions.find((each) => each.name === name)?.value ?? Number.NaN;
    const names = small.dimensions.map((each) => each.name).filter((name) => /rim/i.test(name));
    expect(names.length).toBeGreaterThan(0);
    for (const name of names) expect(value(large, name) - value(small, name)).toBeGreaterThan(25);
    const deck = (of: Plates) => of.plates.find((plate) => plate.id === "deck")?.width ?? 0;
    expect(deck(large)).toBeGreaterThan(deck(small));
  });

  it("needs neither stock list nor shop profile", async () => {
    const alone = frame.replace(/stock: .*\nshop: .*\n/, "cutting: {method: router, kerf: 3}\n");
    const other = await scratch({ "frame.yaml": alone });
    const ran = await command(["plates", "frame.yaml"], other);
    await remove(other);
    expect([ran.code, ran.err]).toEqual([0, ""]);
  });
});

describe("check", () => {
  it("lists findings with why and source, and tells programs the same", async () => {
    const ran = await command(["check", "frame.yaml", "--reasons"], folder);
    expect([ran.code, ran.err]).toEqual([0, ""]);
    const data = json<{ findings: { id: string; why: string; severity: string; source: string }[] }>(
      (await command(["check", "frame.yaml", "--json"], folder)).out,
    );
    const shown = ran.out.replace(/\s+/g, " ");
    for (const { id, why, source } of data.findings) {
      expect(source.length).toBeGreaterThan(3);
      expect(shown).toContain(why);
      expect(shown).toContain(`[${id}; ${source}]`);
    }
  });

  it("leaves the reasons of notes out and says how to see them", async () => {
    const data = json<{ findings: { id: string; message: string; severity: string }[] }>(
      (await command(["check", "frame.yaml", "--json"], folder)).out,
    );
    const ran = await command(["check", "frame.yaml"], folder);
    const shown = ran.out.replace(/\s+/g, " ");
    expect(data.findings.filter((finding) => finding.severity === "note").length).toBeGreaterThan(0);
    for (const { id, message, severity } of data.findings) {
      expect(shown).toContain(message);
      expect(shown.includes(`[${id};`)).toBe(severity !== "note");
    }
    expect(shown).toContain("--reasons says why the notes matter");
  });

  it("ends with 1 when a frame cannot work, also for programs", async () => {
    const ran = await command(["check", "frame.yaml", "--json", "--set", "deck.width=50"], folder);
    expect([ran.code, ran.err]).toEqual([1, ""]);
    const data = json<{ findings: { severity: string }[] }>(ran.out);
    expect(data.findings.some((finding) => finding.severity === "error")).toBe(true);
  });
});

describe("nest", () => {
  it("lists layouts, and writes them only when asked", async () => {
    const before = await contents(folder);
    const ran = await command(["nest", "frame.yaml"], folder);
    expect([ran.code, ran.err]).toEqual([0, ""]);
    expect(ran.out).toMatch(/pe-hd-10mm-01-x1\.dxf +pe-10-small/);
    expect(await contents(folder)).toEqual(before);

    const written = await command(["nest", "frame.yaml", "--out", "sheets-only"], folder);
    expect([written.code, written.err]).toEqual([0, ""]);
    const paths = [...(await contents(join(folder, "sheets-only"))).keys()];
    expect(paths).toContain("job.json");
    expect(paths).toContain("sheets/pe-hd-10mm-01-x1.dxf");
    expect(paths.every((path) => path === "job.json" || path.startsWith("sheets/"))).toBe(true);
  }, 60_000);

  it("says what whoever takes its files must know: every warning, and what to beware of", async () => {
    // Bridges that no outline of this frame has room for: every plate comes loose.
    const loose = shop.replace(/^files:/m, "files:\n  bridges: {count: 2, spacing: 5000, width: 2000}");
    expect(loose).not.toBe(shop);
    const other = await scratch({ "frame.yaml": frame, "stock.yaml": stock, "shop.yaml": loose });
    const ran = await command(["nest", "frame.yaml"], other);
    const data = json<{ stoppedEarly: boolean; findings: { id: string; severity: string }[] }>(
      (await command(["nest", "frame.yaml", "--json"], other)).out,
    );
    await remove(other);
    expect([ran.code, data.stoppedEarly]).toEqual([0, false]);
    const warnings = data.findings.filter(({ severity }) => severity === "warning");
    expect(warnings.map(({ id }) => id)).toContain("files.bridges");
    const shown = ran.out.replace(/\s+/g, " ");
    for (const { id } of warnings) expect(shown).toContain(`[${id};`);
    expect(shown).toContain(`${warnings.length} warning`);
    expect(shown).toContain("Beware Never cut PVC with a laser; Chips, dust and a spinning cutter");
    expect(shown).not.toContain("stopped early");
  }, 60_000);

  it.each(["nest", "cost"])(
    "%s says that Ctrl-C ended the search with the best so far",
    async (verb) => {
      const stopped = AbortSignal.abort();
      const ran = await command([verb, "frame.yaml"], folder, { signal: stopped });
      expect([ran.code, ran.out]).toEqual([0, expect.stringContaining("stopped early")]);
      const data = json<{ stoppedEarly: boolean }>(
        (await command([verb, "frame.yaml", "--json"], folder, { signal: stopped })).out,
      );
      expect(data.stoppedEarly).toBe(true);
    },
    60_000,
  );
});

describe("catalog", () => {
  it("lists tables with their basis, and prints one with its source", async () => {
    const list = await command(["catalog"], folder);
    expect([list.code, list.err]).toEqual([0, ""]);
    expect(list.out).toMatch(/^iso-4762 /m);
    const one = await command(["catalog", "iso-4762"], folder);
    expect(one.out).toContain("Source:");
    expect(one.out).toMatch(/^M3 /m);
    const data = json<{ tables: { id: string; rows: number }[] }>(
      (await command(["catalog", "--json"], folder)).out,
    );
    for (const { id, rows } of data.tables) {
      const table = json<{ rows: unknown[] }>((await command(["catalog", id, "--json"], folder)).out);
      expect([id, table.rows.length]).toEqual([id, rows]);
    }
  });
});

describe("init", () => {
  it("writes a folder that make understands, and never over another", async () => {
    const ran = await command(["init", "own/new"], folder);
    expect([ran.code, ran.err]).toEqual([0, ""]);
    expect(await readFile(join(folder, "own/new/frame.yaml"), "utf8")).toBe(frame);
    const check = await command(["check", "own/new/frame.yaml"], folder);
    expect(check.code).toBe(0);
    const again = await command(["init", "own/new"], folder);
    expect([again.code, again.out]).toEqual([2, ""]);
    expect(again.err).toContain("is there already");
  });
});

describe("for programs", () => {
  it("a mistake is data on stdout and a line on stderr", async () => {
    const ran = await command(["make", "frame.yaml", "--json", "--set", "ducts.port.lenght=5"], folder);
    expect(ran.code).toBe(2);
    const data = json<{ format: string; problems: { where: string; field: string; message: string }[] }>(
      ran.out,
    );
    expect(data.format).toBe("keelcut-error");
    expect(data.problems[0]?.field).toBe("ducts.port.lenght");
    expect(ran.err).toContain("ducts.port.lenght");
  });

  it.each([
    [["make", "--json"], /missing required argument/],
    [["check", "frame.yaml", "--json", "--bogus"], /unknown option '--bogus'/],
  ])("so is a mistake in the command itself: %j", async (argv, message) => {
    const ran = await command(argv, folder);
    expect(ran.code).toBe(2);
    const { format, problems } = json<{ format: string; problems: { message: string }[] }>(ran.out);
    expect(format).toBe("keelcut-error");
    expect(problems[0]?.message).toMatch(message);
    expect(ran.err).toMatch(message);
  });

  it("help is no mistake", async () => {
    const ran = await command(["make", "--help", "--json"], folder);
    expect(ran.code).toBe(0);
    expect(ran.out).not.toContain("keelcut-error");
  });
});

describe("the version", () => {
  it("is that of the package", async () => {
    const manifest = await readFile(new URL("../../packages/cli/package.json", import.meta.url), "utf8");
    expect(version).toBe(json<{ version: string }>(manifest).version);
    const ran = await command(["--version"], folder);
    expect([ran.code, ran.out]).toEqual([0, `${version}\n`]);
  });

  it.each([[["--help"]], [["help", "make"]], [["make", "--help"]]])(
    "and help come on stdout: %s",
    async (argv) => {
      const ran = await command(argv, folder);
      expect([ran.code, ran.err]).toEqual([0, ""]);
      expect(ran.out).toContain("Usage: keelcut");
    },
  );
});
