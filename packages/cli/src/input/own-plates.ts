import {
  type DrawnOutline,
  type FrameParameters,
  type HardwareItem,
  type HolePattern,
  hardwareKinds,
  type Mark,
  type OwnHoles,
  type OwnOutline,
  type OwnPlateParameters,
  type OwnShape,
  type Point,
} from "@keelcut/geometry";
import type { FrameFile } from "./frame-file.js";
import type { OwnPlateFile } from "./frame-own-plates.js";
import { given } from "./given.js";

/** Own plates with every default filled in. What a drawing holds is handed in, by the plate's id. */
export function ownPlateParameters(
  file: FrameFile,
  drawn: ReadonlyMap<string, DrawnOutline>,
): NonNullable<FrameParameters["plates"]> {
  return file.plates.map((plate): OwnPlateParameters => {
    const seats = plate.seats.map(({ at: [x = 0, y = 0, z = 0], ...seat }) => ({ ...seat, at: { x, y, z } }));
    return {
      id: plate.id,
      name: plate.name ?? spoken(plate.id),
      sheet: sheetOf(plate, file),
      outline: outlineOf(plate, drawn),
      windows: plate.windows.map(shapeOf),
      holes: plate.holes.map(holesOf),
      slots: plate.slots.map(({ from, to, ...slot }) => given({ ...slot, from: point(from), to: point(to) })),
      tabs: plate.tabs.map((tab) => ({ ...tab, at: point(tab.at) })),
      laps: plate.laps.map((other) => ({ with: other })),
      marks: plate.marks.map(markOf),
      hardware: plate.hardware.map(({ item, count }) => ({ item, count, kind: kindOf(item) })),
      mirrorable: plate.mirrorable,
      seats,
      loose: looseCopies(plate),
    };
  });
}

/** Copies without a seat; never below 0, which the check of the names refuses. */
export function looseCopies({ count, seats }: OwnPlateFile): number {
  return Math.max(0, (count ?? Math.max(1, seats.length)) - seats.length);
}

function sheetOf({ sheet, grain }: OwnPlateFile, { sheets }: FrameFile): OwnPlateParameters["sheet"] {
  const { grain: usual, ...chosen } = typeof sheet === "string" ? (sheets[sheet] ?? sheets.structure) : sheet;
  return { ...given(chosen), ...given({ grain: grain ?? usual }) };
}

function outlineOf(plate: OwnPlateFile, drawn: ReadonlyMap<string, DrawnOutline>): OwnOutline {
  if (plate.outline !== undefined) return shapeOf(plate.outline);
  return drawn.get(plate.id) ?? { kind: "drawn", file: "", findings: [] };
}

function shapeOf(shape: NonNullable<OwnPlateFile["outline"]>): OwnShape {
  if ("rectangle" in shape) {
    const [width = 0, height = 0] = shape.rectangle;
    return { kind: "rectangle", width, height, radius: shape.radius, at: point(shape.at) };
  }
  if ("round" in shape) return { kind: "round", diameter: shape.round, at: point(shape.at) };
  if ("hull" in shape) {
    return {
      kind: "hull",
      circles: shape.hull.map(({ at, diameter }) => ({ at: point(at), diameter })),
    };
  }
  return {
    kind: "polygon",
    corners: shape.polygon.map(([x = 0, y = 0, radius = shape.radius]) => ({ x, y, radius })),
  };
}

function holesOf({
  at,
  diameter,
  screw,
  fit,
  rotation,
  why,
  ...file
}: OwnPlateFile["holes"][number]): OwnHoles {
  const hole: OwnHoles["hole"] =
    screw === undefined
      ? { kind: "diameter", diameter: diameter ?? 0 }
      : { kind: "screw", thread: screw, fit };
  return given({ at: point(at), hole, pattern: patternOf(file), rotation, why });
}

function patternOf({
  row,
  grid,
  ring,
  cross,
}: Pick<OwnPlateFile["holes"][number], "row" | "grid" | "ring" | "cross">): HolePattern {
  if (row !== undefined) return { kind: "row", ...row };
  if (grid !== undefined) {
    const [x = 0, y = 0] = grid.pitch;
    return { ...grid, kind: "grid", pitch: { x, y } };
  }
  if (ring !== undefined) return { kind: "ring", ...ring };
  if (cross !== undefined) {
    const [first = 0, second = 0] = cross;
    return { kind: "cross", diameters: [first, second] };
  }
  return { kind: "single" };
}

function markOf(mark: OwnPlateFile["marks"][number]): Mark {
  if ("text" in mark) return { kind: "text", ...mark, at: point(mark.at) };
  const vertices = mark.line.map(([x = 0, y = 0]) => ({ x, y, bulge: 0 }));
  return { kind: "line", path: { vertices, closed: false } };
}

/** Items are called by their kind first: `screw ISO 4762 M4x20`. */
function kindOf(item: string): HardwareItem["kind"] {
  const [first = ""] = item.split(" ");
  return hardwareKinds.find((kind) => kind === first) ?? "other";
}

/** `camera-mount` -> `Camera mount` */
function spoken(id: string): string {
  const words = id.replace(/[-_]+/g, " ");
  return words.charAt(0).toUpperCase() + words.slice(1);
}

function point([x = 0, y = 0]: readonly number[]): Point {
  return { x, y };
}
