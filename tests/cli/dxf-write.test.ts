import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { asCircle, type Contour, circle, segments, signedArea } from "@keelcut/geometry";
import { afterAll, describe, expect, it } from "vitest";
import {
  type Drawing,
  defaultDxfOptions,
  type Entity,
  plateDrawing,
  sheetDrawing,
  writeDxf,
} from "../../packages/cli/src/output/index.js";
import { hasEzdxf, hasOgr, outside, parseDxf, readWithEzdxf } from "./dxf-outside.js";
import { deck, drawn, nestedSheet, nominal, plates, ring, stock } from "./dxf-samples.js";

const folder = mkdtempSync(join(tmpdir(), "keelcut-dxf-"));
afterAll(() => rmSync(folder, { recursive: true }));

const sheet = drawn(
  sheetDrawing(
    { sheet: nestedSheet, number: 1, stock, material: { material: "PE-HD", thickness: 10 }, plates },
    nominal,
  ),
);
const drawings: readonly Drawing[] = [
  sheet,
  drawn(plateDrawing(deck, 2, nominal)),
  drawn(plateDrawing(ring, 1, nominal)),
];
const files = drawings.flatMap((drawing, index) =>
  (["R12", "R2000"] as const).map((flavour) => {
    const text = writeDxf(drawing, { ...defaultDxfOptions, flavour });
    const path = join(folder, `${index}-${flavour}.dxf`);
    writeFileSync(path, text);
    return { drawing, flavour, text, path };
  }),
);

describe.runIf(hasEzdxf)("read by python3-ezdxf", () => {
  const read = readWithEzdxf(files.map((file) => file.path));
  it.each(files.map((file, index) => ({ ...file, index })))("$path", ({ drawing, flavour, index }) => {
    const found = read[index];
    if (found === undefined) throw new Error("nothing read");
    expect(found.complaints).toEqual([]);
    expect(found.version).toBe(flavour === "R12" ? "AC1009" : "AC1015");
    expect(found.units).toBe(4);
    expect(found.measurement).toBe(1);
    expect(found.extmax[0]).toBeCloseTo(drawing.width, 5);
    expect(found.extmax[1]).toBeCloseTo(drawing.height, 5);
    expect(found.entities).toHaveLength(drawing.entities.length);
    found.entities.forEach((entity, at) => {
      const drawnEntity = drawing.entities[at];
      if (drawnEntity === undefined) throw new Error("no entity");
      expect(entity.layer).toBe(drawnEntity.layer);
      expect(entity.color).toBe(256);
      compare(entity, drawnEntity, flavour);
    });
  });
});

function compare(
  entity: ReturnType<typeof readWithEzdxf>[number]["entities"][number],
  drawnEntity: Entity,
  flavour: string,
): void {
  const contour = drawnEntity.kind === "contour" ? drawnEntity.contour : drawnEntity.path.vertices;
  const round = drawnEntity.kind === "contour" ? asCircle(contour) : undefined;
  if (round !== undefined) {
    expect(entity.type).toBe("CIRCLE");
    expect(entity.center?.[0]).toBeCloseTo(round.center.x, 5);
    expect(entity.center?.[1]).toBeCloseTo(round.center.y, 5);
    expect(entity.radius).toBeCloseTo(round.radius, 5);
    return;
  }
  expect(entity.type).toBe(flavour === "R12" ? "POLYLINE" : "LWPOLYLINE");
  expect(entity.closed).toBe(drawnEntity.kind === "contour");
  expect(entity.points).toHaveLength(contour.length);
  entity.points?.forEach(([x, y, bulge], at) => {
    expect(Math.hypot(x - (contour[at]?.x ?? 0), y - (contour[at]?.y ?? 0))).toBeLessThan(1e-6);
    expect(Math.abs(bulge - (contour[at]?.bulge ?? 0))).toBeLessThan(1e-11);
  });
}

describe.runIf(hasOgr)("read by ogrinfo", () => {
  it.each(files)("$path", ({ path, drawing }) => {
    const text = outside("ogrinfo", ["-ro", "-so", "-al", path]);
    expect(text).toContain(`Feature Count: ${drawing.entities.length}`);
    const extent = /Extent: \(([-\d.]+), ([-\d.]+)\) - \(([-\d.]+), ([-\d.]+)\)/.exec(text);
    expect(Number(extent?.[1])).toBeGreaterThanOrEqual(0);
    // OGR turns arcs into chords, so its extent may fall short a little.
    expect(Math.abs(Number(extent?.[3]) - drawing.width)).toBeLessThan(0.01);
    expect(Math.abs(Number(extent?.[4]) - drawing.height)).toBeLessThan(0.01);
  });
});

describe("read by dxf-parser", () => {
  it.each(files)("$path", ({ text, drawing }) => {
    const read = parseDxf(text);
    expect(read?.header["$INSUNITS"]).toBe(4);
    expect(read?.entities.map((entity) => entity.layer)).toEqual(
      drawing.entities.map((entity) => entity.layer),
    );
  });
});

describe("the text of a DXF file", () => {
  it("is the same bytes every time", () => {
    for (const { drawing, flavour, text } of files) {
      expect(writeDxf(drawing, { ...defaultDxfOptions, flavour })).toBe(text);
    }
  });
  it("holds plain decimals, no minus zero and a final newline", () => {
    for (const { text } of files) {
      const lines = text.split("\n");
      for (let i = 0; i + 1 < lines.length; i += 2) {
        const code = Number(lines[i]);
        if (code >= 10 && code < 60) expect(lines[i + 1]).toMatch(/^-?\d+(\.\d+)?$/);
        expect(lines[i + 1]).not.toBe("-0");
      }
      expect(text.endsWith("EOF\n")).toBe(true);
    }
  });
  it("has no coordinate below zero and no entity but circles and polylines", () => {
    for (const { text } of files) {
      const read = parseDxf(text);
      const types = new Set(read?.entities.map((entity) => entity.type));
      expect([...types].every((type) => ["CIRCLE", "LWPOLYLINE", "POLYLINE"].includes(type))).toBe(true);
      const lines = text.split("\n");
      const start = lines.indexOf("ENTITIES");
      for (let i = start + 1; i + 1 < lines.length; i += 2) {
        if (["10", "20"].includes(lines[i] ?? "")) expect(Number(lines[i + 1])).toBeGreaterThanOrEqual(0);
      }
    }
  });
});

describe("cutting order", () => {
  const cuts = sheet.entities.filter((entity) => entity.layer === "opening" || entity.layer === "outline");
  const order = cuts.map((entity) => `${entity.layer} ${size(entity)}`);
  it("cuts what lies in openings before the plate around it", () => {
    const at = (text: string): number => order.indexOf(text);
    expect(at("outline 12")).toBeLessThan(at("opening 32"));
    expect(at("outline 60")).toBeGreaterThan(at("opening 32"));
    expect(at("outline 60")).toBeLessThan(at("opening 100"));
    expect(at("opening 100")).toBeLessThan(at("outline 300"));
  });
  it("cuts every contour once", () => {
    expect(cuts).toHaveLength(2 * 6 + 2 * 2 + 2);
  });
  it("draws marks before cuts and stock after them", () => {
    const first = sheet.entities.findIndex((entity) => entity.layer !== "mark");
    expect(sheet.entities.slice(0, first).every((entity) => entity.layer === "mark")).toBe(true);
    expect(sheet.entities.slice(first + cuts.length).every((entity) => entity.layer === "stock")).toBe(true);
  });
});

function size(entity: Entity): number {
  const contour: Contour = entity.kind === "contour" ? entity.contour : entity.path.vertices;
  const xs = segments(contour).flatMap((piece) =>
    piece.kind === "arc" && asCircle(contour) !== undefined
      ? [piece.center.x - piece.radius, piece.center.x + piece.radius]
      : [piece.from.x],
  );
  return Math.round(Math.max(...xs) - Math.min(...xs));
}

describe("what would break a file is refused", () => {
  const good = drawn(plateDrawing(ring, 1, nominal));
  const layerNames = defaultDxfOptions.layerNames;
  const flat = (x: number): Drawing => ({
    ...good,
    entities: [
      {
        kind: "contour",
        layer: "outline",
        contour: [
          { x, y: 0, bulge: 0 },
          { x: 5, y: 0, bulge: 0 },
          { x: 5, y: 5, bulge: 0 },
        ],
      },
    ],
  });
  it.each([Number.NaN, Number.POSITIVE_INFINITY])("a coordinate of %s", (x) => {
    for (const flavour of ["R12", "R2000"] as const) {
      expect(() => writeDxf(flat(x), { ...defaultDxfOptions, flavour })).toThrow(RangeError);
    }
  });
  it("a polyline without vertices", () => {
    const empty: Drawing = { ...good, entities: [{ kind: "contour", layer: "outline", contour: [] }] };
    expect(() => writeDxf(empty)).toThrow(RangeError);
  });
  it.each(["a|b", "", "a\nb", "x".repeat(300), "größe", " a"])("layer name %j", (name) => {
    for (const flavour of ["R12", "R2000"] as const) {
      const options = { ...defaultDxfOptions, flavour, layerNames: { ...layerNames, outline: name } };
      expect(() => writeDxf(good, options)).toThrow(RangeError);
    }
  });
  it("a layer shared by cuts and the stock's edge", () => {
    expect(() =>
      writeDxf(good, { ...defaultDxfOptions, layerNames: { ...layerNames, stock: "Outline" } }),
    ).toThrow(/cutting layer/);
  });
  it("very small and very large numbers stay plain", () => {
    expect(writeDxf(flat(1e-7))).not.toMatch(/\de-/);
    expect(() => writeDxf(flat(1e21))).toThrow(RangeError);
  });
});

describe("layers", () => {
  it("takes names from the options and puts all cuts on one layer when asked", () => {
    const options = {
      ...defaultDxfOptions,
      layers: "single" as const,
      layerNames: { outline: "CUT", opening: "x", mark: "PEN", stock: "REF" },
    };
    for (const flavour of ["R12", "R2000"] as const) {
      const read = parseDxf(writeDxf(sheet, { ...options, flavour }));
      expect(new Set(read?.entities.map((entity) => entity.layer))).toEqual(new Set(["PEN", "CUT", "REF"]));
      expect(read?.entities.filter((entity) => entity.layer === "CUT")).toHaveLength(2 * 6 + 2 * 2 + 2);
    }
  });
  it("can leave marks and stock out", () => {
    const bare = drawn(plateDrawing(ring, 1, { ...nominal, marks: false, stockOutline: false }));
    expect(bare.entities.map((entity) => entity.layer)).toEqual(["opening", "outline"]);
    const first = bare.entities[0];
    expect(first?.kind === "contour" && signedArea(first.contour)).toBeCloseTo(
      signedArea(circle({ x: 0, y: 0 }, 16)) * -1,
      6,
    );
  });
});
