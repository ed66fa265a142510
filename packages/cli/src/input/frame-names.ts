import {
  cableTie,
  capScrew,
  endNut,
  foam,
  hexNut,
  roundSpacer,
  sheetMaterial,
  pipe as tablePipe,
  UnknownEntry,
} from "@keelcut/geometry";
import type { FrameFile } from "./frame-file.js";
import type { Problem } from "./input-error.js";
import { fieldText, type Located, nodeAt, type PathStep, placeText } from "./located.js";
import { didYouMean } from "./nearest-name.js";
import { ownPlateProblems } from "./own-plate-names.js";

type Duct = FrameFile["ducts"][number];

/** Names in a frame file that lead nowhere: motors that are not described, entries the built-in tables do not hold. */
export function unknownNames(file: FrameFile, root: Located): Problem[] {
  const problems: Problem[] = [];
  const report = (path: readonly PathStep[], message: string): void => {
    problems.push({
      where: placeText(nodeAt(root, path).node.place),
      field: fieldText(root, path),
      message,
    });
  };
  const known = (path: readonly PathStep[], ask: () => unknown): void => {
    try {
      ask();
    } catch (error) {
      if (error instanceof UnknownEntry) report(path, entryMessage(error));
      else if (error instanceof RangeError) report(path, error.message);
      else throw error;
    }
  };

  for (const use of ["structure", "carrier", "float"] as const) {
    const sheet = file.sheets[use];
    if (sheet === undefined) continue;
    const { material, thickness } = sheet;
    known(["sheets", use, "material"], () => sheetMaterial(material));
    known(["sheets", use, "thickness"], () => toleranceOf(material, thickness));
  }
  const grade = file.sheets.float?.foam;
  if (grade !== undefined)
    known(["sheets", "float", "foam"], () => gradeOf(grade, file.sheets.float?.material));
  for (const [index, pod] of file.pods.entries()) {
    known(["pods", index, "screw"], () => [capScrew(pod.screw), endNut(pod.screw, file.nuts)]);
  }
  for (const [index, row] of file.ballast.entries()) {
    known(["ballast", index, "screw"], () => hexNut(row.screw));
  }
  if (file.floats.length > 0 && file.sheets.float === undefined) {
    report(["floats"], "floats need their foam: add float with material and thickness under sheets");
  }
  ownPlateProblems(file, report, known);
  known(["rods", "thread"], () => [hexNut(file.rods.thread), endNut(file.rods.thread, file.nuts)]);
  known(["ties", "width"], () => cableTie(file.ties.width));
  for (const [name, motor] of Object.entries(file.motors)) {
    known(["motors", name, "screw"], () => capScrew(motor.screw));
  }
  for (const [index, duct] of file.ducts.entries()) {
    if (!Object.hasOwn(file.motors, duct.motor)) {
      report(["ducts", index, "motor"], motorMessage(duct.motor, Object.keys(file.motors)));
    }
    const { spacerScrew } = duct.carrier;
    known(["ducts", index, "carrier", "spacerScrew"], () => [
      roundSpacer(spacerScrew),
      endNut(spacerScrew, file.nuts),
    ]);
    pipeProblems(duct, ["ducts", index, "pipe"], report, known);
  }
  return problems;
}

/** A foam of the table, of the family that the sheet's material says. */
function gradeOf(grade: string, material = ""): void {
  foam(grade);
  const family = material.replace(/ed$/, "");
  if (!grade.startsWith(family)) throw new RangeError(`"${grade}" is no grade of ${material}`);
}

/** Asks for the tolerance of a thickness, which fails where the standard ends; unknown materials are told elsewhere. */
function toleranceOf(material: string, thickness: number): void {
  let facts: ReturnType<typeof sheetMaterial>;
  try {
    facts = sheetMaterial(material);
  } catch {
    return;
  }
  facts.thicknessTolerance(thickness);
}

function pipeProblems(
  { pipe }: Duct,
  path: readonly PathStep[],
  report: (path: readonly PathStep[], message: string) => void,
  known: (path: readonly PathStep[], ask: () => unknown) => void,
): void {
  const { standard, series, outside, wall } = pipe;
  const size = pipe.size === undefined ? undefined : String(pipe.size);
  if (standard === undefined) {
    if (size !== undefined || series !== undefined) {
      report(
        [...path, size === undefined ? "series" : "size"],
        "needs the standard it belongs to, for example standard: EN 1329-1",
      );
    } else if (outside === undefined || wall === undefined) {
      report(path, "give standard and size, or outside and wall");
    }
  } else if (size === undefined) {
    report([...path, "standard"], "needs a size beside it, for example size: 75");
  } else {
    const asked = series === undefined ? { standard, size } : { standard, size, series };
    known([...path, unknownPart(asked)], () => tablePipe(asked));
  }
  for (const [name, of] of [
    ["outsideTolerance", "outside"],
    ["wallTolerance", "wall"],
  ] as const) {
    const [tolerance, value] = [pipe[name], pipe[of]];
    if (tolerance === undefined) continue;
    if (value === undefined) report([...path, name], `needs ${of}, which it is a tolerance of`);
    else if (tolerance >= value) report([...path, name], `${tolerance} must be less than ${of}, ${value}`);
  }
  if (outside !== undefined && wall !== undefined && 2 * wall >= outside) {
    report([...path, "wall"], `a wall of ${wall} leaves no bore in an outside diameter of ${outside}`);
  }
}

/** Which of the three names the tables do not hold; the size when all is well. */
function unknownPart(asked: { standard: string; size: string; series?: string }): string {
  const holds = (name: { standard: string; size: string; series?: string }): string | undefined => {
    try {
      tablePipe(name);
      return undefined;
    } catch (error) {
      return error instanceof UnknownEntry ? error.asked : undefined;
    }
  };
  const unknown = holds(asked);
  if (unknown === asked.standard) return "standard";
  return unknown !== undefined && unknown === asked.series ? "series" : "size";
}

function entryMessage(error: UnknownEntry): string {
  const nearest = error.nearest.length === 0 ? "" : `; nearest: ${error.nearest.join(", ")}`;
  return `"${error.asked}" is not in the table "${error.table}"${nearest}`;
}

function motorMessage(name: string, known: readonly string[]): string {
  if (known.length === 0) return `no motor "${name}" is described; add it under motors`;
  return `no motor "${name}" is described under motors${didYouMean(name, known) || `; known: ${known.join(", ")}`}`;
}
