import { circle, roundedPolygon } from "../contour/build.js";
import type { Contour } from "../contour/contour.js";
import { translate } from "../contour/transform.js";
import { addTabs } from "../features/tab-joint.js";
import type { Machine, StandingDuct } from "../fit/machine.js";
import { freeSpans } from "../fit/occupied.js";
import type { FittedDuct } from "../fit/rod-runs.js";
import type { FrameParameters } from "../frame/parameters.js";
import type { Cut, PlateDraft } from "./compose.js";
import { measuredThickness } from "./measured-thickness.js";
import type { Seat } from "./plate.js";

/** Material kept around openings and along edges of the deck, mm. Own choice: above 1.5 times a 10 mm sheet. */
const WEB = 16;

/** Horizontal plate between the cheeks, seen from above: x forward, y to port. */
export function deckDraft(machine: Machine, asked: readonly Cut[]): PlateDraft {
  const { parameters, layout, deckTabs, relief, standing, ducts } = machine;
  const sheet = parameters.sheets.structure;
  const half = { x: parameters.deck.length / 2, y: layout.innerWidth / 2 };
  const body = roundedPolygon(
    [
      { x: -half.x, y: -half.y },
      { x: half.x, y: -half.y },
      { x: half.x, y: half.y },
      { x: -half.x, y: half.y },
    ].map((corner) => ({ ...corner, radius: parameters.deck.cornerRadius })),
  );
  const tabbed = addTabs({ outer: body, openings: [] }, deckTabs, half.y, measuredThickness(sheet), relief);
  const needed = [...standing.flatMap((duct) => standingDuctCuts(duct, machine)), ...asked];
  const taken = needed.map((cut) => cut.contour);
  return {
    id: "deck",
    name: "Deck",
    template: "deck",
    sheet,
    outline: tabbed.outer,
    outlineWhy: `${layout.innerWidth} mm between the cheeks, with ${deckTabs.centres.length} tabs a side`,
    cuts: [
      ...needed,
      ...ducts
        .filter((fitted) => fitted.duct.axis === "surge")
        .flatMap((fitted) => flowWindows(fitted, half, taken)),
    ],
    mirrorable: false,
    seats: [deckSeat(parameters)],
  };
}

/** Its upper face is at z = 0. */
export function deckSeat({ sheets }: FrameParameters): Seat {
  return { origin: [0, 0, -measuredThickness(sheets.structure)], u: [1, 0, 0], v: [0, 1, 0] };
}

/** Under a heave duct the deck repeats the carrier: the same windows, the same screw holes, and slots for the ties. */
function standingDuctCuts(standing: StandingDuct, { windowsOf }: Machine): readonly Cut[] {
  const { fitted, ties } = standing;
  const { x, y } = fitted.middle;
  const id = fitted.duct.id;
  const windows = windowsOf(fitted).map(
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

/** Openings under a surge duct, where the deck has room: less weight, and no wall beside the duct's inlet. */
function flowWindows(
  fitted: FittedDuct,
  half: { readonly x: number; readonly y: number },
  taken: readonly Contour[],
): readonly Cut[] {
  const halfWidth = 0.3 * fitted.pipe.outsideMax;
  const low = Math.max(-half.y + WEB, fitted.middle.y - halfWidth);
  const high = Math.min(half.y - WEB, fitted.middle.y + halfWidth);
  if (high - low < 1.5 * WEB) return [];
  const span = {
    from: Math.max(-half.x + WEB, fitted.middle.x - fitted.duct.length / 2),
    to: Math.min(half.x - WEB, fitted.middle.x + fitted.duct.length / 2),
  };
  return freeSpans(span, low, high, taken, WEB)
    .filter(({ from, to }) => to - from >= 2 * WEB)
    .map(({ from, to }): Cut => {
      const corners = [
        { x: from, y: low },
        { x: to, y: low },
        { x: to, y: high },
        { x: from, y: high },
      ];
      return {
        contour: roundedPolygon(corners.map((corner) => ({ ...corner, radius: 10 }))),
        kind: "window",
        name: "window",
        why: `saves weight under ${fitted.duct.id}`,
      };
    });
}
