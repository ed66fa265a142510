import type { Machine } from "../../fit/machine.js";
import type { DuctParameters } from "../../frame/parameters.js";
import { pipeTables } from "../../standards/pipes/pipe.js";
import type { Finding } from "../finding.js";
import { numberText } from "../number-text.js";

/**
 * Was the wall of a pipe assumed, because its standard has several for that size and the frame names none, or is the series
 * sold with another wall by another standard?
 */
export function pipeSeries({ ducts }: Machine): readonly Finding[] {
  return ducts.flatMap(({ duct, pipe }): readonly Finding[] => {
    const { standard, size, series, wall } = duct.pipe;
    if (wall !== undefined) return [];
    if (series !== undefined) return otherWalls(duct, pipe.source);
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

/** Pipes of one name differ by standard, and shops seldom say which one they sell: PN10 of 110 mm has 4.2 or 5.3 mm. */
function otherWalls(
  { id, pipe: { standard, size, series } }: DuctParameters,
  source: string,
): readonly Finding[] {
  const rows = pipeTables.flatMap((table) =>
    table.rows
      .filter((row) => row.size === size && row.series === series)
      .map(({ nominalWall }) => ({ standard: table.standard, nominalWall })),
  );
  const own = rows.find((row) => row.standard === standard)?.nominalWall;
  const others = rows.filter(({ nominalWall }) => nominalWall !== own);
  if (own === undefined || others.length === 0) return [];
  const sold = others.map((row) => `${numberText(row.nominalWall)} mm by ${row.standard}`).join(", ");
  return [
    {
      id: "fit.pipe-series",
      severity: "warning",
      place: `${id}.pipe`,
      message: `${series} of ${size} has a wall of ${numberText(own)} mm by ${standard}, but ${sold}: measure the wall, and name the standard it is of, or give pipe.wall`,
      why: "everything inside the duct follows from the wall",
      source,
    },
  ];
}
