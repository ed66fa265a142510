import { locateInRegion, type Path, placeRegion, polygon } from "@keelcut/geometry";
import { describe, expect, it } from "vitest";
import { faceMarks } from "../../packages/cli/src/output/face-marks.js";
import { plate } from "./dxf-samples.js";

/** Broad at its left, so that plate and mirror image differ, with a line near its left edge and a text. */
const wedge = plate(
  "wedge",
  {
    outer: polygon([
      { x: 0, y: 0 },
      { x: 120, y: 30 },
      { x: 120, y: 50 },
      { x: 0, y: 80 },
    ]),
    openings: [],
  },
  {
    marks: [
      {
        kind: "line",
        path: {
          closed: false,
          vertices: [
            { x: 4, y: 20, bulge: 0 },
            { x: 4, y: 60, bulge: 0 },
          ],
        },
      },
      { kind: "text", text: "UP", at: { x: 10, y: 60 }, height: 4, rotation: 0 },
    ],
  },
);

const xs = (paths: readonly Path[]): number[] => paths.flatMap(({ vertices }) => vertices.map(({ x }) => x));

/** An L reads when its stem, the highest stroke, stands at its left. */
function readsAsL(strokes: readonly Path[]): boolean {
  const top = strokes.flatMap(({ vertices }) => vertices).reduce((a, b) => (b.y > a.y ? b : a));
  const [left, right] = [Math.min(...xs(strokes)), Math.max(...xs(strokes))];
  return top.x - left < 0.1 * (right - left);
}

describe("the marks of a plate", () => {
  const region = wedge.region;

  it("are its own, with a name that reads", () => {
    const { paths } = faceMarks(wedge, region, ["L"], false);
    const [line, ...strokes] = paths;
    expect(xs(line === undefined ? [] : [line])).toEqual([4, 4]);
    expect(strokes.length).toBeGreaterThan(2);
  });

  it("of one laid upside down are mirrored with it, but its name reads and its texts stay on the other face", () => {
    const { paths, findings } = faceMarks(wedge, region, ["L"], true);
    const [line, ...name] = paths;
    expect(xs(line === undefined ? [] : [line])).toEqual([-4, -4]);
    expect(readsAsL(name)).toBe(true);
    const turned = placeRegion(region, { x: 0, y: 0, rotation: 0, mirrored: true });
    for (const point of paths.flatMap(({ vertices }) => vertices)) {
      expect(locateInRegion(turned, point)).toBe("inside");
    }
    expect(findings.map(({ id }) => id)).toEqual(["files.mark-left-out"]);
  });

  it("of a mirrored plate end where the plate's begin", () => {
    const text = { kind: "text", text: "UP", at: { x: -10, y: 60 }, height: 4, rotation: 0 } as const;
    const begins = faceMarks({ ...wedge, marks: [{ ...text, at: { x: 10, y: 60 } }] }, region, [], false);
    const mirrored = placeRegion(region, { x: 0, y: 0, rotation: 0, mirrored: true });
    const ends = faceMarks({ ...wedge, marks: [{ ...text, atEnd: true }] }, mirrored, [], false);
    const width = Math.max(...xs(begins.paths)) - 10;
    expect(Math.max(...xs(ends.paths))).toBeLessThanOrEqual(-10);
    expect(Math.min(...xs(ends.paths))).toBeGreaterThanOrEqual(-10 - 1.5 * width);
  });

  it("of a mirrored plate keep their end where they are turned", () => {
    const up = { kind: "text", text: "UP", at: { x: 10, y: 20 }, height: 4, rotation: 90 } as const;
    const begins = faceMarks({ ...wedge, marks: [up] }, region, [], false).paths;
    const over = { x: 0, y: 0, rotation: 0, mirrored: true };
    const mirrored = { ...up, at: { x: -10, y: 20 }, rotation: -90, atEnd: true };
    const ends = faceMarks({ ...wedge, marks: [mirrored] }, placeRegion(region, over), [], false).paths;
    const ys = (paths: readonly Path[]): number[] =>
      paths.flatMap(({ vertices }) => vertices.map(({ y }) => y));
    // The one runs up from y 20, the other down to it: both lie between the same heights, their capitals on the plate's inside.
    expect(Math.min(...ys(begins))).toBeGreaterThanOrEqual(20);
    expect(Math.min(...ys(ends))).toBeGreaterThanOrEqual(20);
    const tops = [Math.max(...ys(begins)), Math.max(...ys(ends))];
    expect(Math.abs((tops[0] ?? 0) - (tops[1] ?? 0))).toBeLessThan(1);
    expect(Math.max(...xs(begins))).toBeLessThanOrEqual(10);
    expect(Math.min(...xs(ends))).toBeGreaterThanOrEqual(-10);
  });
});
