import { deriveFrame, type Finding, type FrameParameters, regionArea } from "@keelcut/geometry";
import { describe, expect, it } from "vitest";
import { numberText } from "../../../packages/geometry/src/checks/number-text.js";
import { type Body, solid } from "../../../packages/geometry/src/checks/trim/body.js";
import { shareLeft } from "../../../packages/geometry/src/checks/trim/plate-bodies.js";
import { knownBodies, trimOf } from "../../../packages/geometry/src/checks/trim.js";
import { fitMachine } from "../../../packages/geometry/src/fit/machine.js";
import { ownPlate } from "../frame/own-plate-sample.js";
import { richParameters } from "../frame/rich.js";
import { tealParameters } from "../frame/teal.js";
import { found, trimFindings } from "./frame-findings.js";

const teal = tealParameters();
const [motor] = Object.values(teal.motors);
if (motor === undefined) throw new Error("teal has no motor");
const withMotors = (mass: number): FrameParameters["motors"] => ({ m2216: { ...motor, mass } });

describe("trim of bodies", () => {
  // A litre of foam of 30 g at z 100 and a kilogram of steel below: worked by hand.
  it("adds masses and volumes with their centres", () => {
    const bodies: readonly Body[] = [
      solid("foam", 1e6, 30, [0, 0, 100], "x"),
      solid("steel", 1e6 / 7.9, 7900, [10, 0, -20], "x"),
    ];
    const { mass, volume, gravity, buoyancy } = trimOf(bodies);
    expect(mass).toBeCloseTo(1030, 9);
    expect(volume).toBeCloseTo(1e6 + 1e6 / 7.9, 6);
    expect(gravity[0]).toBeCloseTo((1000 * 10) / 1030, 9);
    expect(gravity[2]).toBeCloseTo((30 * 100 - 1000 * 20) / 1030, 9);
    expect(buoyancy[2]).toBeCloseTo((100 - 20 / 7.9) / (1 + 1 / 7.9), 9);
  });

  // Data sheet of PE foam of 33 kg/m3: 25 % strain at 40 kPa. XPS of E 10 MPa: 1 % at 100 kPa. Solid plastic keeps its volume.
  it("compresses foam with depth", () => {
    expect(shareLeft({ material: "PE foam", thickness: 40 }, 40)).toBeCloseTo(0.75, 9);
    expect(shareLeft({ material: "PE foam", thickness: 40 }, 0)).toBe(1);
    expect(shareLeft({ material: "PE foam", thickness: 40 }, 500)).toBeCloseTo(0.4, 9);
    expect(shareLeft({ material: "XPS", thickness: 40 }, 100)).toBeCloseTo(0.99, 9);
    expect(shareLeft({ material: "PE-HD", thickness: 40 }, 5000)).toBe(1);
  });
});

describe("trim of a frame", () => {
  it("counts every plate at every seat", () => {
    const frame = deriveFrame(teal);
    const { bodies } = knownBodies(frame, fitMachine(teal, []));
    const plates = bodies.filter(({ group }) => group === "plates of PE-HD");
    const expected = frame.plates
      .filter(({ sheet }) => sheet.material === "PE-HD")
      .reduce((sum, plate) => sum + plate.count * regionArea(plate.region) * 10 * 955e-6, 0);
    expect(plates.reduce((sum, { mass }) => sum + mass, 0)).toBeCloseTo(expected, 6);
    // Port and starboard are alike, so the centre of the plates lies in the middle plane.
    const { gravity } = trimOf(plates);
    expect(gravity[1]).toBeCloseTo(0, 6);
  });

  it("adds up in the finding, and names what is unknown", () => {
    const balance = found(trimFindings(teal), "trim.balance");
    const sum = balance.contributions?.reduce((total, { nominal }) => total + nominal, 0) ?? 0;
    expect(balance.measured).toBeCloseTo(sum, 6);
    expect(balance.severity).toBe("note");
    expect(balance.message).toContain("3 x motor m2216 (motors.m2216.mass)");
  });

  it("weighs what the lists of hardware and lengths weigh", () => {
    const parameters = richParameters("75", { motors: withMotors(60) });
    const frame = deriveFrame(parameters);
    const listed = [...frame.hardware, ...frame.lengths].reduce(
      (sum, { count, mass }) => sum + count * (mass ?? 0),
      0,
    );
    const { bodies } = knownBodies(frame, fitMachine(parameters, []));
    expect(listed).toBeCloseTo(trimOf(bodies.filter(({ group }) => !group.startsWith("plates"))).mass, 6);
  });

  it("says that a frame sinks, and warns when the mass of every part is known", () => {
    const heavy = found(trimFindings({ ...teal, motors: withMotors(400) }), "trim.balance");
    expect(heavy.measured).toBeLessThan(0);
    expect(heavy.severity).toBe("warning");
    expect(heavy.message).toContain("sinks");
    const unknown = found(
      trimFindings({
        ...teal,
        motors: withMotors(400),
        ballast: [
          { id: "a", at: { x: 0, y: 0 }, count: 1, pitch: 20, slotLength: 40, along: "x", screw: "M5" },
        ],
      }),
      "trim.balance",
    );
    expect(unknown.severity).toBe("note");
    expect(unknown.message).toContain("As far as it is known: It sinks");
    expect(unknown.message).toContain("a (ballast.a.mass)");
  });

  it("names hardware of own plates that no table knows, and copies of plates without a place", () => {
    const frame = deriveFrame({
      ...teal,
      plates: [
        ownPlate("lamp", {
          hardware: [{ item: "lamp", kind: "other", count: 2 }],
          seats: [{ at: { x: 0, y: 0, z: 60 }, lies: "flat", turn: 0, mirrored: false }],
          loose: 3,
        }),
      ],
    });
    const { unknown, placeless } = knownBodies(frame, fitMachine(frame.parameters, []));
    expect(unknown.filter((name) => name.includes("lamp"))).toEqual(["8 x lamp"]);
    expect(placeless).toEqual(["3 x plate own-lamp, which has no place in the vehicle"]);
  });

  it("says how far a frame leans, and which way the weight must go", () => {
    // Fossen: the righting moment about the centre of gravity; it rests with the centre of buoyancy straight above.
    const pod = (x: number) => ({
      id: "battery",
      at: { x, y: 0 },
      pattern: { kind: "rectangle", width: 40, height: 40 } as const,
      rotation: 0,
      screw: "M4",
      foot: 3,
      body: { mass: 2000, volume: 100, middle: -20 },
    });
    const parameters = { ...teal, motors: withMotors(40), pods: [pod(120)] };
    const frame = deriveFrame(parameters);
    const { gravity, buoyancy } = trimOf(knownBodies(frame, fitMachine(parameters, [])).bodies);
    const expected = (Math.atan2(gravity[0] - buoyancy[0], buoyancy[2] - gravity[2]) * 180) / Math.PI;
    expect(expected).toBeGreaterThan(5);
    const finding = found(trimFindings(parameters), "trim.balance");
    expect(finding.severity).toBe("warning");
    expect(finding.message).toContain(`${numberText(expected)} degrees nose down: move weight back`);
    const astern = found(trimFindings({ ...parameters, pods: [pod(-150)] }), "trim.balance");
    expect(astern.message).toContain("degrees nose up: move weight forward");
  });

  it("warns of a frame whose weight is above its foam", () => {
    const float = {
      id: "low",
      from: { x: -60, y: -40 },
      to: { x: 20, y: 40 },
      bottom: 0,
      layers: 1,
      rods: [{ x: -20, y: 0 }],
    };
    const finding = found(
      trimFindings({
        ...teal,
        motors: withMotors(40),
        sheets: { ...teal.sheets, float: { material: "XPS", thickness: 40, grain: false } },
        floats: [float],
        pods: [
          {
            id: "mast",
            at: { x: 120, y: 0 },
            pattern: { kind: "rectangle", width: 40, height: 40 },
            rotation: 0,
            screw: "M4",
            foot: 3,
            body: { mass: 300, volume: 100, middle: 400 },
          },
        ],
      }),
      "trim.balance",
    );
    expect(finding.message).toMatch(/below it/);
    expect(finding.severity).toBe("warning");
  });

  it("moves the centre of gravity with a pod by its share of the mass", () => {
    const pod = {
      id: "box",
      at: { x: 100, y: 0 },
      pattern: { kind: "rectangle", width: 40, height: 40 } as const,
      rotation: 0,
      screw: "M4",
      foot: 3,
    };
    const of = (pods: FrameParameters["pods"]): ReturnType<typeof trimOf> => {
      const parameters = { ...teal, pods: pods ?? [] };
      return trimOf(knownBodies(deriveFrame(parameters), fitMachine(parameters, [])).bodies);
    };
    const without = of([pod]);
    const heavy = of([{ ...pod, body: { mass: 1000, volume: 500, middle: 50 } }]);
    expect(heavy.mass - without.mass).toBeCloseTo(1000, 9);
    expect(heavy.volume - without.volume).toBeCloseTo(500000, 6);
    expect(heavy.gravity[0]).toBeCloseTo((without.mass * without.gravity[0] + 1000 * 100) / heavy.mass, 6);
    expect(heavy.gravity[2]).toBeCloseTo((without.mass * without.gravity[2] + 1000 * 50) / heavy.mass, 6);
  });

  // XPS IV: 173 kPa, a third for long: 57.7 kPa are 5.9 m of fresh water, 173 kPa are 17.7 m.
  it.each([
    [5, undefined],
    [8, "warning"],
    [20, "error"],
  ] as const)("at %d m the foam gets %s", (depth, severity) => {
    const rich = richParameters("75", { water: { density: 998.2, depth } });
    const finding = trimFindings(rich).find(({ id }) => id === "trim.foam-depth");
    expect(finding?.severity).toBe(severity);
  });
});

describe("the grade of a foam", () => {
  const rich = (float: { material: string; foam?: string }, depth: number): readonly Finding[] => {
    const parameters = richParameters("75", { water: { density: 998.2, depth } });
    return trimFindings({
      ...parameters,
      sheets: { ...parameters.sheets, float: { thickness: 40, ...float } },
    });
  };

  // ASTM C578 type V: 690 kPa, a third for long: 230 kPa are 23.5 m of fresh water; at least 48 kg/m3.
  it.each([
    [23, undefined],
    [24, "warning"],
    [71, "error"],
  ] as const)("decides how deep a float may go: XPS V at %d m gets %s", (depth, severity) => {
    const found = rich({ material: "XPS", foam: "XPS V" }, depth).find(({ id }) => id === "trim.foam-depth");
    expect(found?.severity).toBe(severity);
  });

  it("says what the foam weighs", () => {
    const mass = (foam: string): number => {
      const parameters = richParameters("75");
      const float = { material: "XPS", thickness: 40, foam };
      const frame = deriveFrame({ ...parameters, sheets: { ...parameters.sheets, float } });
      return frame.dimensions.find(({ name }) => /^float-.*\.mass$/.test(name))?.value ?? Number.NaN;
    };
    expect(mass("XPS V") / mass("XPS X")).toBeCloseTo(48 / 21, 9);
    // To name the grade that is taken anyway changes nothing.
    const parameters = richParameters("75");
    const plain = deriveFrame(parameters).dimensions.find(({ name }) => /^float-.*\.mass$/.test(name))?.value;
    expect(mass("XPS IV")).toBe(plain);
    expect(mass("XPS VI")).toBeGreaterThan(mass("XPS IV"));
  });

  it("is that of every plate of its stock", () => {
    const parameters = richParameters("75");
    const float = { material: "XPS", thickness: 40, foam: "XPS V" };
    const block = ownPlate("block", { sheet: { material: "XPS", thickness: 40 }, loose: 1 });
    const frame = deriveFrame({
      ...parameters,
      sheets: { ...parameters.sheets, float },
      plates: [block],
    });
    expect(frame.plates.find(({ id }) => id === "own-block")?.sheet.foam).toBe("XPS V");
  });

  it("is asked for where no strength is known", () => {
    const unrated = (float: { material: string; foam?: string }): boolean =>
      rich(float, 3).some(({ id, severity }) => id === "trim.foam-unrated" && severity === "warning");
    expect(unrated({ material: "PVC foamed" })).toBe(true);
    expect(unrated({ material: "PVC foamed", foam: "PVC foam 60" })).toBe(false);
    expect(unrated({ material: "XPS" })).toBe(false);
    // No foam: nobody asks for its grade.
    expect(unrated({ material: "PE-HD" })).toBe(false);
  });
});

describe("foam under the washers of its rods", () => {
  const big = { id: "big", from: { x: -125, y: -100 }, to: { x: 125, y: 100 }, bottom: 160, layers: 2 };
  const pressure = (rods: readonly { x: number; y: number }[], depth = 0): number | undefined => {
    const rich = richParameters("75", { floats: [{ ...big, rods }], water: { density: 998.2, depth } });
    return trimFindings(rich).find(({ id }) => id === "trim.foam-under-washers")?.measured;
  };

  // 250 x 200 x 80 mm of XPS IV, 28 kg/m3 or so, lift 38 N; a washer of 18 mm with a hole of 7 (ISO 273 coarse) has 216 mm2.
  it("bears the lift of the whole float", () => {
    expect(pressure([{ x: 0, y: 0 }])).toBeGreaterThan(0.95 * (38e3 / 216));
    expect(pressure([{ x: 0, y: 0 }])).toBeLessThan(1.05 * (38e3 / 216));
    const two = pressure([
      { x: -60, y: 0 },
      { x: 60, y: 0 },
    ]);
    expect(two).toBeCloseTo((pressure([{ x: 0, y: 0 }]) ?? 0) / 2, 0);
    // Enough rods are no finding.
    expect(pressure([-90, -45, 0, 45, 90].map((x) => ({ x, y: 0 })))).toBeUndefined();
  });
});
