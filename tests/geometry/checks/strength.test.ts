import { checkFrame, deriveFrame, type Finding, type FrameParameters } from "@keelcut/geometry";
import { describe, expect, it } from "vitest";
import { largestTorque } from "../../../packages/geometry/src/checks/strength/clamping.js";
import { estimateFindings } from "../../../packages/geometry/src/checks/strength/estimate.js";
import { knownBodies } from "../../../packages/geometry/src/checks/trim.js";
import { fitMachine } from "../../../packages/geometry/src/fit/machine.js";
import { richParameters } from "../frame/rich.js";
import { tealDuct, tealParameters } from "../frame/teal.js";
import { found, strengthFindings } from "./frame-findings.js";

const teal = tealParameters();
const [motor] = Object.values(teal.motors);
if (motor === undefined) throw new Error("teal has no motor");
const withMotors = (mass: number): FrameParameters["motors"] => ({ m2216: { ...motor, mass } });

describe("strength of a frame", () => {
  it("says what the known mass does, and that it is an estimate", () => {
    for (const finding of strengthFindings(richParameters("75"))) {
      expect(finding.why).toContain("qualified people decide");
      expect(finding.source).not.toBe("");
    }
  });

  // The bar above the grip is 16 high, 10 thick, 112 long; 2 x the weight in its middle: s = 1.5 F L / (b t^2).
  it("bends the bar above the grip by Shigley's formula", () => {
    const parameters = { ...teal, motors: withMotors(700) };
    const frame = deriveFrame(parameters);
    const { bodies } = knownBodies(frame, fitMachine(parameters, []));
    const weight = (bodies.reduce((sum, { mass }) => sum + mass, 0) / 1000) * 9.80665;
    const grip = found(strengthFindings(parameters), "strength.grip");
    expect(grip.measured).toBeCloseTo((1.5 * 2 * weight * 112) / (10 * 16 ** 2), 3);
    expect(grip.limit).toBe(10);
  });

  it("takes loads in proportion to the stated factors and warns past what is allowed", () => {
    const heavy = { ...teal, motors: withMotors(900) };
    const grip = (liftFactor: number): Finding =>
      found(strengthFindings({ ...heavy, handling: { liftFactor, landingFactor: 3 } }), "strength.grip");
    expect((grip(4).measured ?? 0) / (grip(2).measured ?? 1)).toBeCloseTo(2, 9);
    expect(grip(20).severity).toBe("warning");
    expect(grip(20).message).toContain("add handles");
  });

  it("wants four diameters of plywood around a rod, and two of PE-HD", () => {
    const sheets = { ...teal.sheets, structure: { material: "birch plywood", thickness: 9, grain: true } };
    // Rods 18 mm from the end of the cheek.
    const near = { ...teal, ducts: [tealDuct("port", "surge", "75", { x: -162, y: 110 })] };
    expect(strengthFindings(near).some(({ id }) => id === "strength.edge-distance")).toBe(false);
    const findings = strengthFindings({ ...near, sheets });
    const edge = findings.find(({ id }) => id === "strength.edge-distance");
    expect(edge?.limit).toBe(24);
    expect(edge?.severity).toBe("warning");
  });

  it("rates the grips of cheeks and the bars of handles each once", () => {
    const of = (parameters: FrameParameters, id: string): string[] =>
      strengthFindings(parameters)
        .filter((finding) => finding.id === id)
        .map(({ place }) => place);
    expect(of(teal, "strength.handle-bar")).toEqual([]);
    expect(of(teal, "strength.grip")).toEqual(["cheek"]);
    const rich = richParameters("75");
    expect(of(rich, "strength.handle-bar")).toEqual(["handle"]);
    expect(of(rich, "strength.grip")).toEqual(["cheek"]);
  });

  it.each([
    ["PVC-U", undefined],
    ["PC", undefined],
    ["PMMA cast", 10],
    ["birch plywood", 16],
  ])("wants spacer screws of M4 farther from the rim in %s: %s mm", (material, wanted) => {
    const carrier = { material, thickness: 5, grain: false };
    const found = strengthFindings({ ...teal, sheets: { ...teal.sheets, carrier } }).find(
      ({ id, place }) => id === "strength.edge-distance" && place.includes(".carrier"),
    );
    expect(found?.limit).toBe(wanted);
    if (wanted !== undefined) expect(found?.measured).toBeLessThan(wanted);
  });

  // Worked by hand: (a - 16e-6) x 20 K x the width, with 180e-6 of PE-HD and 80e-6 of PMMA at most.
  it.each([
    ["PE-HD", (180e-6 - 16e-6) * 20],
    ["PMMA cast", (80e-6 - 16e-6) * 20],
    ["Al 5083", undefined],
  ])("tells how much more than the rods a deck of %s changes with warmth", (material, share) => {
    const structure = { material, thickness: 10, grain: false };
    const parameters = { ...teal, deck: { ...teal.deck, width: 400 }, sheets: { ...teal.sheets, structure } };
    const found = strengthFindings(parameters).find(({ id }) => id === "strength.expansion");
    if (share === undefined) expect(found).toBeUndefined();
    else expect(found?.measured).toBeCloseTo(share * 400, 6);
  });

  // M6, ISO 7089 washer 12 on a 6.6 hole: 78.9 mm2; 0.3 x 20 MPa give 473 N and 0.2 x 473 N x 6 mm = 0.57 N m.
  it("limits the torque by the pressure under the washer", () => {
    expect(largestTorque("M6", "PE-HD")).toBeCloseTo(0.568, 3);
    expect(largestTorque("M6", "Al 5083")).toBeGreaterThan(3);
  });

  // An M4 spacer of 8 mm on a 4.5 mm hole has 34.4 mm2, the washer of 9 mm 47.7; 0.3 x 20 MPa x 34.4 mm2 x 0.2 x 4 mm.
  it("takes the smallest contact of a screw on a material, whichever comes first", () => {
    const sheets = { ...teal.sheets, carrier: { ...teal.sheets.structure, thickness: 5 } };
    const clamping = found(strengthFindings({ ...teal, sheets }), "strength.clamping");
    expect(clamping.measured).toBeCloseTo((0.3 * 20 * 34.4 * 0.2 * 4) / 1000, 3);
    expect(clamping.message.match(/M4 on PE-HD/g)).toHaveLength(1);
  });

  it("puts light parts into one note and heavy ones on their own, with what they carry", () => {
    const estimate = (id: string, stress: number) => ({
      id,
      place: id,
      what: `part ${id}`,
      stress,
      allowed: 10,
      cure: "thicken it",
      source: "book",
    });
    const findings = estimateFindings([estimate("a", 1), estimate("b", 5), estimate("c", 12)], 6000);
    expect(findings.map(({ id, severity }) => [id, severity])).toEqual([
      ["b", "note"],
      ["c", "warning"],
      ["strength.estimates", "note"],
    ]);
    expect(findings[0]?.message).toContain("up to 12 kg");
    expect(findings[1]?.message).toContain("thicken it");
    expect(findings[2]?.message).toContain("10 %");
  });
});

describe("all checks of the example's frame", () => {
  it("find nothing grave, and every figure is a number", () => {
    const findings = checkFrame(deriveFrame(richParameters("75")));
    expect(findings.filter(({ severity }) => severity === "error")).toEqual([]);
    for (const { id, measured = 0, limit = 0, message } of findings) {
      expect(Number.isFinite(measured) && Number.isFinite(limit), id).toBe(true);
      expect(message, id).not.toMatch(/NaN|Infinity|undefined/);
    }
  });
});
