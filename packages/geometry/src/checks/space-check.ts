import { type Layout, thicknessRange } from "../fit/layout.js";
import type { FittedDuct } from "../fit/rod-runs.js";
import type { FrameParameters } from "../frame/parameters.js";
import { throughScrew } from "../hardware/screw-length.js";
import { SHORTEST_WITH_GRIP } from "../plates/cheek.js";
import { measuredThickness } from "../plates/measured-thickness.js";
import { capScrew, hexNut, plainWasher, thread } from "../standards/index.js";
import { PROPELLER_AIR } from "./carrier-fit-check.js";
import type { Finding } from "./finding.js";
import { numberText } from "./number-text.js";

/** Air between two pipes, and between a rod and a pipe it does not belong to, mm. Own choice. */
const PIPE_AIR = 2;

/** What a pipe may seem to hang above the deck it lies on, mm: a z given for its nominal diameter. Own choice. */
const RESTS = 1;

/** Do ducts, rods, deck and cheeks leave each other room in the vehicle? */
export function checkSpace(
  parameters: FrameParameters,
  layout: Layout,
  ducts: readonly FittedDuct[],
): readonly Finding[] {
  return [
    ...ducts.flatMap((a, index) => ducts.slice(index + 1).flatMap((b) => pipesApart(a, b))),
    ...ducts.flatMap((fitted) => clearOfDeck(fitted, parameters)),
    ...ducts.flatMap((fitted) => carriersApart(fitted, parameters)),
    ...ducts.flatMap((fitted) => rodsMissPipe(fitted, layout, parameters)),
    ...rodsInCheek(layout, parameters),
    ...widthFor(layout),
    ...tabsFit(parameters),
    ...gripFits(parameters),
  ];
}

interface Box {
  readonly min: readonly number[];
  readonly max: readonly number[];
}

function pipeBox(fitted: FittedDuct): Box {
  const { x, y, z } = fitted.middle;
  const radius = fitted.pipe.outsideWorst / 2;
  const half = fitted.duct.length / 2;
  const reach = [0, 1, 2].map((axis) => (axis === alongAxis(fitted) ? half : radius));
  const middle = [x, y, z];
  return {
    min: middle.map((value, axis) => value - (reach[axis] ?? 0)),
    max: middle.map((value, axis) => value + (reach[axis] ?? 0)),
  };
}

/**
 * Distance of two pipes. Two of the same axis overlap lengthwise or not and are then two circles; pipes at right angles
 * are compared by the distance of one's axis line to the other's, as long as both are within each other's length.
 */
function pipesApart(a: FittedDuct, b: FittedDuct): readonly Finding[] {
  const boxA = pipeBox(a);
  const boxB = pipeBox(b);
  const gaps = [0, 1, 2].map((axis) =>
    Math.max((boxB.min[axis] ?? 0) - (boxA.max[axis] ?? 0), (boxA.min[axis] ?? 0) - (boxB.max[axis] ?? 0)),
  );
  const radii = (a.pipe.outsideWorst + b.pipe.outsideWorst) / 2;
  let distance: number;
  if (a.duct.axis === b.duct.axis) {
    const along = alongAxis(a);
    const across = [0, 1, 2].filter((axis) => axis !== along);
    const between = Math.hypot(
      ...across.map((axis) => component(a.middle, axis) - component(b.middle, axis)),
    );
    distance = Math.max(gaps[along] ?? 0, between - radii);
  } else {
    // Two axes at right angles are nearest across the third direction; the boxes tell whether the pipes reach each other.
    const third = 3 - alongAxis(a) - alongAxis(b);
    distance = Math.max(Math.abs(component(a.middle, third) - component(b.middle, third)) - radii, ...gaps);
  }
  if (distance >= PIPE_AIR) return [];
  return [
    {
      id: "fit.ducts-apart",
      severity: "error",
      place: `${a.duct.id} and ${b.duct.id}`,
      message:
        distance < 0
          ? `the pipes run into each other by ${numberText(-distance)} mm; move one of them by at least ${numberText(PIPE_AIR - distance)} mm`
          : `the pipes are ${numberText(distance)} mm apart, at least ${PIPE_AIR} mm are needed; move one of them by ${numberText(PIPE_AIR - distance)} mm`,
      measured: distance,
      limit: PIPE_AIR,
      why: "pipes must not touch",
      source: "geometry",
    },
  ];
}

function clearOfDeck(fitted: FittedDuct, parameters: FrameParameters): readonly Finding[] {
  const { duct, middle, pipe, fit } = fitted;
  if (duct.axis === "heave") {
    const foot = middle.z - duct.length / 2;
    if (Math.abs(foot) < 1e-6) return [];
    return [
      {
        id: "fit.duct-stands-on-deck",
        severity: "error",
        place: duct.id,
        message: `the pipe's lower end is ${numberText(foot)} mm above the deck; leave z out of \`at\`, a heave duct stands on the deck`,
        measured: foot,
        limit: 0,
        why: "its carrier is screwed to the deck and its ties hold it down",
        source: "geometry",
      },
    ];
  }
  const nut = hexNut(parameters.rods.thread).cornersMax / 2;
  if (duct.axis === "sway" && middle.z > pipe.outsideWorst / 2 + RESTS) {
    const gap = middle.z - pipe.outsideWorst / 2;
    return [
      {
        id: "fit.duct-lies-on-deck",
        severity: "error",
        place: duct.id,
        message: `the pipe hangs ${numberText(gap)} mm above the deck; leave z out of \`at\`, a sway duct lies on the deck`,
        measured: gap,
        limit: RESTS,
        why: "its ties go around pipe and deck, and are as long as that asks",
        source: "geometry",
      },
    ];
  }
  // A sway duct lies on the deck; its short rods pass above it all the same.
  const least = Math.max(pipe.outsideWorst / 2, fit.rodPitch / 2 + nut);
  if (middle.z >= least) return [];
  return [
    {
      id: "fit.duct-clear-of-deck",
      severity: "error",
      place: duct.id,
      message: `the pipe's axis is ${numberText(middle.z)} mm above the deck, it needs ${numberText(least)} mm; raise it by ${numberText(least - middle.z)} mm or leave z out of \`at\``,
      measured: middle.z,
      limit: least,
      why: "pipe, rods and nuts pass above the deck",
      source: pipe.source,
    },
  ];
}

function carriersApart(fitted: FittedDuct, parameters: FrameParameters): readonly Finding[] {
  const motor = parameters.motors[fitted.duct.motor];
  if (motor === undefined) return [];
  const { propeller } = fitted.duct;
  const plates = 2 * measuredThickness(parameters.sheets.carrier) + fitted.fit.gap;
  const needed =
    plates +
    motor.body.length +
    (propeller === undefined ? 0 : PROPELLER_AIR + propeller.height) +
    screwsBehind(fitted, parameters) +
    PIPE_AIR;
  const sorted = [...fitted.stations].sort((a, b) => a - b);
  return sorted.slice(1).flatMap((station, index): Finding[] => {
    const apart = station - (sorted[index] ?? 0);
    if (apart >= needed) return [];
    return [
      {
        id: "fit.carriers-apart",
        severity: "error",
        place: `${fitted.duct.id}.carrier`,
        message: `two carriers of one duct stand ${numberText(apart)} mm apart; plates, motor, propeller and the screws behind the next one need ${numberText(needed)} mm: change carrier.stations`,
        measured: apart,
        limit: needed,
        why: "each carrier holds a motor in front of it",
        source: "geometry",
      },
    ];
  });
}

/** How far the spacer screws stand out behind a carrier's back plate, whichever way round they are put in, mm. */
function screwsBehind({ duct, fit }: FittedDuct, { sheets, nuts }: FrameParameters): number {
  const screw = duct.carrier.spacerScrew;
  const washer = plainWasher(screw).thicknessMax;
  const choice = throughScrew(screw, 2 * thicknessRange(sheets.carrier).max + fit.gap, nuts);
  const end = choice.ok ? choice.length - 2 * measuredThickness(sheets.carrier) - fit.gap : 0;
  return Math.max(end, washer + capScrew(screw).headHeightMax);
}

function rodsMissPipe(fitted: FittedDuct, layout: Layout, parameters: FrameParameters): readonly Finding[] {
  const rodRadius = thread(parameters.rods.thread).major / 2;
  const { duct, middle, pipe } = fitted;
  const own = layout.runs.filter((run) => run.ducts.includes(fitted));
  return layout.runs
    .filter((run) => !own.includes(run))
    .flatMap((run) =>
      run.z.flatMap((z): Finding[] => {
        // Rods run along y across the whole vehicle. Seen along them a surge pipe is a lying band, a heave pipe a standing
        // one, and a sway pipe a circle.
        const outside = pipe.outsideWorst / 2;
        const half = duct.length / 2;
        const dx = Math.abs(run.x - middle.x);
        const dz = Math.abs(z - middle.z);
        const distance =
          duct.axis === "surge"
            ? Math.max(dx - half, dz - outside)
            : duct.axis === "heave"
              ? Math.max(dz - half, dx - outside)
              : Math.hypot(dx, dz) - outside;
        if (distance - rodRadius >= PIPE_AIR) return [];
        return [
          {
            id: "fit.rod-clear-of-pipe",
            severity: "error",
            place: duct.id,
            message: `the rod of ${run.ducts.map((other) => other.duct.id).join(" and ")} at x ${numberText(run.x)}, z ${numberText(z)} passes ${numberText(distance - rodRadius)} mm from this pipe; ${PIPE_AIR} mm are needed: move the duct or its carrier.stations by at least ${numberText(PIPE_AIR - distance + rodRadius)} mm`,
            measured: distance - rodRadius,
            limit: PIPE_AIR,
            why: "a rod may only cross the ducts it locks",
            source: "geometry",
          },
        ];
      }),
    );
}

function rodsInCheek(layout: Layout, parameters: FrameParameters): readonly Finding[] {
  const half = parameters.deck.length / 2;
  const least = 2 * thread(parameters.rods.thread).major;
  return layout.runs.flatMap((run): Finding[] => {
    const edge = half - Math.abs(run.x);
    if (edge >= least) return [];
    return [
      {
        id: "fit.rod-in-cheek",
        severity: "error",
        place: run.ducts.map((fitted) => fitted.duct.id).join(" and "),
        message: `the rods stand ${numberText(edge)} mm from the cheek's end, ${numberText(least)} mm are needed; deck.length must be at least ${numberText(2 * (Math.abs(run.x) + least))} mm`,
        measured: edge,
        limit: least,
        why: "a hole needs two diameters of plate around it",
        source: "edge distance in plastics: common practice",
      },
    ];
  });
}

function widthFor(layout: Layout): readonly Finding[] {
  if (layout.innerWidth >= layout.leastWidth) return [];
  return [
    {
      id: "fit.cheek-room",
      severity: "error",
      place: "deck.width",
      message: `${numberText(layout.innerWidth)} mm between the cheeks leave no room for the nuts; at least ${numberText(layout.leastWidth)} mm are needed, or leave deck.width out`,
      measured: layout.innerWidth,
      limit: layout.leastWidth,
      why: "each rod has a nut at the pipe and a nut inside the cheek",
      source: "ISO 4032, ISO 7089",
    },
  ];
}

function tabsFit(parameters: FrameParameters): readonly Finding[] {
  const { length, tabsPerSide, tabLength, cornerRadius } = parameters.deck;
  const step = length / tabsPerSide;
  const end = step / 2 - tabLength / 2 - cornerRadius;
  if (step - tabLength >= tabLength / 2 && end >= 3) return [];
  return [
    {
      id: "fit.tabs-on-deck",
      severity: "error",
      place: "deck.tabsPerSide",
      message: `${tabsPerSide} tabs of ${numberText(tabLength)} mm do not fit on a deck of ${numberText(length)} mm with corner radius ${numberText(cornerRadius)} mm; use fewer or shorter tabs`,
      measured: step - tabLength,
      limit: tabLength / 2,
      why: "the cheek between two slots must be at least half as long as a tab, and tabs end before the corners",
      source: "common practice",
    },
  ];
}

function gripFits({ cheek, deck }: FrameParameters): readonly Finding[] {
  if (!cheek.handle || deck.length >= SHORTEST_WITH_GRIP) return [];
  return [
    {
      id: "fit.grip-on-cheek",
      severity: "warning",
      place: "cheek.handle",
      message: `no grip is cut: the cheek is ${numberText(deck.length)} mm long and a grip needs ${numberText(SHORTEST_WITH_GRIP)} mm; lengthen the deck, or set cheek.handle to false and lift by something else`,
      measured: deck.length,
      limit: SHORTEST_WITH_GRIP,
      why: "without grips people lift by ducts, rods or cables, which give way",
      source:
        "a gloved hand, 112 x 34 mm with 16 mm of plate around it and the cheek's corners: common practice",
    },
  ];
}

/** Index of the coordinate along a duct's axis. */
function alongAxis(fitted: FittedDuct): number {
  return { surge: 0, sway: 1, heave: 2 }[fitted.duct.axis];
}

function component(point: { x: number; y: number; z: number }, axis: number): number {
  return axis === 0 ? point.x : axis === 1 ? point.y : point.z;
}
