import {
  deriveFrame,
  type Frame,
  type FrameParameters,
  type OwnPlateParameters,
  type OwnSeat,
  type Plate,
} from "@keelcut/geometry";
import { tealDuct, tealParameters } from "./teal.js";

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

export function seat(
  x: number,
  y: number,
  z: number,
  lies: OwnSeat["lies"],
  change: Partial<OwnSeat> = {},
): OwnSeat {
  return { at: { x, y, z }, lies, turn: 0, mirrored: false, ...change };
}

/** On a deck with a single duct far aft. */
export function framed(plates: readonly OwnPlateParameters[], change: Partial<FrameParameters> = {}): Frame {
  const ducts = [tealDuct("port", "surge", "75", { x: -90, y: 0 })];
  const deck = { ...tealParameters("75").deck, width: 240 };
  return deriveFrame({ ...tealParameters("75", { ducts, deck }), plates, ...change });
}

export function plateOf(frame: Frame, id: string): Plate {
  const found = frame.plates.find((plate) => plate.id === id);
  if (found === undefined) throw new Error(`no plate ${id}: ${frame.findings.map((one) => one.message)}`);
  return found;
}
