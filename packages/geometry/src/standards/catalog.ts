import type { BoltPattern } from "../frame/parameters.js";
import { cableTies } from "./cable-ties.js";
import { chipDiameters, chipLoads } from "./cutting/chip-load.js";
import { type FeatureLimit, featureLimits } from "./cutting/feature-limits.js";
import { laserKerfs, routerCutters, usualKerf } from "./cutting/kerf.js";
import { clearanceHoles } from "./fasteners/clearance-holes.js";
import { hexNuts, lockNuts, thinNuts } from "./fasteners/nuts.js";
import { hexSpacers, rods, roundSpacers } from "./fasteners/rods-and-spacers.js";
import { buttonScrews, capScrews } from "./fasteners/screws.js";
import { threads } from "./fasteners/threads.js";
import { largeWashers, plainWashers } from "./fasteners/washers.js";
import { motorPatterns } from "./motor-patterns.js";
import { outsideGrades } from "./pipes/metric-rules.js";
import { pipeTables } from "./pipes/pipe.js";
import type { PipeRow, PipeTable } from "./pipes/pipe-table.js";
import { hazards } from "./sheets/hazards.js";
import { sheetMaterials } from "./sheets/sheet-materials.js";
import { stockSizes } from "./sheets/stock-sizes.js";
import { type ThicknessRule, thicknessRuleInWords } from "./sheets/thickness-tolerance.js";
import type { Basis, Table, TableFacts } from "./table.js";
import { generalTable, itTable, type RangeTable } from "./tolerances.js";
import { usualWater, waterDensity } from "./water/density.js";
import { foams, softFoamCompression } from "./water/foams.js";

type Cell = string | number | null;

/** A built-in table as it is printed and searched. */
export interface CatalogTable {
  readonly id: string;
  readonly title: string;
  readonly source: string;
  readonly basis: Basis;
  readonly unit: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly Cell[])[];
  readonly note?: string;
}

/** Every built-in table, made from the same data that the look-ups read. Numbers are rounded to eight digits. */
export function catalog(): CatalogTable[] {
  return [
    ...fastenerTables.map(printed),
    ...[itTable, generalTable].map(printedRanges),
    ...pipeTables.map(printedPipes),
    printedOutsideGrades(),
    printedMaterials(),
    printedHazards(),
    ...otherTables.map(printed),
    printedSoftFoam(),
    printedUsualKerf(),
    printedChipLoads(),
    printedFeatureLimits(),
    printedWater(),
  ];
}

const fastenerTables: readonly Table<object>[] = [
  clearanceHoles,
  capScrews,
  buttonScrews,
  hexNuts,
  thinNuts,
  lockNuts,
  plainWashers,
  largeWashers,
  threads,
  rods,
  roundSpacers,
  hexSpacers,
];
const otherTables: readonly Table<object>[] = [stockSizes, cableTies, motorPatterns, foams, laserKerfs];

function printed(table: Table<object>): CatalogTable {
  const rows = Object.entries(table.rows).map(([name, row]) => {
    const values = row as Readonly<Record<string, unknown>>;
    return [name, ...table.columns.map((column) => cell(values[column]))];
  });
  return { ...factsOf(table), columns: [table.key, ...table.columns], rows };
}

function printedRanges(table: RangeTable): CatalogTable {
  return { ...factsOf(table), columns: table.columns, rows: table.rows };
}

const pipeColumns: readonly (keyof PipeRow)[] = [
  "size",
  "series",
  "nominalOutside",
  "outsideMin",
  "outsideMax",
  "nominalWall",
  "wallMin",
  "wallMax",
  "ovality",
];

function printedPipes(table: PipeTable): CatalogTable {
  const rows = table.rows.map((row) => pipeColumns.map((column) => cell(row[column])));
  return { ...factsOf(table), columns: pipeColumns, rows };
}

function printedMaterials(): CatalogTable {
  const rows = Object.entries(sheetMaterials.rows).map(
    ([name, row]) => [name, { ...row, thicknessSource: row.thickness.source }] as const,
  );
  return printed({ ...sheetMaterials, rows: Object.fromEntries(rows) });
}

function printedHazards(): CatalogTable {
  return {
    id: "hazards",
    title: "Hazards of cutting",
    source: "As named in each row",
    basis: "common practice",
    unit: "-",
    note: "An error is refused, a warning wants a question to the shop.",
    columns: ["material", "method", "severity", "message", "source"],
    rows: Object.entries(hazards).flatMap(([material, byMethod]) =>
      Object.entries(byMethod).map(([method, hazard]) => [
        material,
        method,
        hazard.severity,
        hazard.message,
        hazard.source,
      ]),
    ),
  };
}

function printedOutsideGrades(): CatalogTable {
  return {
    id: "iso-11922-1",
    title: "Tolerance of the mean outside diameter of pipe (ISO 11922-1)",
    source: "ISO 11922-1, grades A to C",
    basis: "standard",
    unit: "share of dn; least and most mm, plus only, rounded up to 0.1",
    columns: ["grade", "share", "least", "most"],
    rows: Object.entries(outsideGrades).map(([grade, { share, least, most }]) => [grade, share, least, most]),
  };
}

function printedSoftFoam(): CatalogTable {
  return {
    id: "pe-foam-compression",
    title: "Compression of closed-cell PE foam, 33 kg/m3",
    source: "Data sheet values, common practice",
    basis: "common practice",
    unit: "strain 1; stress kPa",
    columns: ["strain", "stress"],
    rows: softFoamCompression,
  };
}

function printedUsualKerf(): CatalogTable {
  return {
    id: "usual-kerf",
    title: "Kerf where nothing better is known",
    source: "Public guides of cutting shops; common practice",
    basis: "common practice",
    unit: "mm",
    note: `Router cutters commonly sold (from memory): ${routerCutters.join(", ")}.`,
    columns: ["method", "kerf"],
    rows: Object.entries(usualKerf),
  };
}

function printedFeatureLimits(): CatalogTable {
  return {
    id: "feature-limits",
    title: "Limits of what can be cut",
    source: "As named in each row",
    basis: "common practice",
    unit: "mm; hole and slot to edge in hole diameters and slot widths; slenderness 1",
    columns: ["method", "limit", "value", "why", "source", "basis"],
    rows: Object.entries(featureLimits).flatMap(([method, limits]) =>
      Object.entries(limits).map(([kind, limit]) => [
        method,
        kind,
        limitInWords(limit),
        limit.why,
        limit.source,
        limit.basis,
      ]),
    ),
  };
}

function limitInWords({ least, thicknesses, kerfs, overKerf }: FeatureLimit): string {
  const parts = [
    least === undefined ? "" : String(least),
    thicknesses === undefined ? "" : `${thicknesses} thicknesses`,
    kerfs === undefined ? "" : `${kerfs} kerfs`,
    overKerf === undefined ? "" : `kerf + ${overKerf}`,
  ].filter((part) => part !== "");
  return parts.length === 1 ? String(parts[0]) : `the larger of ${parts.join(" and ")}`;
}

function printedChipLoads(): CatalogTable {
  const rows = Object.entries(chipLoads.rows).map(([kind, loads]) => [
    kind,
    ...loads.map(([least, largest]) => `${least}..${largest}`),
  ]);
  return { ...factsOf(chipLoads), columns: [chipLoads.key, ...chipDiameters.map(String)], rows };
}

function printedWater(): CatalogTable {
  const rows = [0, 4, 5, 10, 15, 20, 25, 30].map((t) => [
    t,
    cell(waterDensity(t, 0)),
    cell(waterDensity(t, 35)),
  ]);
  return {
    id: "water",
    title: "Density of water",
    source: "EOS-80: UNESCO Technical Papers in Marine Science 44, 1983",
    basis: "computed",
    unit: "temperature C (ITS-90); density kg/m3",
    note: `Taken when nothing is said: fresh ${usualWater.fresh}, sea ${usualWater.sea}.`,
    columns: ["temperature", "fresh", "salinity 35"],
    rows,
  };
}

function factsOf({ id, title, source, basis, unit, note }: TableFacts): TableFacts {
  return { id, title, source, basis, unit, ...(note === undefined ? {} : { note }) };
}

/** A value as a person reads it in one cell. */
function cell(value: unknown): Cell {
  if (value === null || value === undefined) return null;
  if (typeof value === "number") return Number(value.toPrecision(8));
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (Array.isArray(value)) return value.join(", ");
  if (isThicknessRule(value)) return thicknessRuleInWords(value);
  if (isPattern(value)) return patternInWords(value);
  return String(value);
}

function isThicknessRule(value: unknown): value is ThicknessRule {
  return typeof value === "object" && value !== null && "rule" in value;
}

function isPattern(value: unknown): value is BoltPattern {
  return typeof value === "object" && value !== null && "kind" in value;
}

function patternInWords(pattern: BoltPattern): string {
  switch (pattern.kind) {
    case "circle":
      return `circle ${pattern.diameter}, ${pattern.holes} holes`;
    case "cross":
      return `cross: 2 holes on circle ${pattern.diameters[0]}, 2 on circle ${pattern.diameters[1]}`;
    case "rectangle":
      return `rectangle ${pattern.width} x ${pattern.height}`;
  }
}
