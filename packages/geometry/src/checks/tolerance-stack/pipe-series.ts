import type { Machine } from "../../fit/machine.js";
import { pipeTables } from "../../standards/pipes/pipe.js";
import type { Finding } from "../finding.js";
import { numberText } from "../number-text.js";

/** Was the wall of a pipe assumed, because its standard has several for that size and the frame names none? */
export function pipeSeries({ ducts }: Machine): readonly Finding[] {
  return ducts.flatMap(({ duct, pipe }): readonly Finding[] => {
    const { standard, size, series, wall } = duct.pipe;
    if (series !== undefined || wall !== undefined) return [];
    const rows =
      pipeTables.find((table) => table.standard === standard)?.rows.filter((row) => row.size === size) ?? [];
    if (new Set(rows.map((row) => `${row.wallMin} ${row.wallMax}`)).size < 2) return [];
    const sold = rows.map((row) => `${row.series} ${numberText(row.nominalWall)} mm`).join(", ");
    return [
      {
        id: "fit.pipe-series",
        severity: "warning",
        place: `${duct.id}.pipe`,
        message: `${standard} ${size} is made with several walls (${sold}) and ${pipe.designation} was assumed: measure the wall, and give pipe.series or pipe.wall`,
        why: "everything inside the duct follows from the wall",
        source: pipe.source,
      },
    ];
  });
}
