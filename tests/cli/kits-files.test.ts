import { readdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import { bounds, type Contour, placeContour, signedArea } from "@keelcut/geometry";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { command, remove, scratch } from "./command-run.js";
import { parseDxf } from "./dxf-outside.js";
import { frame, shop, stock } from "./starter-texts.js";

const KITS = 9;

interface Sheet {
  readonly file: string;
  readonly stock: string;
  readonly times: number;
  readonly placements: readonly {
    readonly part: string;
    readonly x: number;
    readonly y: number;
    readonly rotation: number;
    readonly mirrored: boolean;
  }[];
}

interface JobRecord {
  readonly plates: readonly {
    readonly id: string;
    readonly name: string;
    readonly count: number;
    readonly made: string;
    readonly region: { readonly outer: Contour };
  }[];
  readonly nests: readonly {
    readonly thickness: number;
    readonly material: string;
    readonly stock: readonly { readonly id: string; readonly outline: Contour }[];
    readonly sheets: readonly Sheet[];
  }[];
}

let folder = "";
let record: JobRecord;
beforeAll(async () => {
  folder = await scratch({ "frame.yaml": frame, "stock.yaml": stock, "shop.yaml": shop });
  const made = await command(
    ["make", "frame.yaml", "--kits", `${KITS}`, "--spares", "0", "--effort", "1", "--out", "made"],
    folder,
  );
  expect([made.code, made.err]).toEqual([0, ""]);
  record = JSON.parse(await readFile(join(folder, "made/job.json"), "utf8")) as JobRecord;
}, 60_000);
afterAll(() => remove(folder));

describe("the files of many kits", () => {
  it("hold just the plates of all kits, by the shapes drawn and how often each sheet is cut", async () => {
    const drawn = new Map<string, number>();
    const files = (await readdir(join(folder, "made/sheets"))).filter((name) => name.endsWith(".dxf"));
    expect(files.length).toBeGreaterThan(1);
    for (const name of files) {
      const times = Number(/-x(\d+)\.dxf$/.exec(name)?.[1]);
      for (const outline of outlinesOf(await readFile(join(folder, "made/sheets", name), "utf8"))) {
        const key = signatureOf(outline);
        drawn.set(key, (drawn.get(key) ?? 0) + times);
      }
    }
    // Plates of one outline that differ by their openings only are counted together.
    const wanted = new Map<string, number>();
    for (const plate of record.plates.filter(({ made }) => made === "cut")) {
      const key = signatureOf(plate.region.outer);
      wanted.set(key, (wanted.get(key) ?? 0) + KITS * plate.count);
    }
    expect(wanted.size).toBeGreaterThan(2);
    expect([...drawn].toSorted()).toEqual([...wanted].toSorted());
  });

  it("come with a list that tells the shop every file once, how often to cut it, and what comes off", async () => {
    const page = await readFile(join(folder, "made/cutting-list.html"), "utf8");
    const rows = tableRows(page);
    const names = new Map(record.plates.map(({ id, name }) => [id, name]));
    const sheets = record.nests.flatMap(({ sheets }) => sheets);
    for (const { file, stock, times, placements } of sheets) {
      const [row, ...others] = rows.filter(([first]) => first === file.replace(/^sheets\//, ""));
      expect(others).toEqual([]);
      const off = new Map<string, number>();
      for (const { part } of placements) off.set(part, (off.get(part) ?? 0) + 1);
      const told = [...off].map(([part, count]) => `${count} × ${names.get(part)}`);
      expect(row?.slice(1, 3)).toEqual([stock, `${times}`]);
      expect(row?.[3]?.split("; ").toSorted()).toEqual(told.toSorted());
    }
    for (const id of new Set(sheets.map((sheet) => sheet.stock))) {
      const count = sheets.reduce((sum, sheet) => sum + (sheet.stock === id ? sheet.times : 0), 0);
      expect(rows.filter((row) => row[1] === id && row[3] === `${count}`)).toHaveLength(1);
    }
    expect(page).toContain(`${KITS} kits`);
  });

  it("come with the rests as stock for the next job, which lie where no plate does and are read again", async () => {
    const text = await readFile(join(folder, "made/offcuts.yaml"), "utf8");
    const offcuts = offcutsOf(text);
    expect(offcuts.length).toBeGreaterThan(0);
    expect(offcuts).toHaveLength(text.split("- id:").length - 1);
    expect(new Set(offcuts.map(({ id }) => id)).size).toBe(offcuts.length);
    for (const { id, material, thickness, count, outline } of offcuts) {
      const [, index, name, thick] =
        new RegExp(`id: ${id} +# of layout (\\d+) of (.+) ([\\d.]+) mm`).exec(text) ?? [];
      const nest = record.nests.find((each) => each.material === name && each.thickness === Number(thick));
      const sheet = nest?.sheets[Number(index) - 1];
      if (nest === undefined || sheet === undefined) throw new Error(`${id} is the offcut of no sheet`);
      expect([material, thickness, count]).toEqual([nest.material, nest.thickness, sheet.times]);
      const [length, width] = outline;
      expect(hasRoom(nest, sheet, length, width)).toBe(true);
      expect(hasRoom(nest, sheet, 5000, 5000)).toBe(false);
    }
    // The next job takes them beside what can be bought, and gives its own offcuts other names.
    const next = text.replace("keelcut: 1\n", "keelcut: 1\nextends: stock.yaml\n");
    const again = await scratch({
      "frame.yaml": frame,
      "stock.yaml": stock,
      "next.yaml": next,
      "shop.yaml": shop,
    });
    const options = ["--set", "stock=next.yaml", "--kits", `${KITS}`, "--effort", "0.2", "--out", "made"];
    const ran = await command(["make", "frame.yaml", ...options], again);
    expect([ran.code, ran.err]).toEqual([0, ""]);
    expect(ran.out).toContain("offcut-starter-");
    const more = offcutsOf(await readFile(join(again, "made/offcuts.yaml"), "utf8")).map(({ id }) => id);
    expect(more.filter((id) => offcuts.some((offcut) => offcut.id === id))).toEqual([]);
    await remove(again);
  }, 60_000);
});

/** Closed outlines of a sheet's drawing, read by a library that knows nothing of us. */
function outlinesOf(text: string): Contour[] {
  interface Shape {
    readonly type: string;
    readonly layer: string;
    readonly vertices?: readonly { readonly x: number; readonly y: number; readonly bulge?: number }[];
    readonly radius?: number;
    readonly center?: { readonly x: number; readonly y: number };
  }
  const entities = (parseDxf(text)?.entities ?? []) as unknown as Shape[];
  return entities
    .filter(({ layer }) => layer === "outline")
    .map(({ vertices, radius, center }): Contour => {
      if (vertices !== undefined) return vertices.map(({ x, y, bulge = 0 }) => ({ x, y, bulge }));
      const { x, y } = center as { x: number; y: number };
      const r = radius as number;
      return [
        { x: x - r, y, bulge: 1 },
        { x: x + r, y, bulge: 1 },
      ];
    });
}

/** What stays of a contour however it lies: its area and its number of corners. */
function signatureOf(outer: Contour): string {
  return `${Math.abs(signedArea(outer)).toFixed(1)} mm2, ${outer.length} corners`;
}

interface Offcut {
  readonly id: string;
  readonly material: string;
  readonly thickness: number;
  readonly count: number;
  /** Length and width. */
  readonly outline: readonly [number, number];
}

/** The entries of the list, which are written in one form only. */
function offcutsOf(text: string): Offcut[] {
  const form =
    /- id: (\S+)[^\n]*\n +material: "(.+)"\n +thickness: (\S+)\n +outline: \[\[0, 0\], \[(\d+), 0\], \[\4, (\d+)\], \[0, \5\]\]\n +count: (\d+)\n/g;
  return [...text.matchAll(form)].map(([, id = "", material = "", thickness, length, width, count]) => ({
    id,
    material,
    thickness: Number(thickness),
    count: Number(count),
    outline: [Number(length), Number(width)],
  }));
}

function tableRows(page: string): string[][] {
  return [...page.matchAll(/<tr>(.*?)<\/tr>/gs)].map(([, row = ""]) =>
    [...row.matchAll(/<td[^>]*>(.*?)<\/td>/gs)].map(([, cell = ""]) => cell),
  );
}

/** Whether a rectangle lies on the sheet without touching a plate's box, tried at every corner of boxes. */
function hasRoom(nest: JobRecord["nests"][number], sheet: Sheet, length: number, width: number): boolean {
  const outline = nest.stock.find(({ id }) => id === sheet.stock)?.outline ?? [];
  const whole = bounds(outline);
  const boxes = sheet.placements.map((placement) => {
    const plate = record.plates.find(({ id }) => id === placement.part);
    return bounds(placeContour(plate?.region.outer ?? [], placement));
  });
  const xs = [0, whole.maxX - length, ...boxes.flatMap(({ minX, maxX }) => [maxX, minX - length])];
  const ys = [0, whole.maxY - width, ...boxes.flatMap(({ minY, maxY }) => [maxY, minY - width])];
  return xs.some((x) =>
    ys.some((y) => {
      const inside = x >= 0 && y >= 0 && x + length <= whole.maxX && y + width <= whole.maxY;
      const free = boxes.every(
        (box) => box.minX >= x + length || box.maxX <= x || box.minY >= y + width || box.maxY <= y,
      );
      return inside && free;
    }),
  );
}
