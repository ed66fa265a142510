import { type DuctParameters, deriveFrame, type FrameParameters } from "@keelcut/geometry";
import { describe, expect, it } from "vitest";
import { tealDuct, tealParameters } from "./teal.js";

function port(change: Partial<DuctParameters>, size = "75"): Partial<FrameParameters> {
  return { ducts: [tealDuct("port", "surge", size, { x: -75, y: 110 }, change)] };
}

function carrier(change: Partial<DuctParameters["carrier"]>): Partial<DuctParameters> {
  return { carrier: { ...tealDuct("x", "surge", "75", { x: 0, y: 0 }).carrier, ...change } };
}

const motor = tealParameters().motors["m2216"] as FrameParameters["motors"][string];

/** What cannot work, the finding that says so, and the numbers its message must name. */
const table: readonly [string, Partial<FrameParameters>, string, readonly string[]][] = [
  ["rods outside the bore", port(carrier({ rodPitch: 64 })), "fit.rod-inside-bore", ["64", "40", "33.55"]],
  ["spacers outside the rim", port(carrier({ rodPitch: 46 })), "fit.spacer-inside-rim", ["46", "40"]],
  [
    "rods through the motor's screws",
    port(carrier({ rodPitch: 26 })),
    "fit.rod-clear-of-motor",
    ["26", "12.34"],
  ],
  [
    "a motor as wide as the bore",
    { ...port({}), motors: { m2216: { ...motor, body: { diameter: 70, length: 30 } } } },
    "fit.motor-body",
    ["70", "67.1"],
  ],
  [
    "no water past the motor",
    { ...port({}), motors: { m2216: { ...motor, body: { diameter: 56, length: 30 } } } },
    "fit.motor-in-bore",
    ["56"],
  ],
  [
    "a motor between spacer screws that stand too close",
    {
      ...port(carrier({ rodPitch: 32 })),
      motors: { m2216: { ...motor, body: { diameter: 42, length: 30 } } },
    },
    "fit.spacer-clear-of-motor",
    ["23.25", "42", "26"],
  ],
  [
    // 17 of plates and gap, 30 of motor, 2 and 12 of propeller, M4x25 ends 8 mm behind plates of 10 and a gap of 7, 2 of air.
    "two carriers whose propeller meets the screws of the next",
    port({ ...carrier({ stations: [-32, 32] }), length: 250 }),
    "fit.carriers-apart",
    ["64", "71"],
  ],
  [
    "a motor thread too shallow",
    { ...port({}), motors: { m2216: { ...motor, threadDepth: 0.5 } } },
    "fit.motor-screw",
    ["0.5"],
  ],
  [
    "a propeller that rubs",
    port({ propeller: { diameter: 66, height: 10 } }),
    "fit.propeller-in-bore",
    ["66", "67.1", "65.1"],
  ],
  ["a propeller out of its duct", port({ length: 60 }), "fit.propeller-in-duct", ["52.5", "30"]],
  ["spacer screws longer than sold", port(carrier({ spacerScrew: "M2" })), "fit.spacer-screw", ["20"]],
  [
    "a pipe through the deck",
    port({ at: { x: -75, y: 110, z: 20 } } as Partial<DuctParameters>),
    "fit.duct-clear-of-deck",
    ["20"],
  ],
  [
    "an unknown pipe",
    { ducts: [tealDuct("port", "surge", "76", { x: 0, y: 0 })] },
    "frame.unknown-part",
    ["76"],
  ],
  ["an unknown motor", port({ motor: "m9999" }), "frame.unknown-part", ["m9999", "m2216"]],
  [
    "pipes in each other",
    {
      ducts: [tealDuct("a", "surge", "75", { x: 0, y: 10 }), tealDuct("b", "surge", "75", { x: 0, y: -10 })],
    },
    "fit.ducts-apart",
    ["56.2"],
  ],
  [
    "a heave duct in the way of a rod",
    {
      ducts: [tealDuct("a", "surge", "75", { x: 0, y: 110 }), tealDuct("up", "heave", "75", { x: 20, y: 0 })],
    },
    "fit.rod-clear-of-pipe",
    [],
  ],
  [
    "rods at the end of the cheek",
    port({ at: { x: 175, y: 110 } } as Partial<DuctParameters>),
    "fit.rod-in-cheek",
    ["5", "12", "374"],
  ],
  [
    "a carrier beyond its pipe",
    port(carrier({ stations: [-70] })),
    "fit.carrier-in-pipe",
    ["station -70", "10 mm beyond", "12 mm before", "164 mm long"],
  ],
  [
    "a rod's hole at the end of its pipe",
    port(carrier({ stations: [55] })),
    "fit.carrier-in-pipe",
    ["5 mm", "48 mm"],
  ],
  [
    "two carriers in a heave duct",
    {
      ducts: [
        ...tealParameters().ducts.slice(0, 1),
        tealDuct("up", "heave", "75", { x: 75, y: 0 }, carrier({ stations: [-30, 30] })),
      ],
    },
    "fit.heave-stations",
    ["[-30, 30]"],
  ],
  [
    "nuts between two pipes",
    {
      ducts: [
        tealDuct("a", "surge", "75", { x: -75, y: 40 }),
        tealDuct("b", "surge", "75", { x: -75, y: -40 }),
      ],
    },
    "fit.nuts-between-pipes",
    ["12.4 mm", "mm farther apart"],
  ],
  [
    "cheeks without rods",
    { ducts: tealParameters().ducts.slice(2) },
    "fit.cheeks-held",
    ["0 rods", "2 are needed"],
  ],
  [
    "a sway duct that hangs in the air",
    {
      ducts: [...tealParameters().ducts.slice(0, 2), tealDuct("side", "sway", "75", { x: 75, y: 0, z: 100 })],
    },
    "fit.duct-lies-on-deck",
    ["mm above the deck", "leave z out"],
  ],
  ["cheeks too close", { deck: { ...tealParameters().deck, width: 280 } }, "fit.cheek-room", ["280"]],
  [
    "too many tabs",
    { deck: { ...tealParameters().deck, tabsPerSide: 8 } },
    "fit.tabs-on-deck",
    ["8", "40", "360"],
  ],
];

describe("what cannot work is an error that names the numbers", () => {
  it.each(table)("%s", (_, change, id, numbers) => {
    const frame = deriveFrame(tealParameters("75", change));
    const found = frame.findings.filter((finding) => finding.id === id);
    expect(found, JSON.stringify(frame.findings, null, 1)).not.toHaveLength(0);
    // A propeller outside its duct turns, though nobody should want it to; all else cannot be built.
    expect(found[0]?.severity).toBe(id === "fit.propeller-in-duct" ? "warning" : "error");
    for (const number of numbers) expect(found[0]?.message).toContain(number);
    expect(found[0]?.why).not.toBe("");
    expect(found[0]?.source).not.toBe("");
  });
});
