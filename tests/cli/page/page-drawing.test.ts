import {
  circle,
  clockwise,
  locateInRegion,
  obround,
  type Plate,
  type Region,
  rectangle,
  rotate,
  type Seat,
} from "@keelcut/geometry";
import { describe, expect, it } from "vitest";
import { featureGroups } from "../../../packages/cli/src/output/feature-groups.js";
import { labelPoint } from "../../../packages/cli/src/output/page/label-point.js";
import { contourPathData } from "../../../packages/cli/src/output/page/path-data.js";
import { projectAxis } from "../../../packages/cli/src/output/page/project-axis.js";
import { projectPlate } from "../../../packages/cli/src/output/page/project-plate.js";
import { FRONT, SIDE, TOP, WHOLE } from "../../../packages/cli/src/output/page/view.js";
import { smallFrame } from "./small-job.js";

describe("path data", () => {
  it("turns bulges into arcs of the right radius and side, y down", () => {
    const half = [
      { x: 0, y: 0, bulge: 1 },
      { x: 10, y: 0, bulge: 0 },
    ];
    expect(contourPathData(half)).toBe("M0 0A5 5 0 0 0 10 0Z");
    const threeQuarters = Math.tan((3 * Math.PI) / 2 / 4);
    expect(
      contourPathData([
        { x: 0, y: 0, bulge: -threeQuarters },
        { x: 10, y: 10, bulge: 0 },
      ]),
    ).toBe("M0 0A10 10 0 1 1 10 -10Z");
  });

  it("refuses coordinates that are not finite", () => {
    expect(() => contourPathData([{ x: Number.NaN, y: 0, bulge: 0 }])).toThrow(RangeError);
  });
});

describe("label point", () => {
  const size = (region: Region): number => Math.max(...region.outer.map((v) => Math.hypot(v.x, v.y)));

  it("is the middle of a disc, with its radius", () => {
    const point = labelPoint({ outer: circle({ x: 7, y: -3 }, 20), openings: [] });
    expect(Math.hypot(point.x - 7, point.y + 3)).toBeLessThan(1);
    expect(point.radius).toBeGreaterThan(19);
  });

  it("keeps off an opening in the middle and stays in the material of every plate", () => {
    const ring: Region = {
      outer: circle({ x: 0, y: 0 }, 50),
      openings: [clockwise(circle({ x: 0, y: 0 }, 30))],
    };
    const onRing = labelPoint(ring);
    expect(onRing.radius).toBeGreaterThan(8.5);
    expect(onRing.radius).toBeLessThanOrEqual(10);
    for (const { region } of [...smallFrame().plates, { region: ring }]) {
      const point = labelPoint(region);
      expect(locateInRegion(region, point)).toBe("inside");
      expect(point.radius).toBeGreaterThan(size(region) / 100);
    }
  });
});

describe("feature groups", () => {
  const withOpenings = (openings: Region["openings"]): Plate => ({
    ...(smallFrame().plates[0] as Plate),
    region: { outer: rectangle(0, 0, 200, 200), openings },
    features: [],
  });

  it("gives a turned slot its true size and puts equal ones under one letter", () => {
    const slot = obround({ x: 0, y: 0 }, { x: 6, y: 0 }, 3.3);
    const turned = [0, 30, 45, 90].map((angle) => clockwise(rotate(slot, angle)));
    const sizes = featureGroups(withOpenings(turned)).map((group) => group.size);
    expect(new Set(sizes.flatMap((size) => size.split(" × ").sort()))).toEqual(new Set(["3.3", "9.3"]));
    const one = featureGroups(withOpenings([turned[1] as Region["outer"], turned[2] as Region["outer"]]));
    expect(one).toHaveLength(1);
    expect(one[0]?.contours).toHaveLength(2);
  });

  it("lists openings that no feature explains", () => {
    const [group] = featureGroups(withOpenings([clockwise(circle({ x: 9, y: 9 }, 2))]));
    expect(group).toMatchObject({
      letter: "A",
      name: "opening",
      size: "Ø4",
      why: "No reason was given for it.",
    });
  });
});

describe("projections", () => {
  const plate: Plate = {
    ...(smallFrame().plates[0] as Plate),
    sheet: { material: "PE-HD", thickness: 10 },
    region: { outer: circle({ x: 0, y: 0 }, 40), openings: [] },
  };
  const lying: Seat = { origin: [100, 0, 0], u: [1, 0, 0], v: [0, 1, 0] };

  it("shows a lying disc as a disc from above and as a bar from the side", () => {
    expect(projectPlate(plate, lying, TOP).box).toEqual({ minX: 60, maxX: 140, minY: -40, maxY: 40 });
    const side = projectPlate(plate, lying, SIDE);
    expect(side.box).toEqual({ minX: 60, maxX: 140, minY: 0, maxY: 10 });
    expect(side.paths).toEqual([{ data: "M60 0L140 0L140 -10L60 -10Z" }]);
  });

  it("fills the thickness along u cross v", () => {
    const down: Seat = { origin: [0, 0, 0], u: [1, 0, 0], v: [0, -1, 0] };
    const { minY, maxY } = projectPlate(plate, down, FRONT).box;
    expect(minY).toBeCloseTo(-10, 9);
    expect(maxY).toBeCloseTo(0, 9);
  });

  it("maps true contours by the seat's own directions", () => {
    const standing: Seat = { origin: [5, 6, 7], u: [1, 0, 0], v: [0, 0, 1] };
    expect(projectPlate(plate, standing, SIDE).paths[0]?.matrix).toBe("matrix(1 0 0 1 5 -7)");
  });

  it("covers a leaning disc exactly, by its true ellipse", () => {
    const c = Math.SQRT1_2;
    const leaning: Seat = { origin: [0, 0, 0], u: [c, 0, c], v: [0, 1, 0] };
    const { box, paths } = projectPlate(
      { ...plate, sheet: { material: "PE-HD", thickness: 0 } },
      leaning,
      TOP,
    );
    expect(box.maxX).toBeCloseTo(40 * c, 9);
    expect(box.maxY).toBeCloseTo(40, 9);
    expect(paths.map((path) => path.wall ?? false)).toEqual([false, true, false]);
  });

  it("shows a pipe as rings along its axis, as a rectangle across it", () => {
    const pipe = {
      kind: "pipe",
      place: "port",
      from: [-60, 5, 40],
      to: [60, 5, 40],
      diameter: 75,
      bore: 69,
    } as const;
    expect(projectAxis(pipe, FRONT).box).toEqual({ minX: -32.5, maxX: 42.5, minY: 2.5, maxY: 77.5 });
    expect(projectAxis(pipe, FRONT).paths[0]?.data.match(/A37\.5 37\.5/g)).toHaveLength(2);
    expect(projectAxis(pipe, FRONT).paths[0]?.data.match(/A34\.5 34\.5/g)).toHaveLength(2);
    expect(projectAxis(pipe, TOP).box).toEqual({ minX: -60, maxX: 60, minY: -32.5, maxY: 42.5 });
    expect(projectAxis(pipe, TOP).paths[0]?.data).not.toContain("A");
    expect(projectAxis(pipe, WHOLE).paths).toHaveLength(2);
  });

  it("refuses a rod without length", () => {
    const rod = { kind: "rod", place: "rods.1", from: [0, 0, 0], to: [0, 0, 0], diameter: 6 } as const;
    expect(() => projectAxis(rod, TOP)).toThrow(/rods\.1/);
  });
});
