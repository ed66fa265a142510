import { subtract, unite } from "../contour/boolean.js";
import { polygon, rectangle } from "../contour/build.js";
import type { Contour, Point, Region } from "../contour/contour.js";
import { translate } from "../contour/transform.js";
import { rememberedBy } from "../remember.js";
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
  const tabs = row.centres.flatMap((x) =>
    [-1, 1].map((side) => ({
      root: { x, y: side * halfWidth },
      out: { x: 0, y: side },
      length: row.length,
      reach,
    })),
  );
  return addTabsAt(body, tabs, relief);
}

/**
 * Adds single tabs to a plate's outline, each standing out of a straight edge, with relieved roots.
 *
 * @param tabs `root` is the middle of the tab on the edge, `out` the unit direction it stands out
 * @param relief radius of the root relief, 0 for none
 */
export function addTabsAt(
  body: Region,
  tabs: readonly {
    readonly root: Point;
    readonly out: Point;
    readonly length: number;
    readonly reach: number;
  }[],
  relief: number,
): Region {
  const tabbed = unite([
    body,
    ...tabs.map(({ root, out, length, reach }) => ({
      // From a little inside the body, so that the union never meets along a mere line, nor comes out behind a narrow one.
      outer: spanned(root, out, length / 2, -INSIDE, reach),
      openings: [],
    })),
  ]);
  if (relief === 0) return single(tabbed);
  const reliefs = tabs.flatMap(({ root, out, length }) =>
    [-1, 1].map((end) => {
      const along = { x: -out.y * end, y: out.x * end };
      const corner = { x: root.x + (along.x * length) / 2, y: root.y + (along.y * length) / 2 };
      const free = { x: corner.x + along.x + out.x, y: corner.y + along.y + out.y };
      return { outer: cornerRelief(corner, free, relief), openings: [] };
    }),
  );
  return single(subtract(tabbed, reliefs));
}

/** How far into the body a tab begins, mm: twice what a root may stand off its edge. */
const INSIDE = 0.1;

/** A rectangle around a point: half its width across `out`, from `inner` to `outer` along it. */
function spanned(root: Point, out: Point, halfWidth: number, inner: number, outer: number): Contour {
  const corner = (across: number, along: number): Point => ({
    x: root.x - out.y * across + out.x * along,
    y: root.y + out.x * across + out.y * along,
  });
  return polygon([
    corner(halfWidth, inner),
    corner(-halfWidth, inner),
    corner(-halfWidth, outer),
    corner(halfWidth, outer),
  ]);
}

/**
 * The slot that takes one tab: longer by the end play, as high as the thickest sheet plus play, relieved at its corners.
 *
 * @param centre middle of the slot
 * @param thickest thickness of the tabbed plate at its upper tolerance, mm
 * @param along direction of the slot's length
 */
export function tabSlot(
  centre: Point,
  tabLength: number,
  thickest: number,
  relief: number,
  along: "x" | "y" = "x",
): Contour {
  const across = thickest + TAB_THICKNESS_PLAY;
  const length = along === "x" ? tabLength + TAB_END_PLAY : across;
  const height = along === "x" ? across : tabLength + TAB_END_PLAY;
  if (relief === 0) return rectangle(centre.x - length / 2, centre.y - height / 2, length, height);
  return translate(relievedSlot(length, height, relief), centre.x, centre.y);
}

/** About the origin; a frame has many slots of a few sizes. */
const relievedSlot = rememberedBy(
  200,
  (length: number, height: number, relief: number) => `${length} ${height} ${relief}`,
  (length: number, height: number, relief: number): Contour => {
    const slot = { outer: rectangle(-length / 2, -height / 2, length, height), openings: [] };
    const reliefs = [-1, 1].flatMap((sx) =>
      [-1, 1].map((sy) => {
        const corner = { x: (sx * length) / 2, y: (sy * height) / 2 };
        return {
          outer: cornerRelief(corner, { x: corner.x - sx, y: corner.y - sy }, relief),
          openings: [],
        };
      }),
    );
    return single(unite([slot, ...reliefs])).outer;
  },
);

function single(regions: readonly Region[]): Region {
  const [region] = regions;
  if (region === undefined || regions.length !== 1) {
    throw new RangeError(`tab joint: expected one region, got ${regions.length}`);
  }
  return region;
}
