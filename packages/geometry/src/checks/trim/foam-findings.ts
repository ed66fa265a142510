import { regionArea } from "../../contour/measure.js";
import type { Frame } from "../../frame/frame.js";
import type { FloatParameters, WaterParameters } from "../../frame/parameters.js";
import { measuredThickness } from "../../plates/measured-thickness.js";
import type { SheetMaterial } from "../../plates/plate.js";
import { foamGrade, isFoam, sheetDensity } from "../../plates/sheet-facts.js";
import { clearanceHole, foam, largeWasher } from "../../standards/index.js";
import type { Finding } from "../finding.js";
import { numberText } from "../number-text.js";
import { GRAVITY } from "./gravity.js";
import { shareLeft } from "./plate-bodies.js";

/** Whether foam is crushed by the water, or where washers hold it down. */
export function foamFindings(frame: Frame, water: WaterParameters): readonly Finding[] {
  const sheets = new Map(frame.plates.map(({ sheet }) => [`${sheet.material} ${sheet.foam}`, sheet]));
  const { float } = frame.parameters.sheets;
  const floats = frame.parameters.floats ?? [];
  return [
    ...[...sheets.values()].flatMap((sheet) => foamDepth(sheet, water)),
    ...(float === undefined || floats.length === 0 ? [] : unratedFoam(float, water)),
    ...(frame.parameters.floats ?? []).flatMap((float) => foamUnderWashers(float, frame, water)),
  ];
}

/** Pressure of the water above, kPa. */
export function pressureAt({ density, depth }: WaterParameters): number {
  return (density * GRAVITY * depth) / 1000;
}

function foamDepth(sheet: SheetMaterial, water: WaterParameters): readonly Finding[] {
  const { material } = sheet;
  const name = foamGrade(sheet);
  if (name === undefined) return [];
  const { strength, usableShare, source } = foam(name);
  const pressure = pressureAt(water);
  const usable = usableShare * strength;
  if (pressure <= usable) return [];
  const depth = (usable * 1000) / (water.density * GRAVITY);
  return [
    {
      id: "trim.foam-depth",
      severity: pressure > strength ? "error" : "warning",
      place: `plates of ${material}`,
      message: `at ${numberText(water.depth)} m the water presses with ${numberText(pressure)} kPa; ${name} holds ${numberText(strength)} kPa in a short test and ${numberText(usable)} for long: keep above ${numberText(depth)} m, or use a stronger foam and name it as sheets.float.foam`,
      measured: pressure,
      limit: usable,
      unit: "kPa",
      why: "foam that is crushed lifts no more",
      source: `${source}; usable share: own choice`,
    },
  ];
}

/** Whether a float stands the depth cannot be told of a material without a known strength. */
function unratedFoam(sheet: SheetMaterial, water: WaterParameters): readonly Finding[] {
  const pressure = pressureAt(water);
  if (!isFoam(sheet) || foamGrade(sheet) !== undefined || pressure === 0) return [];
  return [
    {
      id: "trim.foam-unrated",
      severity: "warning",
      place: "sheets.float",
      message: `of ${sheet.material} no strength under pressure is known, so whether it stands the ${numberText(pressure)} kPa at ${numberText(water.depth)} m is not checked: name its grade as sheets.float.foam (keelcut catalog foams), or ask its maker`,
      measured: pressure,
      unit: "kPa",
      why: "foam that is crushed lifts no more",
      source: "data sheets of foams",
    },
  ];
}

/** The lift of a float presses its top layer against the large washers of its rods, for as long as it is under water. */
function foamUnderWashers(float: FloatParameters, frame: Frame, water: WaterParameters): readonly Finding[] {
  const { parameters, plates } = frame;
  const sheet = parameters.sheets.float;
  const name = sheet && foamGrade(sheet);
  if (sheet === undefined || name === undefined || float.rods.length === 0) return [];
  const own = plates.filter(({ template }) => template === `float-${float.id}`);
  const volume = own.reduce(
    (sum, plate) => sum + plate.count * regionArea(plate.region) * measuredThickness(plate.sheet),
    0,
  );
  const afloat = water.density * shareLeft(sheet, pressureAt(water));
  // mm3 and kg/m3 make 1e-9 kg.
  const lift = volume * (afloat - sheetDensity(sheet).density) * 1e-9 * GRAVITY;
  const { outside } = largeWasher(parameters.rods.thread);
  const area = (Math.PI / 4) * (outside ** 2 - clearanceHole(parameters.rods.thread, "coarse") ** 2);
  const pressure = (1000 * lift) / (float.rods.length * area);
  const { strength, usableShare, source } = foam(name);
  const usable = usableShare * strength;
  if (pressure <= usable) return [];
  return [
    {
      id: "trim.foam-under-washers",
      severity: pressure > strength ? "error" : "warning",
      place: `floats.${float.id}`,
      message: `the float lifts with ${numberText(lift)} N against the ${float.rods.length === 1 ? "washer of its one rod" : `washers of its ${float.rods.length} rods`}: ${numberText(pressure)} kPa, where ${name} holds ${numberText(strength)} in a short test and ${numberText(usable)} for long; give it ${Math.ceil((float.rods.length * pressure) / usable)} rods or more, or lay a plate under the washers`,
      measured: pressure,
      limit: usable,
      unit: "kPa",
      why: "a washer that is pulled through lets the float go",
      source: `${source}; usable share: own choice; ISO 7093-1`,
    },
  ];
}
