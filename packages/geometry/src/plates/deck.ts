import { circle, roundedPolygon } from "../contour/build.js";
import type { Contour } from "../contour/contour.js";
import { translate } from "../contour/transform.js";
import { addTabs, type TabRow } from "../features/tab-joint.js";
import type { TiePlaces } from "../features/tie-place.js";
import type { Layout } from "../fit/layout.js";
import type { FittedDuct } from "../fit/rod-runs.js";
import type { FrameParameters } from "../frame/parameters.js";
import { carrierWindows } from "./carrier.js";
import type { Cut } from "./compose.js";

/** Material kept around openings and along edges of the deck, mm. Own choice: above 1.5 times a 10 mm sheet. */
const WEB = 16;

/** A heave duct on the deck with its ties. */
export interface StandingDuct {
  readonly fitted: FittedDuct;
  readonly ties: TiePlaces;
}

export interface DeckShape {
  readonly outline: Contour;
  readonly cuts: readonly Cut[];
}

/** Horizontal plate between the cheeks, seen from above: x forward, y to port. */
export function deckShape(
  parameters: FrameParameters,
  layout: Layout,
  tabs: TabRow,
  relief: number,
  standing: readonly StandingDuct[],
  ducts: readonly FittedDuct[],
): DeckShape {
  const half = { x: parameters.deck.length / 2, y: layout.innerWidth / 2 };
  const body = roundedPolygon(
    [
      { x: -half.x, y: -half.y },
      { x: half.x, y: -half.y },
      { x: half.x, y: half.y },
      { x: -half.x, y: half.y },
    ].map((corner) => ({ ...corner, radius: parameters.deck.cornerRadius })),
  );
  const tabbed = addTabs(
    { outer: body, openings: [] },
    tabs,
    half.y,
    parameters.sheets.structure.thickness,
    relief,
  );
  return {
    outline: tabbed.outer,
    cuts: [
      ...standing.flatMap((duct) => standingDuctCuts(duct, parameters)),
      ...ducts
        .filter((fitted) => fitted.duct.axis === "surge")
        .flatMap((fitted) => flowWindow(fitted, half, standing)),
    ],
  };
}

/** Under a heave duct the deck repeats the carrier: the same windows, the same screw holes, and slots for the ties. */
function standingDuctCuts(standing: StandingDuct, parameters: FrameParameters): readonly Cut[] {
  const { fitted, ties } = standing;
  const { x, y } = fitted.middle;
  const id = fitted.duct.id;
  const windows = carrierWindows(fitted.fit, fitted.duct.carrier, parameters.cutting).map(
    (window): Cut => ({
      contour: translate(window, x, y),
      kind: "window",
      name: "flow window",
      why: `water for ${id} passes here; smaller than the pipe, so that the pipe stands on the deck`,
    }),
  );
  const screws = fitted.fit.pins.map(
    (pin): Cut => ({
      contour: circle({ x: x + pin.x, y: y + pin.y }, fitted.fit.pinHole / 2),
      kind: "screw-hole",
      name: "carrier screw hole",
      why: `the spacer screws of ${id}'s carrier go through the deck`,
    }),
  );
  const driver: Cut = {
    contour: circle({ x, y }, fitted.fit.reliefRadius),
    kind: "relief",
    name: "driver opening",
    why: `the motor screws of ${id} are reached through it`,
  };
  const slots = ties.slots.map(
    (slot): Cut => ({
      contour: translate(slot, x, y),
      kind: "tie-slot",
      name: "tie slot",
      why: `cable tie that holds ${id} on the deck`,
    }),
  );
  return [...windows, ...screws, driver, ...slots];
}

/** An opening under a surge duct, where the deck has room for one: less weight, and no wall beside the duct's inlet. */
function flowWindow(
  fitted: FittedDuct,
  half: { readonly x: number; readonly y: number },
  standing: readonly StandingDuct[],
): readonly Cut[] {
  const halfWidth = 0.3 * fitted.pipe.outsideMax;
  const from = {
    x: Math.max(-half.x + WEB, fitted.middle.x - fitted.duct.length / 2),
    y: Math.max(-half.y + WEB, fitted.middle.y - halfWidth),
  };
  const to = {
    x: Math.min(half.x - WEB, fitted.middle.x + fitted.duct.length / 2),
    y: Math.min(half.y - WEB, fitted.middle.y + halfWidth),
  };
  if (to.x - from.x < 3 * WEB || to.y - from.y < 1.5 * WEB) return [];
  const crowded = standing.some((duct) => {
    const dx = Math.max(from.x - duct.fitted.middle.x, 0, duct.fitted.middle.x - to.x);
    const dy = Math.max(from.y - duct.fitted.middle.y, 0, duct.fitted.middle.y - to.y);
    return Math.hypot(dx, dy) < duct.ties.reach + WEB;
  });
  if (crowded) return [];
  const corners = [
    { x: from.x, y: from.y },
    { x: to.x, y: from.y },
    { x: to.x, y: to.y },
    { x: from.x, y: to.y },
  ];
  return [
    {
      contour: roundedPolygon(corners.map((corner) => ({ ...corner, radius: 10 }))),
      kind: "window",
      name: "window",
      why: `saves weight under ${fitted.duct.id}`,
    },
  ];
}
