import { subtract, unite } from "../contour/boolean.js";
import { circle, rectangle } from "../contour/build.js";
import type { Contour, Region } from "../contour/contour.js";
import { regionArea } from "../contour/measure.js";
import { rotate } from "../contour/transform.js";
import { cutterReach } from "../features/cutter-reach.js";
import { BOSS_WALL, type CarrierFit } from "../fit/carrier-fit.js";
import type { FittedDuct } from "../fit/rod-runs.js";
import type {
  CarrierParameters,
  CuttingParameters,
  FrameParameters,
  MotorParameters,
} from "../frame/parameters.js";
import { rememberedBy } from "../remember.js";
import type { Cut, PlateDraft } from "./compose.js";
import { measuredThickness } from "./measured-thickness.js";
import type { Seat } from "./plate.js";
import type { PlateTemplate } from "./template.js";

/** Smallest window worth cutting, mm2. */
const SMALLEST_WINDOW = 40;

export type CarrierSide = "front" | "back";

/** Front and back plate of every carrier. */
export const carriers: PlateTemplate = {
  name: "carrier",
  contribute: ({ ducts, parameters, windowsOf }) => ({
    plates: ducts
      .filter((fitted) => fitted.sound)
      .flatMap((fitted) => [
        carrierDraft("front", fitted, parameters, windowsOf(fitted)),
        carrierDraft("back", fitted, parameters, windowsOf(fitted)),
      ]),
  }),
};

function carrierDraft(
  side: CarrierSide,
  fitted: FittedDuct,
  parameters: FrameParameters,
  windows: readonly Contour[],
): PlateDraft {
  const { duct, fit, pipe } = fitted;
  const motor = parameters.motors[duct.motor];
  if (motor === undefined) throw new RangeError(`no motor "${duct.motor}"`);
  const shape = carrierShape(side, fit, duct.carrier, motor, windows);
  return {
    id: `carrier-${side}-${duct.id}`,
    name: `Carrier, ${side}`,
    template: `carrier-${side}`,
    sheet: parameters.sheets.carrier,
    outline: shape.outline,
    outlineWhy: `enters the smallest bore of ${pipe.designation} (${pipe.boreMin.toFixed(2)} mm) with ${duct.carrier.fitGap} mm air all round`,
    cuts: shape.cuts,
    mirrorable: true,
    seats: carrierSeats(side, fitted, parameters),
  };
}

/** Surge and sway: the plate's x points up, its normal along the duct. Heave: it lies on the deck. */
function carrierSeats(side: CarrierSide, fitted: FittedDuct, parameters: FrameParameters): readonly Seat[] {
  const { middle, fit } = fitted;
  const thickness = measuredThickness(parameters.sheets.carrier);
  if (fitted.duct.axis === "heave") {
    const z = side === "front" ? thickness + fit.gap : 0;
    return [{ origin: [middle.x, middle.y, z], u: [1, 0, 0], v: [0, 1, 0] }];
  }
  return fitted.stations.map((station): Seat => {
    const along = side === "front" ? station + fit.gap / 2 : station - fit.gap / 2 - thickness;
    return fitted.duct.axis === "surge"
      ? { origin: [along, middle.y, middle.z], u: [0, 0, 1], v: [0, -1, 0] }
      : { origin: [middle.x, along, middle.z], u: [0, 0, 1], v: [1, 0, 0] };
  });
}

/** Outline and openings of a carrier plate, centred on the duct's axis; x across the rods, y along them. */
export interface CarrierShape {
  readonly outline: Contour;
  readonly cuts: readonly Cut[];
}

/**
 * A carrier plate: rim, hub, spokes and ears that carry the spacer screws; what is left is window.
 * The front plate holds the motor, the back plate lets its screws be driven.
 */
export function carrierShape(
  side: CarrierSide,
  fit: CarrierFit,
  carrier: CarrierParameters,
  motor: MotorParameters,
  windows: readonly Contour[],
): CarrierShape {
  const windowCuts = windows.map(
    (contour): Cut => ({
      contour,
      kind: "window",
      name: "flow window",
      why: "lets the water through to the propeller",
    }),
  );
  const pins = fit.pins.map(
    (centre, index): Cut => ({
      contour: circle(centre, fit.pinHole / 2),
      kind: "screw-hole",
      name: "spacer screw hole",
      why: `${carrier.spacerScrew} screw with a spacer ${index < 2 ? "outside" : "inside"} the rod, so that it cannot walk`,
    }),
  );
  return {
    outline: circle({ x: 0, y: 0 }, fit.rimRadius),
    cuts: [...windowCuts, ...pins, ...(side === "front" ? frontCuts(fit, motor) : backCuts(fit))],
  };
}

/** Free area of a carrier's windows over the area of the smallest bore, 0..1: what the propeller draws its water through. */
export function openFraction(windows: readonly Contour[], boreMin: number): number {
  const area = windows.reduce((sum, window) => sum + regionArea({ outer: window, openings: [] }), 0);
  return area / ((Math.PI * boreMin ** 2) / 4);
}

/**
 * The windows alone: a deck under a heave duct has the same ones. Counter-clockwise contours. Drawn once for carriers that are
 * alike: they cost most of a derivation.
 */
export const carrierWindows: (
  fit: CarrierFit,
  carrier: CarrierParameters,
  cutting: CuttingParameters,
) => readonly Contour[] = rememberedBy(
  200,
  ({ gap, gapNeeded, spacerLength, spacerWashers, ...shape }, carrier, { kerf }) =>
    JSON.stringify([shape, carrier, kerf]),
  drawnWindows,
);

function drawnWindows(
  fit: CarrierFit,
  carrier: CarrierParameters,
  cutting: CuttingParameters,
): readonly Contour[] {
  const origin = { x: 0, y: 0 };
  const boss = fit.pinHole / 2 + BOSS_WALL;
  const hub = Math.max(fit.hubRadius, fit.reliefRadius + BOSS_WALL);
  const width = carrier.spokeWidth ?? 2 * boss;
  const spoke = rectangle(0, -width / 2, fit.rimRadius, width);
  const solid: readonly Region[] = unite(
    [
      circle(origin, hub),
      ...spokeAngles(fit, carrier.spokes).map((angle) => rotate(spoke, angle)),
      ...fit.pins.map((pin) => circle(pin, boss)),
    ].map((outer) => ({ outer, openings: [] })),
  );
  const bore: Region = { outer: circle(origin, fit.windowRadius), openings: [] };
  // A window's corner is rounded to what the cutter leaves anyway; half a millimetre more keeps the tool moving.
  const corner = cutting.kerf / 2 + 0.5;
  return subtract([bore], solid).flatMap((window) => cutterReach(window.outer, corner, SMALLEST_WINDOW));
}

/**
 * Directions of the spokes, degrees: evenly spread when that gives every spacer a spoke. Otherwise two through the outer
 * and, off their axis, two through the inner spacers, then the widest gaps halved until there are enough.
 */
function spokeAngles(fit: CarrierFit, wanted: number): readonly number[] {
  const inner = fit.pins[2];
  const onAxis = inner === undefined || inner.y === 0;
  if (onAxis && wanted % 2 === 0) {
    return Array.from({ length: wanted }, (_, index) => (360 * index) / wanted);
  }
  const towardsInner = onAxis ? [] : [(Math.atan2(inner.y, inner.x) * 180) / Math.PI];
  const angles = [0, ...towardsInner, 180, ...towardsInner.map((angle) => 180 + angle)];
  while (angles.length < wanted) {
    const gaps = angles.map((angle, index) => (angles[index + 1] ?? 360) - angle);
    const widest = gaps.indexOf(Math.max(...gaps));
    angles.splice(widest + 1, 0, (angles[widest] ?? 0) + (gaps[widest] ?? 0) / 2);
  }
  return angles;
}

function frontCuts(fit: CarrierFit, motor: MotorParameters): readonly Cut[] {
  const holes = fit.motorCentres.map(
    (centre): Cut => ({
      contour: circle(centre, fit.motorHole / 2),
      kind: "screw-hole",
      name: "motor screw hole",
      why: `${motor.screw} screw into the motor (ISO 273 medium)`,
    }),
  );
  if (motor.shaftHole === 0) return holes;
  return [
    ...holes,
    {
      contour: circle({ x: 0, y: 0 }, motor.shaftHole / 2),
      kind: "relief",
      name: "shaft hole",
      why: "room for the end of the shaft and its clip",
    },
  ];
}

function backCuts(fit: CarrierFit): readonly Cut[] {
  return [
    {
      contour: circle({ x: 0, y: 0 }, fit.reliefRadius),
      kind: "relief",
      name: "driver opening",
      why: "the heads of the motor screws are reached through it",
    },
  ];
}
