import { bounds, type Region, regionArea } from "@keelcut/geometry";
import { describe, expect, it } from "vitest";
import { defaultImportOptions, importRegions } from "../../packages/cli/src/input/import/index.js";
import { brokenCases } from "./import-broken-cases.js";
import type { Cases } from "./import-case.js";
import { dxfCases } from "./import-dxf-cases.js";
import { oddDxfCases } from "./import-dxf-odd-cases.js";
import { svgCases } from "./import-svg-cases.js";
import { trapCases } from "./import-trap-cases.js";

const cases: Cases = { ...dxfCases, ...oddDxfCases, ...svgCases, ...brokenCases, ...trapCases };

function boxOf(regions: readonly Region[]): number[] {
  const boxes = regions.map((region) => bounds(region.outer));
  return [
    Math.min(...boxes.map((box) => box.minX)),
    Math.min(...boxes.map((box) => box.minY)),
    Math.max(...boxes.map((box) => box.maxX)),
    Math.max(...boxes.map((box) => box.maxY)),
  ];
}

describe("a stranger's file", () => {
  it("comes in many kinds", () => {
    expect(Object.keys(cases).length).toBeGreaterThanOrEqual(40);
  });
  it.each(Object.entries(cases))("%s", (_, { text, areas, findings = [], box, error = 1e-6, layers }) => {
    const options = layers === undefined ? defaultImportOptions : { ...defaultImportOptions, layers };
    const imported = importRegions(text, options);
    expect([...new Set(imported.findings.map((finding) => finding.id))].sort()).toEqual(findings);
    const found = imported.regions.map(regionArea).sort((a, b) => a - b);
    expect(found).toHaveLength(areas.length);
    found.forEach((area, index) => {
      expect(Math.abs(area - (areas[index] ?? 0))).toBeLessThanOrEqual(error);
    });
    if (box !== undefined) {
      boxOf(imported.regions).forEach((value, index) => {
        expect(Math.abs(value - (box[index] ?? 0))).toBeLessThanOrEqual(Math.max(error / 20, 1e-6));
      });
    }
    for (const finding of imported.findings) {
      expect(finding.place).not.toBe("");
      expect(finding.message).not.toBe("");
    }
  });
});
