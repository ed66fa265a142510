import type { OwnPlateParameters } from "@keelcut/geometry";

export const structure = { material: "PE-HD", thickness: 10, grain: false };

/** A plate with nothing on it, and what a test changes. */
export function ownPlate(id: string, change: Partial<OwnPlateParameters> = {}): OwnPlateParameters {
  return {
    id,
    name: id,
    sheet: structure,
    outline: { kind: "rectangle", width: 60, height: 40, radius: 0, at: { x: 0, y: 20 } },
    windows: [],
    holes: [],
    slots: [],
    tabs: [],
    laps: [],
    marks: [],
    hardware: [],
    mirrorable: true,
    seats: [],
    loose: 0,
    ...change,
  };
}
