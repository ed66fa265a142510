import { circle, rectangle } from "../contour/build.js";
import type { Point } from "../contour/contour.js";
import { fitArcs } from "../contour/fit.js";
import { mirrorX, translate } from "../contour/transform.js";
import type { FittedDuct } from "../fit/rod-runs.js";
import { standingTies } from "../fit/standing-ties.js";
import { tieHoleHeight } from "../fit/tie-height.js";
import type { DuctAxis, FrameParameters } from "../frame/parameters.js";
import { clearanceHole } from "../standards/index.js";
import type { Cut, PlateDraft } from "./compose.js";
import type { Mark } from "./plate.js";
import type { PlateTemplate } from "./template.js";

/** Largest distance between a developed hole's true outline and the arcs drawn for it, mm: a tenth of a pencil line. */
const FIT_ERROR = 0.01;

/** Paper that goes on past the last hole, mm. */
const WRAP_END = 15;

const TEXT_HEIGHT = 5;

/** Rod holes in a pipe are marked and drilled by hand: the coarse series takes up what that is off. */
export const PIPE_HOLES = "coarse";

/** A template wrapped once around a pipe: drill through its openings. Its left edge is the seam, its lower edge the pipe's end. */
export const wraps: PlateTemplate = {
  name: "wrap",
  contribute: ({ ducts, parameters }) => ({
    plates: ducts.filter((fitted) => fitted.sound).map((fitted) => wrapDraft(fitted, parameters)),
  }),
};

function wrapDraft(fitted: FittedDuct, parameters: FrameParameters): PlateDraft {
  const { duct, pipe, middle } = fitted;
  const holes = duct.axis === "heave" ? tieHoles(fitted, parameters) : rodHoles(fitted, parameters);
  const circumference = Math.PI * pipe.outsideMean;
  const height = Math.ceil(holes.reach + WRAP_END);
  return {
    id: `wrap-${duct.id}`,
    name: `Wrap for ${pipe.designation}, ${duct.axis}`,
    template: "wrap",
    sheet: { material: "paper", thickness: 0.1 },
    outline: rectangle(0, 0, circumference, height),
    outlineWhy: `once around the mean outside diameter ${pipe.outsideMean.toFixed(2)} mm; on the largest pipe ${(Math.PI * (pipe.outsideMax - pipe.outsideMean)).toFixed(2)} mm stay open at the seam`,
    cuts: holes.cuts,
    marks: wrapMarks(duct.axis, circumference, height),
    mirrorable: false,
    made: "printed",
    // A wrap lies around its pipe; the seat names the pipe's middle.
    seats: [{ origin: [middle.x, middle.y, middle.z], u: [0, 1, 0], v: [1, 0, 0] }],
  };
}

/**
 * Outline, developed on a cylinder, of a straight hole across it.
 *
 * A hole of radius r, its axis square to the cylinder's and offset by e from it, meets the cylinder of radius R where
 * u = r cos(phi) along the cylinder and w = e + r sin(phi) across it; unrolled, w becomes s = R asin(w / R).
 *
 * @returns the curve around (R asin(e / R), 0): `at(t)` in mm with t from 0 to 1, counter-clockwise
 * @throws RangeError when the hole reaches past the cylinder's side
 */
export function developedHole(
  cylinderRadius: number,
  holeRadius: number,
  offset: number,
): { readonly at: (t: number) => Point; readonly tangent: (t: number) => Point } {
  if (Math.abs(offset) + holeRadius >= cylinderRadius) {
    throw new RangeError(
      `a hole of radius ${holeRadius} mm, ${offset} mm off the axis, does not cross a pipe of radius ${cylinderRadius} mm`,
    );
  }
  const across = (t: number): number => offset + holeRadius * Math.cos(2 * Math.PI * t);
  return {
    at: (t) => ({
      x: cylinderRadius * Math.asin(across(t) / cylinderRadius),
      y: holeRadius * Math.sin(2 * Math.PI * t),
    }),
    tangent: (t) => {
      const turn = 2 * Math.PI * t;
      const slope = 1 / Math.sqrt(1 - (across(t) / cylinderRadius) ** 2);
      return { x: -slope * holeRadius * Math.sin(turn), y: holeRadius * Math.cos(turn) };
    },
  };
}

interface WrapHoles {
  readonly cuts: readonly Cut[];
  /** Height of the highest hole's upper edge. */
  readonly reach: number;
}

/** Each rod enters and leaves the pipe: four holes. The seam lies midway below both rods' lower holes. */
function rodHoles(fitted: FittedDuct, parameters: FrameParameters): WrapHoles {
  const { duct, pipe, fit } = fitted;
  const radius = pipe.outsideMean / 2;
  const hole = clearanceHole(parameters.rods.thread, PIPE_HOLES) / 2;
  const curve = developedHole(radius, hole, fit.rodPitch / 2);
  const right = fitArcs(curve, FIT_ERROR);
  const left = mirrorX(right);
  const quarter = (Math.PI / 2) * radius;
  const heights = duct.carrier.stations.map((station) => duct.length / 2 - station);
  // s = 0 is the underside; the plane of the duct's axis lies a quarter turn on, the upper side half a turn on.
  const outlines = heights.flatMap((height) => [
    { contour: translate(left, quarter, height), which: "lower rod" },
    { contour: translate(right, quarter, height), which: "upper rod" },
    { contour: translate(left, 3 * quarter, height), which: "upper rod" },
    { contour: translate(right, 3 * quarter, height), which: "lower rod" },
  ]);
  return {
    reach: Math.max(...heights) + hole,
    cuts: outlines.map(
      ({ contour, which }): Cut => ({
        contour,
        kind: "rod-hole",
        name: "rod hole",
        why: `${which}, ${parameters.rods.thread}, straight across the pipe (ISO 273 ${PIPE_HOLES})`,
      }),
    ),
  };
}

function tieHoles(fitted: FittedDuct, parameters: FrameParameters): WrapHoles {
  const height = tieHoleHeight(fitted, parameters);
  const ties = standingTies(fitted, parameters);
  const radius = fitted.pipe.outsideMean / 2;
  return {
    reach: height + ties.holeDiameter / 2,
    cuts: ties.holeAngles.map(
      (angle): Cut => ({
        contour: circle({ x: (radius * angle * Math.PI) / 180, y: height }, ties.holeDiameter / 2),
        kind: "tie-slot",
        name: "tie hole",
        why: "a cable tie passes behind the pipe's wall between two of these",
      }),
    ),
  };
}

function wrapMarks(axis: DuctAxis, circumference: number, height: number): readonly Mark[] {
  const line = (x: number): Mark => ({
    kind: "line",
    path: {
      vertices: [
        { x, y: 0, bulge: 0 },
        { x, y: height, bulge: 0 },
      ],
      closed: false,
    },
  });
  const text = (x: number, words: string): Mark => ({
    kind: "text",
    text: words,
    at: { x: x + 1.5, y: 2 },
    height: TEXT_HEIGHT,
    rotation: 0,
  });
  return axis !== "heave"
    ? [
        line(circumference / 2),
        text(circumference / 2, "top"),
        text(0, axis === "surge" ? "front end of pipe here" : "port end of pipe here"),
      ]
    : [line(circumference / 2), text(circumference / 2, "aft"), text(0, "deck end of pipe here")];
}
