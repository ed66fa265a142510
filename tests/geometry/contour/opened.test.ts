import { circle, pointDistance, polygon, rectangle, regionArea, unite } from "@keelcut/geometry";
import { describe, expect, it } from "vitest";
import { opened } from "../../../packages/geometry/src/contour/opened.js";
import { cutterReach } from "../../../packages/geometry/src/features/cutter-reach.js";

/** Two rooms of 20 x 20 mm, joined by a waist of the given width and 10 mm length. */
function rooms(waist: number) {
  const [room] = unite([
    { outer: rectangle(0, 0, 20, 20), openings: [] },
    { outer: rectangle(30, 0, 20, 20), openings: [] },
    { outer: rectangle(19, 10 - waist / 2, 12, waist), openings: [] },
  ]);
  if (room === undefined) throw new Error("no rooms");
  return room;
}

describe("what a disc covers in a region", () => {
  it("is one piece where a waist just too narrow separates discs that still overlap", () => {
    expect(opened(rooms(5.9), 3)).toHaveLength(2);
    expect(opened(rooms(6.1), 3)).toHaveLength(1);
    const hourglass = polygon([
      { x: -20, y: -10 },
      { x: 0, y: -2.9 },
      { x: 20, y: -10 },
      { x: 20, y: 10 },
      { x: 0, y: 2.9 },
      { x: -20, y: 10 },
    ]);
    const [whole, ...more] = opened({ outer: hourglass, openings: [] }, 3);
    expect(more).toEqual([]);
    expect(regionArea(whole ?? { outer: [], openings: [] })).toBeLessThan(
      regionArea({ outer: hourglass, openings: [] }),
    );
    expect(cutterReach(hourglass, 3, 1)).toHaveLength(1);
  });

  it("is all of a round region, and nothing of one that is narrower than the disc", () => {
    const disc = { outer: circle({ x: 3, y: 4 }, 10), openings: [] };
    const [same] = opened(disc, 4);
    expect(regionArea(same ?? { outer: [], openings: [] })).toBeCloseTo(Math.PI * 100, 6);
    for (const { x, y } of same?.outer ?? []) expect(pointDistance(disc.outer, { x, y })).toBeLessThan(1e-6);
    expect(opened(disc, 10.1)).toEqual([]);
  });
});
