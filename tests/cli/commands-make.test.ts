import { createHash } from "node:crypto";
import { readFile, stat } from "node:fs/promises";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { command, contents, type Ran, remove, scratch } from "./command-run.js";
import { frame, shop, stock } from "./starter-texts.js";

const starter = { "frame.yaml": frame, "stock.yaml": stock, "shop.yaml": shop };

interface Placed {
  readonly part: string;
}

interface JobRecord {
  readonly format: string;
  readonly version: number;
  readonly kits: number;
  readonly plates: {
    readonly id: string;
    readonly count: number;
    readonly demand: number;
    readonly made: string;
  }[];
  readonly nests: {
    readonly sheets: { readonly file: string; readonly times: number; readonly placements: Placed[] }[];
  }[];
  readonly files: { readonly path: string; readonly bytes: number; readonly sha256: string }[];
  readonly estimate: { readonly totals: { readonly total: number } };
}

let folder = "";
let made: Ran;
let record: JobRecord;
beforeAll(async () => {
  folder = await scratch(starter);
  made = await command(["make", "frame.yaml", "--out", "result", "--kits", "2", "--spares", "10"], folder);
  record = JSON.parse(await readFile(join(folder, "result/job.json"), "utf8")) as JobRecord;
}, 60_000);
afterAll(() => remove(folder));

describe("make", () => {
  it("ends well and quietly, and says what to cut, what it costs, what to beware of and where it is", () => {
    expect([made.code, made.err]).toEqual([0, ""]);
    for (const part of [
      "Starter, 2 kits",
      ".dxf",
      "Cost",
      "EUR",
      "a kit",
      "Beware",
      "Wrote result",
      "page.html",
    ]) {
      expect(made.out).toContain(part);
    }
    expect(made.out).not.toContain("\x1b");
  });

  it("writes every file it lists, as listed, and no other", async () => {
    const written = await contents(join(folder, "result"));
    expect([...written.keys()].filter((path) => path !== "job.json")).toEqual(
      record.files.map((file) => file.path).sort(),
    );
    for (const file of record.files) {
      const bytes = await readFile(join(folder, "result", file.path));
      expect([file.path, bytes.length]).toEqual([file.path, file.bytes]);
      expect(createHash("sha256").update(bytes).digest("hex")).toBe(file.sha256);
    }
    for (const name of ["page.html", "cost.csv", "cost.xlsx", "hardware.csv"])
      expect(written.has(name)).toBe(true);
  });

  it("lays out kits and spares: twice the kit's plates and a tenth more, rounded up", () => {
    const laid = new Map<string, number>();
    for (const sheet of record.nests.flatMap((nest) => nest.sheets)) {
      for (const { part } of sheet.placements) laid.set(part, (laid.get(part) ?? 0) + sheet.times);
    }
    const cut = record.plates.filter((plate) => plate.made === "cut");
    expect(cut.length).toBeGreaterThanOrEqual(4);
    for (const plate of cut) {
      expect([plate.id, laid.get(plate.id)]).toEqual([plate.id, Math.ceil(plate.count * 2 * 1.1)]);
      expect(plate.demand).toBe(laid.get(plate.id));
    }
  });

  it("says in a sheet's name how often to cut it, and draws every sheet and plate twice", () => {
    const sheets = record.nests.flatMap((nest) => nest.sheets);
    for (const sheet of sheets)
      expect(sheet.file).toMatch(new RegExp(`^sheets/[a-z0-9.-]+-x${sheet.times}\\.dxf$`));
    const paths = record.files.map((file) => file.path);
    const drawings = paths.filter((path) => /^(sheets|plates)\/.*\.(dxf|svg)$/.test(path));
    expect(drawings.length).toBe(2 * (sheets.length + record.plates.length));
    for (const path of drawings.filter((each) => each.endsWith(".dxf"))) {
      expect(paths).toContain(path.replace(/dxf$/, "svg"));
    }
  });

  it("adds up: the lines of cost.csv are the total", async () => {
    const text = await readFile(join(folder, "result/cost.csv"), "utf8");
    const [head = "", ...rows] = text.trim().split("\r\n");
    const column = head.split(",").indexOf("amount");
    expect(column).toBeGreaterThan(0);
    const cents = rows
      .map((row) => cells(row)[column] ?? "")
      .map((amount) => Math.round(Number(amount) * 100));
    expect(cents.length).toBeGreaterThan(10);
    expect(cents.reduce((sum, amount) => sum + amount, 0)).toBe(record.estimate.totals.total);
  });

  it("writes the same bytes again, over its own folder and elsewhere", async () => {
    const before = await contents(join(folder, "result"));
    const options = ["--kits", "2", "--spares", "10"];
    const again = await command(["make", "frame.yaml", "--out", "result", ...options], folder);
    expect([again.code, again.out]).toEqual([0, made.out]);
    expect(await contents(join(folder, "result"))).toEqual(before);
    const other = await command(["make", "frame.yaml", "--out", "other/deep", ...options], folder);
    expect(other.code).toBe(0);
    expect(await contents(join(folder, "other/deep"))).toEqual(before);
  }, 60_000);

  it("writes into out/<name> by default, and tells programs what it did", async () => {
    const ran = await command(["make", "frame.yaml", "--json", "--set", "name=Été à l'eau"], folder);
    expect([ran.code, ran.err]).toEqual([0, ""]);
    const summary = JSON.parse(ran.out) as {
      out: string;
      ok: boolean;
      files: string[];
      proof: { proved: boolean };
    };
    expect([summary.ok, summary.out, summary.proof.proved]).toEqual([true, "out/ete-a-l-eau", true]);
    for (const path of summary.files)
      expect((await stat(join(folder, summary.out, path))).isFile()).toBe(true);
  }, 60_000);

  it("moves contours by half the kerf when the frame wants it in the files, and says so in every name", async () => {
    const set = ["--set", "cutting.compensation=file"];
    const ran = await command(["make", "frame.yaml", "--out", "moved", ...set], folder);
    expect([ran.code, ran.err]).toEqual([0, ""]);
    expect(ran.out).toContain("moved by half the kerf of 3 mm");
    const paths = [...(await contents(join(folder, "moved"))).keys()].filter((path) => path.endsWith(".dxf"));
    const cut = paths.filter((path) => !path.includes("wrap"));
    expect(cut.length).toBeGreaterThan(3);
    for (const path of cut) expect(path).toContain("compensated-3mm");
  }, 60_000);
});

describe("colour on a terminal", () => {
  it("is there, and gone with NO_COLOR", async () => {
    const coloured = await command(["check", "frame.yaml"], folder, { terminal: true });
    expect(coloured.out).toContain("\x1b[");
    const plain = await command(["check", "frame.yaml"], folder, { env: { NO_COLOR: "1" }, terminal: true });
    expect(plain.out).not.toContain("\x1b[");
    expect(plain.code).toBe(coloured.code);
  });
});

/** Cells of one CSV row (RFC 4180), read independently of the writer. */
function cells(row: string): string[] {
  return [...row.matchAll(/("(?:[^"]|"")*"|[^,]*)(?:,|$)/g)].map(([, cell = ""]) =>
    cell.startsWith('"') ? cell.slice(1, -1).replaceAll('""', '"') : cell,
  );
}
