import { subtract } from "../contour/boolean.js";
import { circle, rectangle, roundedPolygon } from "../contour/build.js";
import type { Region } from "../contour/contour.js";
import { addTabsAt, tabSlot } from "../features/tab-joint.js";
import { SADDLE_AIR, SADDLE_WEB } from "../fit/layout.js";
import type { Machine } from "../fit/machine.js";
import type { FittedDuct } from "../fit/rod-runs.js";
import type { BulkheadParameters, FrameParameters } from "../frame/parameters.js";
import type { Cut, PlateDraft } from "./compose.js";
import { measuredThickness } from "./measured-thickness.js";
import type { Seat } from "./plate.js";
import type { Contribution, PlateTemplate } from "./template.js";

/** Tabs of a bulkhead: into the deck and into each cheek. */
const TAB_LENGTH = 30;

/** Radius of the upper corners, mm, where the height leaves room beside the tabs. Own choice. */
const CORNER = 8;

/** Cross plates between the cheeks: they stand on the deck on tabs, are tabbed into both cheeks and carry surge ducts in saddles. */
export const bulkheads: PlateTemplate = {
  name: "bulkhead",
  contribute: (machine) => {
    const parts = (machine.parameters.bulkheads ?? []).map((bulkhead) => drawBulkhead(bulkhead, machine));
    return {
      plates: parts.flatMap((part) => part.plates ?? []),
      deckCuts: parts.flatMap((part) => part.deckCuts ?? []),
      cheekCuts: parts.flatMap((part) => part.cheekCuts ?? []),
    };
  },
};

/** In its own plane the bulkhead's x points to port and its y up from the deck. */
function drawBulkhead(bulkhead: BulkheadParameters, machine: Machine): Contribution {
  const { parameters, layout, relief } = machine;
  const sheet = parameters.sheets.structure;
  const half = layout.innerWidth / 2;
  const held = machine.ducts.filter(
    (fitted) =>
      fitted.duct.axis === "surge" &&
      Math.abs(fitted.middle.x - bulkhead.x) < (fitted.duct.length + measuredThickness(sheet)) / 2,
  );
  const height =
    bulkhead.height ??
    Math.max(40, ...held.map((fitted) => Math.ceil(fitted.middle.z + saddleRadius(fitted) + SADDLE_WEB)));
  const middles = [-half / 2, 0, half / 2];
  const side = height / 2;
  // The tabs of its ends stand on straight edges.
  const radius = Math.max(0, Math.min(CORNER, (height - TAB_LENGTH) / 2));
  const body = roundedPolygon([
    { x: -half, y: 0 },
    { x: half, y: 0 },
    { x: half, y: height, radius },
    { x: -half, y: height, radius },
  ]);
  const tabbed = addTabsAt(
    { outer: body, openings: [] },
    [
      ...middles.map((x) => ({
        root: { x, y: 0 },
        out: { x: 0, y: -1 },
        length: TAB_LENGTH,
        reach: measuredThickness(sheet),
      })),
      ...[-1, 1].map((end) => ({
        root: { x: end * half, y: side },
        out: { x: end, y: 0 },
        length: TAB_LENGTH,
        reach: measuredThickness(sheet),
      })),
    ],
    relief,
  );
  const notched = notchSaddles(tabbed, held, height);
  const draft: PlateDraft = {
    id: `bulkhead-${bulkhead.id}`,
    name: `Bulkhead ${bulkhead.id}`,
    template: "bulkhead",
    sheet,
    outline: notched.outer,
    outlineWhy: `between the cheeks at x ${bulkhead.x} mm, on tabs in deck and cheeks`,
    cuts: held.filter((fitted) => isRing(fitted, height)).map(ringCut),
    mirrorable: true,
    seats: [bulkheadSeat(bulkhead, parameters)],
  };
  return {
    plates: [draft],
    deckCuts: middles.map((y) => slotCut(bulkhead.x, y, "deck", machine, bulkhead)),
    cheekCuts: [slotCut(bulkhead.x, side, "cheek", machine, bulkhead)],
  };
}

/** Its middle plane stands at the bulkhead's x. */
export function bulkheadSeat(bulkhead: BulkheadParameters, { sheets }: FrameParameters): Seat {
  return { origin: [bulkhead.x - measuredThickness(sheets.structure) / 2, 0, 0], u: [0, 1, 0], v: [0, 0, 1] };
}

function slotCut(x: number, y: number, plate: string, machine: Machine, bulkhead: BulkheadParameters): Cut {
  return {
    contour: tabSlot({ x, y }, TAB_LENGTH, machine.layout.structure.max, machine.relief, "y"),
    kind: "tab-slot",
    name: "bulkhead slot",
    why: `takes a tab of bulkhead ${bulkhead.id} in the ${plate}`,
  };
}

/** A pipe with a full web of plate above it passes through a ring; otherwise it lies in a notch open at the top. */
function isRing(fitted: FittedDuct, height: number): boolean {
  return fitted.middle.z + saddleRadius(fitted) + SADDLE_WEB <= height;
}

function saddleRadius(fitted: FittedDuct): number {
  return fitted.pipe.outsideWorst / 2 + SADDLE_AIR;
}

function ringCut(fitted: FittedDuct): Cut {
  return {
    contour: circle({ x: fitted.middle.y, y: fitted.middle.z }, saddleRadius(fitted)),
    kind: "window",
    name: "pipe ring",
    why: `${fitted.duct.id} passes through: its largest outside ${fitted.pipe.outsideWorst.toFixed(2)} mm and ${SADDLE_AIR} mm air all round`,
  };
}

function notchSaddles(body: Region, held: readonly FittedDuct[], height: number): Region {
  const open = held.filter(
    (fitted) => !isRing(fitted, height) && fitted.middle.z - saddleRadius(fitted) < height,
  );
  if (open.length === 0) return body;
  const notches = open.flatMap((fitted) => {
    const radius = saddleRadius(fitted);
    const { y, z } = fitted.middle;
    const round = { outer: circle({ x: y, y: z }, radius), openings: [] };
    if (z >= height) return [round];
    return [round, { outer: rectangle(y - radius, z, 2 * radius, height - z + radius), openings: [] }];
  });
  const rest = subtract([body], notches);
  const [shape] = rest;
  if (shape === undefined || rest.length !== 1) {
    throw new RangeError(
      `a bulkhead ${height} mm high falls apart into ${rest.length} pieces at its saddles; make it higher`,
    );
  }
  return shape;
}
