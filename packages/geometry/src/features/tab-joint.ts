import { subtract, unite } from "../contour/boolean.js";
import { rectangle } from "../contour/build.js";
import type { Contour, Point, Region } from "../contour/contour.js";
import { cornerRelief } from "./corner-relief.js";

/**
 * Free length on both ends of a tab together, mm: tab slots are this much longer than their tabs.
 * Common practice for routed sheet held to ISO 2768-m (+-0.3 at 30..120 mm is taken up by filing).
 */
export const TAB_END_PLAY = 0.4;

/** Free height over the thickest sheet the standard allows, mm. */
export const TAB_THICKNESS_PLAY = 0.2;

/** A row of equal tabs along an edge, and the slots that take them: one description for both plates. */
export interface TabRow {
  /** Middle of each tab along the edge, mm. */
  readonly centres: readonly number[];
  /** Length of each tab along the edge, mm. */
  readonly length: number;
}

/** Tabs spread evenly over an edge that runs from `from` to `to`. */
export function spreadTabs(from: number, to: number, count: number, length: number): TabRow {
  const step = (to - from) / count;
  return { centres: Array.from({ length: count }, (_, index) => from + step * (index + 0.5)), length };
}

/**
 * Adds tabs to both edges y = -halfWidth and y = +halfWidth of a plate and relieves their roots.
 *
 * @param reach how far a tab stands out: the thickness of the plate that takes it
 * @param relief radius of the root relief, 0 for none
 */
export function addTabs(body: Region, row: TabRow, halfWidth: number, reach: number, relief: number): Region {
  const tabs = row.centres.flatMap((centre) =>
    [-1, 1].map((side) => {
      const left = centre - row.length / 2;
      // The tab starts inside the body so that the union never meets along a mere line.
      const bottom = side < 0 ? -halfWidth - reach : halfWidth - reach;
      return { outer: rectangle(left, bottom, row.length, 2 * reach), openings: [] };
    }),
  );
  const tabbed = unite([body, ...tabs]);
  if (relief === 0) return single(tabbed);
  const reliefs = row.centres.flatMap((centre) =>
    [-1, 1].flatMap((side) =>
      [-1, 1].map((end) => {
        const corner: Point = { x: centre + (end * row.length) / 2, y: side * halfWidth };
        return {
          outer: cornerRelief(corner, { x: corner.x + end, y: corner.y + side }, relief),
          openings: [],
        };
      }),
    ),
  );
  return single(subtract(tabbed, reliefs));
}

/**
 * The slot that takes one tab: longer by the end play, as high as the thickest sheet plus play, relieved at its corners.
 *
 * @param centre middle of the slot
 * @param thickest thickness of the tabbed plate at its upper tolerance, mm
 */
export function tabSlot(centre: Point, tabLength: number, thickest: number, relief: number): Contour {
  const length = tabLength + TAB_END_PLAY;
  const height = thickest + TAB_THICKNESS_PLAY;
  const slot = {
    outer: rectangle(centre.x - length / 2, centre.y - height / 2, length, height),
    openings: [],
  };
  if (relief === 0) return slot.outer;
  const reliefs = [-1, 1].flatMap((sx) =>
    [-1, 1].map((sy) => {
      const corner = { x: centre.x + (sx * length) / 2, y: centre.y + (sy * height) / 2 };
      return {
        outer: cornerRelief(corner, { x: corner.x - sx, y: corner.y - sy }, relief),
        openings: [],
      };
    }),
  );
  return single(unite([slot, ...reliefs])).outer;
}

function single(regions: readonly Region[]): Region {
  const [region] = regions;
  if (region === undefined || regions.length !== 1) {
    throw new RangeError(`tab joint: expected one region, got ${regions.length}`);
  }
  return region;
}
