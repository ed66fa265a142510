export { type CableTie, cableTie } from "./cable-ties.js";
export { type CatalogTable, catalog } from "./catalog.js";
export { type ChipLoad, chipLoad, routerFeed } from "./cutting/chip-load.js";
export { type FeatureLimit, featureLimits, type LimitKind, limitFor } from "./cutting/feature-limits.js";
export { routerCutters, usualKerf } from "./cutting/kerf.js";
export { clearanceHole, type HoleSeries } from "./fasteners/clearance-holes.js";
export { type HexNut, hexNut, lockNut, type Nut, thinNut } from "./fasteners/nuts.js";
export {
  type HexSpacer,
  hexSpacer,
  type RodStock,
  type RoundSpacer,
  rodStock,
  roundSpacer,
} from "./fasteners/rods-and-spacers.js";
export { buttonScrew, type CapScrew, capScrew, type Screw } from "./fasteners/screws.js";
export { type Thread, thread } from "./fasteners/threads.js";
export { largeWasher, plainWasher, type Washer } from "./fasteners/washers.js";
export { type MotorPattern, motorPattern, motorPatterns } from "./motor-patterns.js";
export { type OutsideGrade, outsideTolerance, wallFromRatio, wallTolerance } from "./pipes/metric-rules.js";
export { largestOutside, type Pipe, type PipeName, pipe, smallestBore } from "./pipes/pipe.js";
export { type Hazard, type Hazards, hazardsOf } from "./sheets/hazards.js";
export { isSheetMaterial, type SheetMaterialFacts, sheetMaterial } from "./sheets/sheet-materials.js";
export type { Basis, Table, TableFacts } from "./table.js";
export { type GeneralClass, generalTolerance, type ItGrade, itTolerance } from "./tolerances.js";
export { UnknownEntry } from "./unknown-entry.js";
export { usualWater, waterDensity } from "./water/density.js";
export { type Foam, foam, polyethyleneFoamVolume } from "./water/foams.js";
