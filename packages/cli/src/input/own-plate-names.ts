import { clearanceHole, sheetMaterial } from "@keelcut/geometry";
import type { FrameFile } from "./frame-file.js";
import type { OwnPlateFile } from "./frame-own-plates.js";
import type { PathStep } from "./located.js";
import { didYouMean } from "./nearest-name.js";

type Report = (path: readonly PathStep[], message: string) => void;
/** Runs a look-up; what the table does not hold becomes a problem at the path. */
type Known = (path: readonly PathStep[], ask: () => unknown) => void;

/** What the schema cannot tell of own plates: names that lead nowhere, fields that exclude or need each other. */
export function ownPlateProblems(file: FrameFile, report: Report, known: Known): void {
  for (const [index, plate] of file.plates.entries()) {
    const at = (...path: readonly PathStep[]): readonly PathStep[] => ["plates", index, ...path];
    nameProblems(plate, index, file, at, report);
    sheetProblems(plate, file, at, report, known);
    outlineProblems(plate, at, report);
    holeProblems(plate, at, report, known);
    jointProblems(plate, file, at, report);
    const { count, seats } = plate;
    if (count !== undefined && count < seats.length) {
      report(at("count"), `${count} is less than the ${seats.length} seats; leave it out, or take seats out`);
    }
  }
}

type At = (...path: readonly PathStep[]) => readonly PathStep[];

/** Ids become file names, in lower case and with hyphens only, and names that tabs go into. */
function nameProblems({ id }: OwnPlateFile, index: number, file: FrameFile, at: At, report: Report): void {
  const same = (other: string): boolean => inFileName(other) === inFileName(id);
  const twin = file.plates.findIndex((plate) => same(plate.id));
  if (twin >= 0 && twin < index && file.plates[twin]?.id !== id) {
    report(
      at("id"),
      `"${id}" and "${file.plates[twin]?.id}" differ only in case, - and _; file names must differ in more`,
    );
  }
  if (["deck", "cheek"].some(same) || file.bulkheads.some((bulkhead) => same(bulkhead.id))) {
    report(at("id"), `"${id}" is the name of another plate already; choose another`);
  }
}

function inFileName(id: string): string {
  return id.toLowerCase().replace(/[-_]+/g, "-").replace(/-$/, "");
}

function sheetProblems(plate: OwnPlateFile, file: FrameFile, at: At, report: Report, known: Known): void {
  const { sheet } = plate;
  if (typeof sheet === "string") {
    if (file.sheets[sheet] === undefined) {
      report(
        at("sheet"),
        `there is no ${sheet} under sheets; add it there, or give material and thickness here`,
      );
    }
    return;
  }
  known(at("sheet", "material"), () => sheetMaterial(sheet.material));
  known(at("sheet", "thickness"), () => {
    try {
      sheetMaterial(sheet.material);
    } catch {
      return; // told above
    }
    sheetMaterial(sheet.material).thicknessTolerance(sheet.thickness);
  });
}

function outlineProblems(plate: OwnPlateFile, at: At, report: Report): void {
  if (plate.outline !== undefined && plate.import !== undefined) {
    report(at("import"), "the plate has an outline too; give one of the two");
  }
  if (plate.outline === undefined && plate.import === undefined) {
    report(
      at(),
      "give an outline ({rectangle: [80, 50]}, {round: 60}, {polygon: [...]}, {hull: [...]}) or import a DXF or SVG file",
    );
  }
  const shapes = [
    ...(plate.outline === undefined ? [] : [{ shape: plate.outline, path: at("outline") }]),
    ...plate.windows.map((shape, index) => ({ shape, path: at("windows", index) })),
  ];
  for (const { shape, path } of shapes) {
    if (!("polygon" in shape)) continue;
    for (const [corner, [, , radius = 0]] of shape.polygon.entries()) {
      if (radius < 0)
        report([...path, "polygon", corner], `a radius of ${radius} will not do; give 0 or more`);
    }
  }
}

function holeProblems(plate: OwnPlateFile, at: At, report: Report, known: Known): void {
  for (const [index, holes] of plate.holes.entries()) {
    const { diameter, screw } = holes;
    if (screw !== undefined) known(at("holes", index, "screw"), () => clearanceHole(screw, holes.fit));
    if (screw !== undefined && diameter !== undefined) {
      report(
        at("holes", index, "diameter"),
        "the hole has a screw too, which sets its diameter; give one of the two",
      );
    }
    if (screw === undefined && diameter === undefined) {
      report(at("holes", index), "give a diameter (diameter: 6) or the screw that goes through (screw: M4)");
    }
    const patterns = (["row", "grid", "ring", "cross"] as const).filter((name) => holes[name] !== undefined);
    if (patterns.length > 1) {
      report(at("holes", index), `${patterns.join(" and ")} at once; give each an entry of its own`);
    }
  }
}

function jointProblems(plate: OwnPlateFile, file: FrameFile, at: At, report: Report): void {
  const others = file.plates.filter(({ id }) => id !== plate.id);
  const takers = ["deck", "cheek", ...[...file.bulkheads, ...others].map(({ id }) => id)];
  const tell = (path: readonly PathStep[], name: string, known: readonly string[]): void => {
    const right = didYouMean(name, known) || (known.length > 0 ? `; known: ${known.join(", ")}` : "");
    report(path, name === plate.id ? "a plate does not join itself" : `there is no plate "${name}"${right}`);
  };
  for (const [index, { into }] of plate.tabs.entries()) {
    if (!takers.includes(into)) tell(at("tabs", index, "into"), into, takers);
  }
  for (const [index, name] of plate.laps.entries()) {
    const other = others.find(({ id }) => id === name);
    if (other === undefined) {
      tell(
        at("laps", index),
        name,
        others.map(({ id }) => id),
      );
    } else if (other.seats.length === 0) {
      report(at("laps", index), `${name} has no seats; a lap joint is cut where two plates sit`);
    }
  }
  if (plate.seats.length === 0 && plate.tabs.length + plate.laps.length > 0) {
    const field = plate.tabs.length > 0 ? "tabs" : "laps";
    report(
      at(field),
      "joints need seats: say where the plate sits, for example seats: [{at: [100, 0, 0], lies: across}]",
    );
  }
}
