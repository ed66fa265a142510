import { type DuctParameters, deriveFrame, type Finding, type FrameParameters } from "@keelcut/geometry";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { carrierInBore } from "../../../packages/geometry/src/checks/tolerance-stack/carrier-in-bore.js";
import { pipeSeries } from "../../../packages/geometry/src/checks/tolerance-stack/pipe-series.js";
import { propellerInBore } from "../../../packages/geometry/src/checks/tolerance-stack/propeller-in-bore.js";
import { rodChord } from "../../../packages/geometry/src/checks/tolerance-stack/rod-chord.js";
import { rodInCarrier } from "../../../packages/geometry/src/checks/tolerance-stack/rod-in-carrier.js";
import { rodThroughPipe } from "../../../packages/geometry/src/checks/tolerance-stack/rod-through-pipe.js";
import { screwLength } from "../../../packages/geometry/src/checks/tolerance-stack/screw-length.js";
import {
  about,
  addUp,
  between,
  jointFinding,
} from "../../../packages/geometry/src/checks/tolerance-stack/stack.js";
import { tabInSlot } from "../../../packages/geometry/src/checks/tolerance-stack/tab-in-slot.js";
import { tieAroundPipe } from "../../../packages/geometry/src/checks/tolerance-stack/tie-around-pipe.js";
import { toolAccess } from "../../../packages/geometry/src/checks/tolerance-stack/tool-access.js";
import { checkToleranceStacks } from "../../../packages/geometry/src/checks/tolerance-stack.js";
import { fitMachine, type Machine } from "../../../packages/geometry/src/fit/machine.js";
import { richParameters } from "../frame/rich.js";
import { tealDuct, tealParameters } from "../frame/teal.js";

function machineOf(change: Partial<FrameParameters> = {}, size = "75"): Machine {
  return fitMachine(tealParameters(size, change), []);
}

function found(findings: readonly Finding[], id: string): Finding {
  const [finding] = findings.filter((one) => one.id === id);
  if (finding === undefined) throw new Error(`no ${id} among ${findings.map((one) => one.id).join(", ")}`);
  return finding;
}

describe("a chain of sizes", () => {
  // 20 +0.2/-0.1 less 12 +-0.1 less 7.5 +0/-0.3: nominal 0.5, worst 0.5 - 0.1 - 0.1 - 0 = 0.3, most 0.5 + 0.2 + 0.1 + 0.3 = 1.1;
  // middle 0.7, half widths 0.15, 0.1, 0.15: 0.7 - sqrt(0.055) = 0.4655.
  it("adds up as by hand", () => {
    const stack = addUp([
      { name: "slot", nominal: 20, plus: 0.2, minus: 0.1, source: "" },
      about("bar", 12, 0.1, -1, ""),
      { name: "washer", nominal: -7.5, plus: 0.3, minus: 0, source: "" },
    ]);
    expect(stack.nominal).toBeCloseTo(0.5, 12);
    expect(stack.worst).toBeCloseTo(0.3, 12);
    expect(stack.most).toBeCloseTo(1.1, 12);
    expect(stack.statistical).toBeCloseTo(0.7 - Math.sqrt(0.055), 12);
  });

  it("turns limits into a middle and a deviation, both ways round", () => {
    expect(between("wall", 3, 3.5, -2, "s")).toEqual({
      name: "wall",
      nominal: -6.5,
      plus: 0.5,
      minus: 0.5,
      source: "s",
    });
  });

  it("contains every assembly and is reached by the worst one", () => {
    const size = fc.record({
      nominal: fc.double({ min: -50, max: 50, noNaN: true }),
      plus: fc.double({ min: 0, max: 2, noNaN: true }),
      minus: fc.double({ min: 0, max: 2, noNaN: true }),
    });
    fc.assert(
      fc.property(
        fc.array(size, { minLength: 1, maxLength: 8 }),
        fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 8, maxLength: 8 }),
        (sizes, shares) => {
          const stack = addUp(sizes.map((one, index) => ({ ...one, name: String(index), source: "" })));
          const built = sizes.reduce(
            (sum, { nominal, plus, minus }, index) =>
              sum + nominal - minus + (shares[index] ?? 0) * (plus + minus),
            0,
          );
          expect(built).toBeGreaterThanOrEqual(stack.worst - 1e-9);
          expect(built).toBeLessThanOrEqual(stack.most + 1e-9);
          expect(stack.statistical).toBeGreaterThanOrEqual(stack.worst - 1e-9);
          const low = sizes.reduce((sum, { nominal, minus }) => sum + nominal - minus, 0);
          expect(low).toBeCloseTo(stack.worst, 9);
        },
      ),
      { seed: 11, numRuns: 300 },
    );
  });

  // Root-sum-square of limits is three standard deviations when each limit is: 99.73 % of assemblies lie within on two
  // sides, 99.87 % above the lower end (tables of the normal distribution).
  it("holds for 99.87 % of assemblies whose limits are three standard deviations", () => {
    const sizes = [0.3, 0.2, 0.25, 0.1, 0.4].map((deviation) => about("size", 10, deviation, 1, ""));
    const { statistical } = addUp(sizes);
    let state = 12345;
    const random = (): number => {
      state = (1103515245 * state + 12345) % 2147483648;
      return (state + 0.5) / 2147483648;
    };
    const normal = (): number => Math.sqrt(-2 * Math.log(random())) * Math.cos(2 * Math.PI * random());
    const runs = 40000;
    let below = 0;
    for (let run = 0; run < runs; run += 1) {
      const built = sizes.reduce((sum, { nominal, plus }) => sum + nominal + (plus / 3) * normal(), 0);
      if (built < statistical) below += 1;
    }
    expect(below / runs).toBeGreaterThan(0.0013 - 0.0006);
    expect(below / runs).toBeLessThan(0.0013 + 0.0006);
  });

  it.each([
    [{ name: "x", nominal: Number.NaN, plus: 0, minus: 0, source: "" }],
    [{ name: "x", nominal: 1, plus: -0.1, minus: 0, source: "" }],
    [{ name: "x", nominal: 1, plus: 0, minus: Number.POSITIVE_INFINITY, source: "" }],
  ])("refuses %j", (size) => {
    expect(() => addUp([size])).toThrow(RangeError);
  });

  const joint = (nominal: number, gravest: "error" | "warning"): Finding =>
    jointFinding({
      id: "fit.x",
      place: "x",
      what: "it has",
      cure: "change it",
      why: "so",
      contributions: [about("a", nominal, 0.1, 1, "one"), about("b", 0, 0.1, 1, "two")],
      gravest,
    });

  // Worst is 0.2 below nominal, root-sum-square sqrt(0.02) = 0.141 below.
  it.each([
    [0.2, "error", "note"],
    [0.17, "error", "warning"],
    [0.1, "error", "error"],
    [0.1, "warning", "warning"],
  ] as const)("%d nominal with %s at worst is a %s", (nominal, gravest, severity) => {
    const finding = joint(nominal, gravest);
    expect(finding.severity).toBe(severity);
    expect(finding.message.includes("change it")).toBe(severity !== "note");
    expect(finding.source).toBe("one; two");
    expect(finding.contributions).toHaveLength(2);
  });
});

describe("teal's joints, worked by hand", () => {
  // EN 1329-1 75: 75 to 75.3, wall 3 to 3.5, ovality 1.8; rim 66.5; cut edges 0.1; rods M6 40 apart, 5.794 to 5.974.
  it("carrier in bore", () => {
    const finding = found(carrierInBore(machineOf()), "fit.carrier-in-bore");
    expect(finding.measured).toBeCloseTo((75 - 7 - 0.9) / 2 - 33.25 - 0.1, 9);
    expect(finding.severity).toBe("note");
    expect(finding.message).toContain("66.5");
    expect(finding.contributions?.map(({ name }) => name)).toEqual([
      "half the pipe's outside diameter",
      "pipe wall",
      "out of round",
      "half the rim",
    ]);
  });

  it("rod between the plates: spacer 7 +-0.13 less the thread", () => {
    expect(found(rodInCarrier(machineOf()), "fit.rod-in-gap").measured).toBeCloseTo(7 - 0.13 - 5.974, 9);
  });

  it("heads between the plates of the heave carrier: spacer 4 +-0.13 less an M3 head of 3", () => {
    expect(found(rodInCarrier(machineOf()), "fit.heads-in-gap").measured).toBeCloseTo(4 - 0.13 - 3, 9);
  });

  it("rod between its spacers", () => {
    // 7.25 +-0.1 from rod to hole, spacer radius 4 +-0.05, rod radius up to 2.987.
    expect(found(rodInCarrier(machineOf()), "fit.rod-between-spacers").measured).toBeCloseTo(
      7.25 - 0.1 - 4.05 - 2.987,
      9,
    );
  });

  it("rod chord inside the bore and outside the screws' heads", () => {
    const findings = rodChord(machineOf());
    expect(found(findings, "fit.rod-chord-inside-bore").measured).toBeCloseTo(33.55 - 20.1 - 2.987, 9);
    // Screws on 9.5 +-0.1, play (3.4 - 2.874) / 2, knurled head 5.68.
    expect(found(findings, "fit.rod-chord-clear-of-motor").measured).toBeCloseTo(
      20 - 0.1 - 2.987 - 9.6 - 0.263 - 2.84,
      9,
    );
  });

  it("rod through cheek and pipe", () => {
    expect(found(rodThroughPipe(machineOf()), "fit.rod-through-pipe").measured).toBeCloseTo(
      3.3 - 0.1 + 3.5 - 5.974 - 0.1 - 0.3 - 0.2,
      9,
    );
  });

  it("propeller of 60 with its carrier against the wall", () => {
    // It leans by the play of an M6 rod of 5.794 mm at least (ISO 965-2, 6g) in 7 mm, over rods 40 mm apart; the propeller's
    // middle is a motor of 30, 2 of air and half of 12 mm before the plate.
    const lean = ((7 - 5.794) / 40) * (30 + 2 + 6);
    expect(found(propellerInBore(machineOf()), "fit.propeller-tip").measured).toBeCloseTo(
      33.25 - 0.1 - 0.1 - 0.263 - lean - 30.25,
      9,
    );
  });

  it("tabs in slots: ISO 14632 allows 10 +-0.38", () => {
    const findings = tabInSlot(machineOf());
    expect(found(findings, "fit.tab-thickness").measured).toBeCloseTo(10.38 + 0.2 - 0.2 - 10.38, 9);
    expect(found(findings, "fit.tab-length").measured).toBeCloseTo(0.2 - 0.1 - 0.1, 9);
    expect(findings.map(({ severity }) => severity)).toEqual(["note", "note"]);
  });

  it("driver opening: 0.5 mm more than the heads reach", () => {
    expect(found(toolAccess(machineOf(), []), "fit.driver-opening").measured).toBeCloseTo(0.5 - 0.2, 9);
  });

  it("motor screw M3x8 through 5 +-0.35 (ISO 11833-1, pressed) into 4 mm of thread", () => {
    const finding = found(screwLength(machineOf()), "fit.motor-screw-depth");
    const carrier = 0.1 + 0.05 * 5;
    expect(finding.measured).toBeCloseTo(4 - (8.29 - (5 - carrier)), 6);
  });

  it("screw M4x25: plates, spacer, washers and nut leave thread to stand out", () => {
    const finding = found(screwLength(machineOf()), "fit.screw-beyond-nut");
    expect(finding.measured).toBeCloseTo(25 - 0.42 - 2 * 5.35 - 7.13 - 2 * 0.9 - 3.2, 2);
    expect(finding.limit).toBe(0.7);
  });
});

describe("joints that do not fit", () => {
  const duct = (
    change: Partial<DuctParameters>,
    carrier: Partial<DuctParameters["carrier"]> = {},
  ): FrameParameters["ducts"] => {
    const base = tealDuct("port", "surge", "75", { x: -75, y: 110 }, change);
    return [{ ...base, carrier: { ...base.carrier, ...carrier } }];
  };
  const cutting = (accuracy: number): FrameParameters["cutting"] => ({
    ...tealParameters().cutting,
    accuracy,
  });

  const table: readonly [string, Partial<FrameParameters>, string, Finding["severity"]][] = [
    ["a rim with no gap", { ducts: duct({}, { fitGap: 0 }) }, "fit.carrier-in-bore", "warning"],
    ["a rod gap without play", { rods: { thread: "M8", gapAllowance: 0 } }, "fit.rod-in-gap", "error"],
    ["slots cut to a quarter of a millimetre", { cutting: cutting(0.25) }, "fit.tab-length", "warning"],
    [
      "spacer holes a quarter of a millimetre off",
      { cutting: cutting(0.35) },
      "fit.rod-between-spacers",
      "warning",
    ],
    ["rods by hand through a rough cheek", { cutting: cutting(0.4) }, "fit.rod-through-pipe", "warning"],
    ["heads that catch in a rough opening", { cutting: cutting(0.5) }, "fit.driver-opening", "error"],
    [
      "a propeller a hair smaller than the rim",
      { ducts: duct({ propeller: { diameter: 62.4, height: 10 } }, { fitGap: 1 }) },
      "fit.propeller-tip",
      "warning",
    ],
    [
      "a pipe whose wall is one of several",
      { ducts: duct({ pipe: { standard: "DIN 8062", size: "75" } }) },
      "fit.pipe-series",
      "warning",
    ],
    [
      "nuts far out on a steep wall",
      { ducts: duct({ pipe: { standard: "EN 1329-1", size: "125" } }, { rodPitch: 86 }) },
      "fit.spanner-at-pipe",
      "warning",
    ],
    ["a bulkhead beside the rods", { bulkheads: [{ id: "near", x: -88 }] }, "fit.spanner-swing", "warning"],
  ];

  it.each(table)("%s", (_, change, id, severity) => {
    const parameters = tealParameters("75", change);
    const machine = fitMachine(parameters, []);
    const finding = found(checkToleranceStacks(machine, deriveFrame(parameters).plates), id);
    expect(finding.severity, finding.message).toBe(severity);
    expect(finding.why).not.toBe("");
    expect(finding.source).not.toBe("");
  });

  it("says that rods are longer than any bar", () => {
    const machine = machineOf({ deck: { ...tealParameters().deck, width: 3100 } });
    expect(found(screwLength(machine), "fit.rod-stock").severity).toBe("error");
  });

  it("says nothing of a pipe whose series or wall is given, or whose series have one wall", () => {
    const pipes = [
      { standard: "DIN 8062", size: "75", series: "PN10" },
      { standard: "DIN 8062", size: "75", wall: 3.6 },
      { standard: "EN 1329-1", size: "75" },
      { outside: 75, wall: 3 },
    ];
    for (const pipe of pipes) expect(pipeSeries(machineOf({ ducts: duct({ pipe }) }))).toEqual([]);
  });
});

describe("all joints of a frame", () => {
  it.each([
    ["teal in 75", tealParameters("75")],
    ["teal in 110", tealParameters("110")],
    ["every template", richParameters("75")],
  ])("%s: fit, with every size sourced", (_, parameters) => {
    const findings = checkToleranceStacks(fitMachine(parameters, []), deriveFrame(parameters).plates);
    expect(findings.filter(({ severity }) => severity === "error")).toEqual([]);
    for (const { contributions = [], id } of findings) {
      for (const one of contributions) {
        expect(one.source, `${id}: ${one.name}`).not.toBe("");
        expect(Number.isFinite(one.nominal + one.plus + one.minus), `${id}: ${one.name}`).toBe(true);
      }
    }
  });

  it("keeps the joints with room to spare in one note that names each", () => {
    const findings = checkToleranceStacks(machineOf(), deriveFrame(tealParameters()).plates);
    const roomy = found(findings, "fit.roomy-joints");
    expect(roomy.contributions?.map(({ name }) => name)).toContain("rod chord inside bore");
    for (const { measured, limit, id } of findings) {
      if (id === "fit.roomy-joints" || measured === undefined || limit === undefined) continue;
      expect(measured - limit, id).toBeLessThanOrEqual(1);
    }
  });

  it("ties have to spare what they are longer, less two millimetres and the thickest deck", () => {
    const machine = machineOf();
    const [standing] = machine.standing;
    const needed = standing?.ties.tieLengthNeeded ?? 0;
    expect(found(tieAroundPipe(machine), "fit.tie-around-pipe").measured).toBeCloseTo(
      200 - 2 - needed - 2 * 0.38,
      6,
    );
  });
});

describe("slots of ties at a standing pipe", () => {
  it.each(["75", "110"])("are deep enough for pipe %s wherever it stands, however thin the cut", (size) => {
    for (const kerf of [0.1, 1, 3.175]) {
      const cutting = { ...tealParameters().cutting, kerf };
      const room = found(tieAroundPipe(machineOf({ cutting }, size)), "fit.tie-beside-pipe");
      expect(room.severity).toBe("note");
      expect(room.measured).toBeGreaterThan(0);
    }
  });
});

describe("the motor's screws", () => {
  const engagement = (measured: number): Finding | undefined => {
    const { sheets } = tealParameters();
    const thick = { ...sheets, carrier: { ...sheets.carrier, measured } };
    const { findings } = deriveFrame(tealParameters("75", { sheets: thick }));
    return findings.find(({ id }) => id === "fit.motor-screw-engagement");
  };

  it("reach as far as the measured sheet leaves of them", () => {
    // M3x8 through 5.4 mm: 2.6 mm of thread, where 3 mm would use it fully.
    expect(engagement(4.9)).toBeUndefined();
    expect(engagement(5.4)).toMatchObject({ severity: "warning", measured: expect.closeTo(2.6, 9) });
    expect(engagement(5.4)?.message).not.toContain("give sheets.carrier.measured");
  });
});
