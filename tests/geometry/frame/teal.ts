import type { DuctParameters, FrameParameters } from "@keelcut/geometry";

/** The example sled as parameters, with the pipe size open. */
export function tealParameters(size = "75", change: Partial<FrameParameters> = {}): FrameParameters {
  return {
    name: "Teal",
    revision: "A",
    sheets: {
      structure: { material: "PE-HD", thickness: 10, grain: false },
      carrier: { material: "PVC-U", thickness: 5, grain: false },
    },
    motors: {
      m2216: {
        pattern: { kind: "cross", diameters: [16, 19] },
        screw: "M3",
        body: { diameter: 28, length: 30 },
        threadDepth: 4,
        shaftHole: 8,
      },
    },
    ducts: [
      tealDuct("port", "surge", size, { x: -75, y: 110 }),
      tealDuct("starboard", "surge", size, { x: -75, y: -110 }),
      tealDuct("heave", "heave", size, { x: 75, y: 0 }),
    ],
    rods: { thread: "M6", gapAllowance: 0.3 },
    deck: { length: 360, cornerRadius: 8, tabLength: 40, tabsPerSide: 3, ductGap: 6 },
    cheek: { below: 70, footLength: 70, cornerRadius: 15, handle: true },
    ties: { width: 3.6, places: 4 },
    cutting: { method: "router", kerf: 3.175, clearance: 5.175, edgeMargin: 15, compensation: "shop" },
    ...change,
  };
}

export function tealDuct(
  id: string,
  axis: DuctParameters["axis"],
  size: string,
  at: DuctParameters["at"],
  change: Partial<DuctParameters> = {},
): DuctParameters {
  return {
    id,
    axis,
    at,
    pipe: { standard: "EN 1329-1", size },
    length: 120,
    motor: "m2216",
    propeller: { diameter: 60, height: 12 },
    carrier: {
      fitGap: 0.3,
      spokes: 4,
      rimWidth: 4.5,
      spacerScrew: "M4",
      stations: [0],
    },
    ...change,
  };
}
