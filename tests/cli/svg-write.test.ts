import { regionArea } from "@keelcut/geometry";
import { describe, expect, it } from "vitest";
import {
  type Drawing,
  defaultLayerOptions,
  plateDrawing,
  sheetDrawing,
  writeSvg,
} from "../../packages/cli/src/output/index.js";
import { hasRsvg } from "./dxf-outside.js";
import { deck, drawn, nestedSheet, nominal, plates, plug, ring, stock } from "./dxf-samples.js";
import { darkArea, rasterise } from "./svg-picture.js";

const input = {
  sheet: nestedSheet,
  number: 1,
  stock,
  material: { material: "PE-HD", thickness: 10 },
  plates,
};
const sheet = drawn(sheetDrawing(input, nominal));
const bare = { ...nominal, marks: false, stockOutline: false };

describe("the text of an SVG file", () => {
  const text = writeSvg(sheet);
  it("is in millimetres, width, height and viewBox alike", () => {
    const head = /<svg [^>]*width="([\d.]+)mm" height="([\d.]+)mm" viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(
      text,
    );
    expect(Number(head?.[1])).toBeCloseTo(sheet.width, 6);
    expect(head?.[3]).toBe(head?.[1]);
    expect(head?.[4]).toBe(head?.[2]);
  });
  it("has no transform, no text, no px, no exponent and no minus zero", () => {
    expect(/transform|<text|px/.test(text)).toBe(false);
    const numbers = [...text.matchAll(/ (?:d|cx|cy|r)="([^"]*)"/g)].map((match) => match[1]).join(" ");
    expect(/\d[eE]|[^\d.]-0(?![.\d])/.test(numbers)).toBe(false);
  });
  it("is the same bytes every time", () => {
    expect(writeSvg(sheet)).toBe(text);
  });
  it("draws as many lines as the drawing has, circles as circles", () => {
    expect(text.match(/<path /g)?.length).toBe(sheet.entities.length - 10);
    expect(text.match(/<circle /g)?.length).toBe(10);
  });
  it("has one id per group, in cutting order", () => {
    const ids = [...text.matchAll(/<g id="([^"]+)"/g)].map((match) => match[1]);
    expect(ids).toEqual(["mark", "outline", "opening", "outline-2", "opening-2", "outline-3", "stock"]);
  });
  it("escapes what people type", () => {
    const odd: Drawing = { ...sheet, title: `<a & "b">`, note: ["x < y & z"] };
    const options = {
      ...defaultLayerOptions,
      layerNames: { ...defaultLayerOptions.layerNames, outline: `"&<` },
    };
    expect(writeSvg(odd, options)).toContain("<title>&lt;a &amp; &quot;b&quot;&gt;</title>");
    expect(writeSvg(odd, options)).toContain(`<g id="&quot;&amp;&lt;"`);
  });
  it("refuses what is not finite", () => {
    const bad: Drawing = {
      ...sheet,
      entities: [
        {
          kind: "path",
          layer: "mark",
          path: {
            closed: false,
            vertices: [
              { x: Number.NaN, y: 0, bulge: 0 },
              { x: 1, y: 0, bulge: 0 },
            ],
          },
        },
      ],
    };
    expect(() => writeSvg(bad)).toThrow(RangeError);
  });
});

describe.runIf(hasRsvg)("drawn by rsvg-convert", () => {
  const zoom = 5;
  const pixelsPerMillimetre = (96 / 25.4) * zoom;
  it.each([deck, ring, plug])("$id has the area of its region and the size of its box", (plate) => {
    const drawing = drawn(plateDrawing(plate, 1, bare));
    const filled = writeSvg(drawing)
      .replace(/(<g id="outline") fill="none" stroke="[^"]*"/, `$1 fill="black" stroke="none"`)
      .replace(/(<g id="opening") fill="none" stroke="[^"]*"/, `$1 fill="white" stroke="none"`);
    // Painted in the other order: openings over outlines.
    const groups = filled.match(/<g [\s\S]*?<\/g>/g) ?? [];
    const painted = filled.replace(/<g [\s\S]*<\/g>/, groups.reverse().join("\n"));
    const picture = rasterise(painted, zoom);
    expect(Math.abs(picture.width - drawing.width * pixelsPerMillimetre)).toBeLessThanOrEqual(1);
    expect(Math.abs(picture.height - drawing.height * pixelsPerMillimetre)).toBeLessThanOrEqual(1);
    const area = darkArea(picture) / pixelsPerMillimetre ** 2;
    expect(Math.abs(area / regionArea(plate.region) - 1)).toBeLessThan(3e-4);
  });
  it("shows a sheet at full size", () => {
    const picture = rasterise(writeSvg(sheet), 1);
    expect(Math.abs(picture.width - (sheet.width * 96) / 25.4)).toBeLessThanOrEqual(1);
    expect(darkArea(picture)).toBeGreaterThan(0);
  });
});
