import type { Machine } from "../../fit/machine.js";
import type { FittedDuct } from "../../fit/rod-runs.js";
import type { StructuralSheet } from "../../frame/parameters.js";
import { pipeMaterial } from "../../hardware/mass.js";
import { isSameStock } from "../../plates/measured-thickness.js";
import { isSheetMaterial, sheetMaterial, pipe as tablePipe } from "../../standards/index.js";
import { pipeTables } from "../../standards/pipes/pipe.js";
import type { PipeRow } from "../../standards/pipes/pipe-table.js";
import type { Finding } from "../finding.js";
import { numberText } from "../number-text.js";

/**
 * Measured values beside the names they are bought under: plates follow what was measured, the list of what to buy
 * follows the name, so a reading that the standard does not allow means that one of the two is wrong.
 */
export function measuredValues({ parameters, ducts }: Machine): readonly Finding[] {
  const { structure, carrier, float } = parameters.sheets;
  const sheets = [structure, carrier, float, ...(parameters.plates ?? []).map(({ sheet }) => sheet)].filter(
    (sheet): sheet is StructuralSheet => sheet?.measured !== undefined,
  );
  const distinct = sheets.filter(
    (sheet, index) =>
      sheets.findIndex((other) => isSameStock(other, sheet) && other.measured === sheet.measured) === index,
  );
  return [
    ...distinct.flatMap(offNominal),
    ...distinct.flatMap((sheet, index) => measuredTwice(sheet, distinct.slice(0, index))),
    ...ducts.flatMap(outsideOffTable),
    ...ducts.flatMap(wallOffTable),
    ...ducts.flatMap(takenAsExact),
  ];
}

function offNominal({ material, thickness, measured }: StructuralSheet): readonly Finding[] {
  if (measured === undefined || !isSheetMaterial(material)) return [];
  const { thicknessTolerance, thicknessSource } = sheetMaterial(material);
  const tolerance = thicknessTolerance(thickness);
  const off = Math.abs(measured - thickness);
  if (off <= tolerance + 1e-9) return [];
  return [
    {
      id: "fit.measured-thickness",
      severity: "warning",
      place: `${material} ${numberText(thickness)} mm`,
      message: `measured as ${numberText(measured)} mm, ${numberText(off)} mm off, but such a sheet may be off by ${numberText(tolerance)} mm: check the reading, or give the thickness the sheet is sold as`,
      measured: off,
      limit: tolerance,
      why: "plates are drawn for the measured sheet, and the sheet is ordered by its nominal thickness",
      source: thicknessSource,
    },
  ];
}

function measuredTwice(sheet: StructuralSheet, before: readonly StructuralSheet[]): readonly Finding[] {
  const other = before.find((one) => isSameStock(one, sheet));
  if (other?.measured === undefined || sheet.measured === undefined) return [];
  return [
    {
      id: "fit.measured-twice",
      severity: "warning",
      place: `${sheet.material} ${numberText(sheet.thickness)} mm`,
      message: `measured as ${numberText(other.measured)} mm for some plates and as ${numberText(sheet.measured)} mm for others, but all are laid on the same sheets: cut them from separate orders, or give one value for all`,
      measured: Math.abs(other.measured - sheet.measured),
      limit: 0,
      why: "slots are cut for the sheet they take, within a few tenths",
      source: "geometry",
    },
  ];
}

function outsideOffTable({ duct, pipe }: FittedDuct): readonly Finding[] {
  const { standard, size, series, outside } = duct.pipe;
  if (standard === undefined || size === undefined || outside === undefined) return [];
  const row = tablePipe({ standard, size, ...(series === undefined ? {} : { series }) });
  const [least, most] = [row.outsideMin - row.ovality / 2, row.outsideMax + row.ovality / 2];
  if (outside >= least - 1e-9 && outside <= most + 1e-9) return [];
  return [
    {
      id: "fit.measured-pipe",
      severity: "warning",
      place: `${duct.id}.pipe`,
      message: `measured as ${numberText(outside)} mm across, but ${pipe.designation}, which is what will be ordered, has ${numberText(least)} to ${numberText(most)} mm anywhere on it: check the reading, name the size at hand, or leave standard and size out`,
      measured: outside,
      limit: outside < least ? least : most,
      why: "plates are drawn for the measured pipe, and the pipe is ordered by its name",
      source: row.source,
    },
  ];
}

/** Every pipe of the tables that is sold as this size. */
function namedPipes(size: string): readonly (PipeRow & { readonly standard: string })[] {
  return pipeTables.flatMap(({ standard, rows }) =>
    rows.filter((row) => row.size === size).map((row) => ({ ...row, standard })),
  );
}

function wallOffTable({ duct, pipe }: FittedDuct): readonly Finding[] {
  const { standard, size, series, wall } = duct.pipe;
  if (standard === undefined || size === undefined || wall === undefined) return [];
  const row = tablePipe({ standard, size, ...(series === undefined ? {} : { series }) });
  if (wall >= row.wallMin - 1e-9 && wall <= row.wallMax + 1e-9) return [];
  const fitting = namedPipes(size).filter(
    (other) =>
      wall >= other.wallMin &&
      wall <= other.wallMax &&
      pipeMaterial(other.standard) === pipeMaterial(standard),
  );
  const same = fitting.filter((other) => other.standard === standard);
  const named = (same.length > 0 ? same : fitting).map((other) =>
    [other.standard, other.series].filter((each) => each !== "").join(" "),
  );
  const cure =
    named.length === 0
      ? "check the reading, or leave standard and size out"
      : `it could be that of ${named.join(" or ")}: give ${same.length > 0 ? "pipe.series" : "pipe.standard and pipe.series"}`;
  return [
    {
      id: "fit.measured-wall",
      severity: "warning",
      place: `${duct.id}.pipe`,
      message: `its wall was measured as ${numberText(wall)} mm, but ${pipe.designation}, which is what will be ordered, has ${numberText(row.wallMin)} to ${numberText(row.wallMax)} mm; ${cure}`,
      measured: wall,
      limit: wall < row.wallMin ? row.wallMin : row.wallMax,
      why: "plates are drawn for the measured pipe, and the pipe is ordered by its name",
      source: row.source,
    },
  ];
}

/** A tube of no standard whose only reading stands for every one of them. */
function takenAsExact({ duct }: FittedDuct): readonly Finding[] {
  const { standard, ovality, outsideTolerance, wallTolerance } = duct.pipe;
  if (standard !== undefined) return [];
  const missing = Object.entries({ outsideTolerance, wallTolerance, ovality }).flatMap(([name, value]) =>
    value === undefined ? [`pipe.${name}`] : [],
  );
  if (missing.length < 3) return [];
  return [
    {
      id: "fit.pipe-exact",
      severity: "warning",
      place: `${duct.id}.pipe`,
      message: `is taken as round and exactly as given: measure several pieces across and in the wall, and give ${missing.join(", ")}; 0 says that it is as exact as that`,
      why: "a carrier cut for one tube jams in the next: tubes of plastic vary by some percent in the wall and by about one across",
      source: "tolerances of makers of acrylic tube, from memory",
    },
  ];
}
