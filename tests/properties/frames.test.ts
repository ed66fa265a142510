import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import {
  asCircle,
  bounds,
  type Contour,
  capScrew,
  deriveFrame,
  type Frame,
  featureContour,
  type Plate,
  regionArea,
  regionCentroid,
  regionFaults,
} from "@keelcut/geometry";
import { beforeAll, describe, expect, it } from "vitest";
import { materialAlongLine } from "../../packages/geometry/src/checks/assembly/material-along-line.js";
import {
  inPlate,
  inVehicle,
  type PlacedPlate,
  placedPlates,
} from "../../packages/geometry/src/checks/assembly/placed-plate.js";
import { along, cross, dot, norm, unit } from "../../packages/geometry/src/checks/assembly/vector-3d.js";
import { checkAssembly } from "../../packages/geometry/src/checks/assembly-check.js";
import { cutOf } from "../../packages/geometry/src/checks/cuttability/cut.js";
import { webFindings } from "../../packages/geometry/src/checks/cuttability/webs.js";
import { thicknessRange } from "../../packages/geometry/src/fit/layout.js";
import { fitMachine } from "../../packages/geometry/src/fit/machine.js";
import { featureLimits, limitFor } from "../../packages/geometry/src/standards/cutting/feature-limits.js";
import { hasShapely } from "../cli/dxf-outside.js";
import { randomFrames } from "./random-frames.js";

/** More by `KEELCUT_FRAMES=3000 npx vitest run tests/properties`; `KEELCUT_SEED` changes which. */
const COUNT = Number(process.env["KEELCUT_FRAMES"] ?? 60);
const SEED = Number(process.env["KEELCUT_SEED"] ?? 20240);

interface Judged {
  readonly valid: boolean;
  readonly why: string;
  readonly inside: boolean;
  readonly area: number;
  readonly length: number;
  readonly centre: readonly [number, number];
  readonly web: number;
}

/** Valid frames: derivation found no error and nothing fills the same space. */
let frames: readonly Frame[] = [];
let tried = 0;

beforeAll(() => {
  const all = randomFrames(SEED, COUNT);
  tried = all.length;
  frames = all
    .map((parameters) => deriveFrame(parameters))
    .filter(
      (frame) =>
        frame.findings.every(({ severity }) => severity !== "error") && checkAssembly(frame).length === 0,
    );
}, 3_600_000);

const cutPlates = (frame: Frame): readonly Plate[] => frame.plates.filter(({ made }) => made === "cut");

describe("random frames", () => {
  it("are valid often enough to tell something", () => {
    expect(frames.length).toBeGreaterThan(tried * 0.3);
  });

  it("have plates that are one simple region, with openings inside", () => {
    for (const frame of frames) {
      for (const plate of frame.plates) expect(regionFaults(plate.region), plate.id).toEqual([]);
    }
  });

  it.runIf(hasShapely)(
    "agree with shapely on validity, area, centroid and the thinnest web",
    () => {
      const plates = frames.flatMap((frame) => cutPlates(frame).map((plate) => ({ plate, frame })));
      const judged = shapely(plates.map(({ plate }) => plate));
      expect(judged).toHaveLength(plates.length);
      for (const [index, { plate, frame }] of plates.entries()) {
        const theirs = judged[index] as Judged;
        const name = `${plate.id} of ${JSON.stringify(frame.parameters)}`;
        expect(theirs.valid, `${theirs.why}: ${name}`).toBe(true);
        expect(theirs.inside, name).toBe(true);
        // Chords lie up to 0.002 mm off their arcs: two thirds of that along the whole length at most.
        const slack = 0.002 * theirs.length;
        expect(Math.abs(regionArea(plate.region) - theirs.area), name).toBeLessThan(slack);
        const centre = regionCentroid(plate.region);
        const reach = Math.max(...Object.values(bounds(plate.region.outer)).map(Math.abs));
        expect(Math.hypot(centre.x - theirs.centre[0], centre.y - theirs.centre[1]), name).toBeLessThan(
          (4 * reach * slack) / theirs.area + 1e-6,
        );
        // Where shapely sees less than the least web, the cuttability check must have seen it too, and not elsewhere.
        const { cutting } = frame.parameters;
        const least = limitFor(featureLimits[cutting.method].web, plate.sheet.thickness, cutting.kerf);
        if (Math.abs(theirs.web - least) < 0.005) continue;
        const found = webFindings(cutOf(plate, cutting, {})).length > 0;
        expect(found, `web of ${theirs.web} mm, least ${least}: ${name}`).toBe(theirs.web < least);
      }
    },
    3_600_000,
  );

  it("have tabs that fit their slots at both ends of the tolerance, and lie in their middle", () => {
    let joints = 0;
    for (const frame of frames) {
      const range = thicknessRange(frame.parameters.sheets.structure);
      const placed = placedPlates(frame.plates);
      for (const holder of placed) {
        for (const feature of holder.plate.features.filter(({ kind }) => kind === "tab-slot")) {
          const joint = jointAt(holder, featureContour(holder.plate, feature), placed);
          const name = `${feature.name} of ${holder.plate.id}: ${JSON.stringify(frame.parameters)}`;
          // Each of the four edges may be cut 0.1 mm off its place, and the sheet may be anything the standard allows.
          expect(joint.slotAcross - 0.2 - range.max, name).toBeGreaterThanOrEqual(-1e-6);
          expect(joint.slotAcross - range.max, name).toBeLessThan(0.25);
          expect(joint.slotLength - 0.2 - (joint.tabLength + 0.2), name).toBeGreaterThanOrEqual(-1e-6);
          expect(joint.slotLength - joint.tabLength, name).toBeLessThan(0.45);
          expect(Math.abs(joint.offMiddle), name).toBeLessThan(1e-6);
          joints += 1;
        }
      }
    }
    expect(joints).toBeGreaterThan(frames.length * 8);
  }, 3_600_000);

  it("have spacers clear of the motor's screws and of the opening through which those are driven", () => {
    for (const { parameters } of frames) {
      for (const { fit, duct } of fitMachine(parameters, []).ducts) {
        const motor = parameters.motors[duct.motor];
        const head = capScrew(motor?.screw ?? "").headDiameterMax / 2;
        for (const pin of fit.pins) {
          const name = JSON.stringify({ pin, parameters });
          expect(Math.hypot(pin.x, pin.y) - fit.pinHole / 2 - fit.reliefRadius, name).toBeGreaterThan(3.29);
          for (const screw of fit.motorCentres) {
            const apart = Math.hypot(pin.x - screw.x, pin.y - screw.y);
            expect(apart - fit.spacerOutside / 2 - head, name).toBeGreaterThan(0.499);
          }
        }
      }
    }
  });

  it("have motors on crosses where the pattern is a cross, never on rectangles", () => {
    let crosses = 0;
    for (const frame of frames) {
      const pattern = frame.parameters.motors["motor"]?.pattern;
      if (pattern?.kind !== "cross") continue;
      for (const plate of frame.plates.filter(({ template }) => template === "carrier-front")) {
        const holes = plate.features
          .filter(({ name }) => name === "motor screw hole")
          .map((feature) => asCircle(featureContour(plate, feature))?.center);
        const on = (axis: "x" | "y", other: "x" | "y"): readonly number[] =>
          holes
            .filter((hole) => hole !== undefined && Math.abs(hole[other]) < 1e-9)
            .map((hole) => hole?.[axis] ?? 0)
            .sort((a, b) => a - b);
        const [first, second] = pattern.diameters;
        expect(holes).toHaveLength(4);
        expect(on("x", "y")).toEqual([-first / 2, first / 2]);
        expect(on("y", "x")).toEqual([-second / 2, second / 2]);
        crosses += 1;
      }
    }
    expect(crosses).toBeGreaterThan(0);
  });
});

/** The clear size of a slot through its middle, and the tab of another plate that stands in it. */
function jointAt(
  holder: PlacedPlate,
  slot: Contour,
  placed: readonly PlacedPlate[],
): { slotAcross: number; slotLength: number; tabLength: number; offMiddle: number } {
  const box = bounds(slot);
  const middle = { x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 };
  const at = inVehicle(holder.seat, holder.normal, middle, holder.plate.sheet.thickness / 2);
  const tabs = placed.flatMap((other) => {
    const direction = cross(holder.normal, other.normal);
    if (other === holder || norm(direction) < 0.5) return [];
    const local = inPlate(other, at);
    if (Math.abs(local.height - other.plate.sheet.thickness / 2) > 1) return [];
    const way = unit(direction);
    const tip = inPlate(other, along(at, way, 1));
    const stretches = materialAlongLine(
      other.plate.region,
      local,
      { x: tip.x - local.x, y: tip.y - local.y },
      1000,
    );
    const tab = stretches.find(({ from, to }) => from < 0 && to > 0);
    return tab === undefined ? [] : [{ tab, way }];
  });
  const [only] = tabs;
  if (only === undefined || tabs.length !== 1) throw new Error(`${tabs.length} tabs in one slot`);
  const length = { x: dot(only.way, holder.seat.u), y: dot(only.way, holder.seat.v) };
  const clear = (way: { x: number; y: number }): number => {
    const found = materialAlongLine({ outer: slot, openings: [] }, middle, way, 500).find(
      ({ from, to }) => from < 0 && to > 0,
    );
    return found === undefined ? 0 : found.to - found.from;
  };
  return {
    slotLength: clear(length),
    slotAcross: clear({ x: -length.y, y: length.x }),
    tabLength: only.tab.to - only.tab.from,
    offMiddle: (only.tab.to + only.tab.from) / 2,
  };
}

function shapely(plates: readonly Plate[]): readonly Judged[] {
  const script = fileURLToPath(new URL("plates-in-shapely.py", import.meta.url));
  const input = JSON.stringify(
    plates.map(({ region }) =>
      [region.outer, ...region.openings].map((contour) => contour.map(({ x, y, bulge }) => [x, y, bulge])),
    ),
  );
  const run = spawnSync("/usr/bin/python3", [script], { encoding: "utf8", input, maxBuffer: 500_000_000 });
  if (run.error !== undefined) throw run.error;
  if (run.status !== 0) throw new Error(run.stderr);
  return JSON.parse(run.stdout) as readonly Judged[];
}
