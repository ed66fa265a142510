import { bounds, regionArea, signedArea } from "@keelcut/geometry";
import type { LaidOut } from "../job/laid-out.js";
import { numberText, percentText } from "./number-text.js";
import { table } from "./table.js";

/** What a list says about one layout; lengths mm. */
export interface LayoutFacts {
  readonly file: string;
  readonly material: string;
  readonly thickness: number;
  readonly stock: string;
  readonly length: number;
  readonly width: number;
  readonly times: number;
  readonly plates: number;
  /** Net plate area over the stock's area, 0..1. */
  readonly yield: number;
}

/** Every distinct layout in the order of the files. */
export function layoutJson(
  groups: readonly LaidOut[],
  files: readonly (readonly string[])[],
): readonly LayoutFacts[] {
  return groups.flatMap(({ material, job, result }, group) => {
    const areas = new Map(job.parts.map((part) => [part.id, regionArea(part.region)]));
    return result.sheets.map((sheet, index) => {
      const outline = job.stock.find((stock) => stock.id === sheet.stock)?.outline ?? [];
      const box = bounds(outline);
      const used = sheet.placements.reduce((sum, placed) => sum + (areas.get(placed.part) ?? 0), 0);
      return {
        file: files[group]?.[index] ?? "",
        material: material.material,
        thickness: material.thickness,
        stock: sheet.stock,
        length: box.maxX - box.minX,
        width: box.maxY - box.minY,
        times: sheet.times,
        plates: sheet.placements.length,
        yield: used / signedArea(outline),
      };
    });
  });
}

/** The layouts as a table. */
export function layoutTable(layouts: readonly LayoutFacts[]): string {
  const rows = layouts.map((layout) => [
    layout.file.replace(/^sheets\//, ""),
    layout.stock,
    `${numberText(layout.length, 0)} x ${numberText(layout.width, 0)}`,
    String(layout.times),
    String(layout.plates),
    percentText(layout.yield),
  ]);
  return table(
    [
      { title: "sheet" },
      { title: "stock" },
      { title: "size, mm", right: true },
      { title: "cut", right: true },
      { title: "plates", right: true },
      { title: "used", right: true },
    ],
    rows,
  );
}
