import type { FrameParameters } from "@keelcut/geometry";
import { tealDuct, tealParameters } from "./teal.js";

/** A frame with every template in use: two carriers in one duct, mixed pipes, a sway duct, floats, pods and the rest. */
export function richParameters(size = "75", change: Partial<FrameParameters> = {}): FrameParameters {
  const teal = tealParameters(size);
  const long = { ...tealDuct("x", "surge", size, { x: 0, y: 0 }).carrier, stations: [-60, 60] };
  return {
    ...teal,
    name: "Rich",
    sheets: { ...teal.sheets, float: { material: "XPS", thickness: 40, grain: false } },
    ducts: [
      tealDuct("port", "surge", size, { x: -190, y: 110 }, { length: 260, carrier: long }),
      tealDuct("starboard", "surge", size, { x: -190, y: -110 }, { length: 260, carrier: long }),
      tealDuct("heave", "heave", "90", { x: 60, y: 0 }),
      tealDuct("sway", "sway", size, { x: 200, y: 0 }, { length: 240 }),
    ],
    deck: { ...teal.deck, length: 720, tabsPerSide: 4 },
    bulkheads: [
      { id: "aft", x: -270 },
      { id: "bow", x: 300, height: 60 },
    ],
    skids: { width: 60 },
    handles: [{ id: "bow", x: 300, z: 150, width: 70 }],
    floats: [
      {
        id: "main",
        from: { x: -240, y: -150 },
        to: { x: -140, y: 150 },
        bottom: 60,
        layers: 2,
        rods: [
          { x: -215, y: 0 },
          { x: -165, y: 0 },
        ],
      },
    ],
    pods: [
      {
        id: "battery",
        at: { x: -20, y: 100 },
        pattern: { kind: "rectangle", width: 60, height: 40 },
        rotation: 90,
        screw: "M4",
        foot: 3,
      },
    ],
    ballast: [
      { id: "bow", at: { x: 330, y: 60 }, count: 2, pitch: 20, slotLength: 40, along: "y", screw: "M5" },
    ],
    straps: [{ id: "bottle", at: { x: 100, y: -110 }, diameter: 50, along: "x", count: 2, spacing: 60 }],
    ties: { width: 7.6, places: 4 },
    ...change,
  };
}
