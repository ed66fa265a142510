import {
  bounds,
  type Contour,
  compensateRegion,
  type Placement,
  type Point,
  placeContour,
  placePoint,
  type Region,
  signedArea,
} from "@keelcut/geometry";
import { cutOffset, type ExpectedPlate, type ExpectedSheet, type ExpectedSize } from "./expectations.js";

/** One contour a file must cut. */
export interface ExpectedCut {
  readonly plate: string;
  /** Number of the copy on the sheet, from 0. */
  readonly copy: number;
  readonly part: "outline" | number;
  /** Where the nominal contour lies in the file. */
  readonly nominal: Contour;
  /** How far outside the nominal contour's curve the cut lies; negative for inside. */
  readonly offset: number;
  /** Area the cut line encloses, mm2, and the length of its true arcs. */
  readonly area: number;
  readonly cut: Contour;
  /** Middles of its bridges, on the nominal contour. */
  readonly bridges: readonly Point[];
}

/** The cuts of a sheet's file. Throws RangeError when a placement names no expected plate. */
export function sheetCuts(
  sheet: ExpectedSheet,
  plates: ReadonlyMap<string, ExpectedPlate>,
  size: ExpectedSize,
): ExpectedCut[] {
  return sheet.placements.flatMap((placement, copy) => {
    const plate = plates.get(placement.plate);
    if (plate === undefined)
      throw new RangeError(`sheet ${sheet.name} holds "${placement.plate}", which is no plate`);
    return placedCuts(plate, placement, copy, size);
  });
}

/** The cuts of a plate's own file: the plate moved so that its cut line touches both axes. */
export function plateCuts(plate: ExpectedPlate, size: ExpectedSize): ExpectedCut[] {
  const own: ExpectedSize = plate.printed === true ? { state: "nominal" } : size;
  const box = bounds(plate.region.outer);
  const half = cutOffset(own);
  const home = { x: half - box.minX, y: half - box.minY, rotation: 0, mirrored: false };
  return placedCuts(plate, home, 0, own);
}

function placedCuts(
  plate: ExpectedPlate,
  placement: Placement,
  copy: number,
  size: ExpectedSize,
): ExpectedCut[] {
  const cut = compensated(plate.region, size);
  const half = cutOffset(size);
  const one = (part: "outline" | number, nominal: Contour, line: Contour | undefined): ExpectedCut => {
    const placed = placeContour(line ?? nominal, placement);
    return {
      plate: plate.id,
      copy,
      part,
      nominal: placeContour(nominal, placement),
      offset: part === "outline" ? half : -half,
      area: Math.abs(signedArea(placed)),
      cut: placed,
      bridges: (plate.bridges ?? [])
        .filter((bridge) => bridge.part === part)
        .map((bridge) => placePoint(bridge.at, placement)),
    };
  };
  return [
    one("outline", plate.region.outer, cut.outer),
    ...plate.region.openings.map((opening, index) => one(index, opening, cut.openings[index])),
  ];
}

function compensated(region: Region, size: ExpectedSize): Region {
  if (size.state === "nominal") return region;
  const result = compensateRegion(region, size.kerf);
  if (!result.ok) throw new RangeError(`a plate cannot be compensated for kerf ${size.kerf} mm`);
  return result.region;
}
