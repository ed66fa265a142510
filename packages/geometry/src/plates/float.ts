import type { Finding } from "../checks/finding.js";
import { numberText } from "../checks/number-text.js";
import { subtract } from "../contour/boolean.js";
import { circle, rectangle, roundedPolygon } from "../contour/build.js";
import type { Point, Region } from "../contour/contour.js";
import { locate, locateInRegion } from "../contour/locate.js";
import { contourCentroid, regionArea } from "../contour/measure.js";
import { nearestOnSegment } from "../contour/nearest.js";
import { opened } from "../contour/opened.js";
import { segments } from "../contour/segment.js";
import { distanceBetween } from "../contour/vector.js";
import { thicknessRange } from "../fit/layout.js";
import type { Machine } from "../fit/machine.js";
import type { FittedDuct } from "../fit/rod-runs.js";
import type { AxisPart } from "../frame/frame.js";
import type { FloatParameters } from "../frame/parameters.js";
import { endNut, plainNutItem } from "../hardware/end-nut.js";
import { rodSolid, solidMass } from "../hardware/mass.js";
import { THREADS_BEYOND_NUT } from "../hardware/screw-length.js";
import { clearanceHole, hexNut, largeWasher, plainWasher, thread } from "../standards/index.js";
import type { Cut, PlateDraft } from "./compose.js";
import { measuredThickness } from "./measured-thickness.js";
import type { Contribution, PlateTemplate } from "./template.js";

/** Air between foam and pipe, mm: foam swells and cuts rough. Own choice. */
const PIPE_AIR = 3;

/** Foam thinner than this tears, mm. Own choice. */
const THINNEST = 12;

/** Pieces of a layer smaller than this are thrown away, mm2. Own choice. */
const SMALLEST_PIECE = 400;

/** Foam blocks above the deck, cut as layers that leave room for ducts and rods, threaded on vertical rods of their own. */
export const floats: PlateTemplate = {
  name: "float",
  contribute: (machine) => {
    const parts = (machine.parameters.floats ?? []).map((float) => buildFloat(float, machine));
    return {
      plates: parts.flatMap((part) => part.plates ?? []),
      deckCuts: parts.flatMap((part) => part.deckCuts ?? []),
      hardware: parts.flatMap((part) => part.hardware ?? []),
      lengths: parts.flatMap((part) => part.lengths ?? []),
      axes: parts.flatMap((part) => part.axes ?? []),
      findings: parts.flatMap((part) => part.findings ?? []),
    };
  },
};

function buildFloat(float: FloatParameters, machine: Machine): Contribution {
  const sheet = machine.parameters.sheets.float;
  if (sheet === undefined) {
    throw new RangeError(`float ${float.id} needs its foam: give sheets.float with material and thickness`);
  }
  const plates = Array.from({ length: float.layers }, (_, index) => index).flatMap((layer) =>
    layerDrafts(float, layer, machine),
  );
  if (plates.length === 0) throw new RangeError(`float ${float.id}: the ducts leave nothing of its layers`);
  return { plates, ...rodContribution(float, plates, machine) };
}

/** One layer, as the pieces that the ducts leave of it. */
function layerDrafts(float: FloatParameters, layer: number, machine: Machine): readonly PlateDraft[] {
  const sheet = machine.parameters.sheets.float;
  if (sheet === undefined) return [];
  const low = float.bottom + layer * measuredThickness(sheet);
  const block = {
    outer: roundedPolygon(
      [
        { x: float.from.x, y: float.from.y },
        { x: float.to.x, y: float.from.y },
        { x: float.to.x, y: float.to.y },
        { x: float.from.x, y: float.to.y },
      ].map((corner) => ({ ...corner, radius: 10 })),
    ),
    openings: [],
  };
  const high = low + measuredThickness(sheet);
  const taken = [
    ...machine.ducts.flatMap((fitted) => section(fitted, low, high)),
    ...rodChannels(machine, low, high),
  ];
  const pieces = subtract([block], taken)
    .flatMap(withoutSlivers)
    .filter((piece) => regionArea(piece) >= SMALLEST_PIECE);
  const hole = clearanceHole(machine.parameters.rods.thread, "coarse") / 2;
  return pieces.map((piece, index): PlateDraft => {
    const rods = float.rods.filter((rod) => locateInRegion(piece, rod) === "inside");
    const cuts: Cut[] = [
      ...piece.openings.map(
        (contour): Cut => ({ contour, kind: "window", name: "duct opening", why: "a duct passes through" }),
      ),
      ...rods.map(
        (rod): Cut => ({
          contour: circle(rod, hole),
          kind: "rod-hole",
          name: "float rod hole",
          why: `${machine.parameters.rods.thread} rod that holds the layers down (ISO 273 coarse)`,
        }),
      ),
    ];
    const letter = pieces.length === 1 ? "" : String.fromCharCode(97 + index);
    return {
      id: `float-${float.id}-${layer + 1}${letter}`,
      name: `Float ${float.id}, layer ${layer + 1}${letter}`,
      template: `float-${float.id}`,
      sheet,
      outline: piece.outer,
      outlineWhy: `foam from ${numberText(low)} to ${numberText(high)} mm above the deck, ${PIPE_AIR} mm clear of the ducts`,
      cuts,
      mirrorable: true,
      seats: [{ origin: [0, 0, low], u: [1, 0, 0], v: [0, 1, 0] }],
    };
  });
}

/** How far a rod stands outside the foam, and where to move it so that its whole hole lies in foam. */
function rodOutside(
  rod: Point,
  plates: readonly PlateDraft[],
  hole: number,
): Pick<Finding, "message" | "measured" | "limit"> {
  const [near] = plates
    .flatMap(({ outline, cuts }) => [
      outline,
      ...cuts.filter(({ kind }) => kind === "window").map(({ contour }) => contour),
    ])
    .flatMap((contour) => segments(contour).map((piece) => nearestOnSegment(piece, rod)))
    .map((point) => ({ point, away: distanceBetween(point, rod) }))
    .sort((a, b) => a.away - b.away);
  const { point, away } = near ?? { point: rod, away: 0 };
  return {
    message: `the rod at (${rod.x}, ${rod.y}) passes through no foam: the nearest is ${numberText(away)} mm off, at (${numberText(point.x)}, ${numberText(point.y)}); move the rod there and ${numberText(hole)} mm further, by ${numberText(away + hole)} mm or more`,
    measured: -away,
    limit: hole,
  };
}

/** A place for a rod in a piece of foam, as far as its middle is one. */
function placeInside({ outline, cuts }: PlateDraft): string {
  const middle = contourCentroid(outline);
  const openings = cuts.map(({ contour }) => contour);
  const isFoam = locateInRegion({ outer: outline, openings }, middle) === "inside";
  return isFoam ? `, for example at (${Math.round(middle.x)}, ${Math.round(middle.y)})` : "";
}

/** Channels for the frame's rods, which run across the whole vehicle. */
function rodChannels({ parameters, layout }: Machine, low: number, high: number): readonly Region[] {
  const half = thread(parameters.rods.thread).major / 2 + PIPE_AIR;
  const reach = layout.innerWidth;
  return layout.runs.flatMap((run) =>
    run.z
      .filter((z) => z + half > low && z - half < high)
      .map(() => ({ outer: rectangle(run.x - half, -reach, 2 * half, 2 * reach), openings: [] })),
  );
}

/** Takes off what is too thin to hold: shrinks the piece by half the least width and grows it back. */
function withoutSlivers(piece: Region): readonly Region[] {
  return opened(piece, THINNEST / 2);
}

/** Plan of the room a duct needs between two heights. */
function section(fitted: FittedDuct, low: number, high: number): readonly Region[] {
  const { duct, middle } = fitted;
  const radius = fitted.pipe.outsideWorst / 2 + PIPE_AIR;
  const half = duct.length / 2 + PIPE_AIR;
  if (duct.axis === "heave") {
    if (high <= middle.z - half || low >= middle.z + half) return [];
    return [{ outer: circle(middle, radius), openings: [] }];
  }
  const off = Math.max(low - middle.z, 0, middle.z - high);
  if (off >= radius) return [];
  const wide = Math.sqrt(radius ** 2 - off ** 2);
  const [dx, dy] = duct.axis === "surge" ? [half, wide] : [wide, half];
  return [{ outer: rectangle(middle.x - dx, middle.y - dy, 2 * dx, 2 * dy), openings: [] }];
}

function rodContribution(
  float: FloatParameters,
  plates: readonly PlateDraft[],
  machine: Machine,
): Contribution {
  const { parameters, layout } = machine;
  const { thread: rod } = parameters.rods;
  const foam = parameters.sheets.float;
  const top = float.bottom + float.layers * (foam === undefined ? 0 : thicknessRange(foam).max);
  const nut = hexNut(rod).heightMax;
  const end = endNut(rod, parameters.nuts);
  const washers = plainWasher(rod).thicknessMax + largeWasher(rod).thicknessMax;
  // Foam that lies on the deck is held from outside; else it stands on nuts, and the deck is held by a pair.
  const lies = float.bottom === 0;
  const stack = 2 * nut + washers;
  const beyond = end.heightMax + THREADS_BEYOND_NUT * thread(rod).pitch;
  const length = Math.ceil(layout.structure.max + top + 2 * beyond + washers);
  const place = `floats.${float.id}`;
  const count = float.rods.length;
  const loose = plates.filter((plate) => plate.cuts.every((cut) => cut.name !== "float rod hole"));
  const missed = float.rods.filter(
    (one) =>
      !plates.some((plate) =>
        plate.cuts.some((cut) => cut.name === "float rod hole" && locate(cut.contour, one) === "inside"),
      ),
  );
  return {
    deckCuts: float.rods.map(
      (one): Cut => ({
        contour: circle(one, clearanceHole(rod, "medium") / 2),
        kind: "rod-hole",
        name: "float rod hole",
        why: `${rod} rod of float ${float.id}`,
      }),
    ),
    lengths: [
      {
        item: `rod DIN 976 ${rod}`,
        kind: "rod",
        length,
        place,
        count,
        mass: solidMass(rodSolid(rod, length)),
        why: `from under the deck through ${float.layers} layers up to ${top} mm, with nuts and two threads at each end`,
      },
    ],
    hardware: [
      { item: end.item, kind: "nut", place, count: 2 * count, why: "under the deck and over the foam" },
      ...(lies
        ? []
        : [
            {
              item: plainNutItem(rod),
              kind: "nut",
              place,
              count: 2 * count,
              why: "on the deck and under the foam",
            } as const,
          ]),
      {
        item: `washer ISO 7089 ${rod}`,
        kind: "washer",
        place,
        count: (lies ? 1 : 2) * count,
        why: lies ? "under the deck" : "at the deck",
      },
      {
        item: `washer ISO 7093 ${rod}`,
        kind: "washer",
        place,
        count: (lies ? 1 : 2) * count,
        why: `large ones, ${lies ? "over" : "under and over"} the foam, which is soft`,
      },
    ],
    axes: float.rods.map(
      (one, index): AxisPart => ({
        kind: "rod",
        place: `${place}.rod-${index + 1}`,
        from: [one.x, one.y, top + beyond - length],
        to: [one.x, one.y, top + beyond],
        diameter: thread(rod).major,
      }),
    ),
    findings: [
      ...(lies || float.bottom >= stack
        ? []
        : [
            {
              id: "fit.float-stands",
              severity: "error",
              place,
              message: `${numberText(float.bottom)} mm between deck and foam leave no room for the nut and washer on the deck and those under the foam, which need ${numberText(stack)} mm: set bottom to at least ${Math.ceil(stack)}, or to 0 for foam that lies on the deck`,
              measured: float.bottom,
              limit: stack,
              why: "the nuts hold the rods to the deck and the foam at its height",
              source: "ISO 4032, ISO 7089, ISO 7093-1",
            } as const,
          ]),
      ...missed.map(
        (one): Finding => ({
          id: "fit.float-rod",
          severity: "error",
          place,
          ...rodOutside(one, plates, clearanceHole(rod, "coarse") / 2),
          why: "the rods hold the layers on the deck",
          source: "geometry",
        }),
      ),
      ...loose.map(
        (plate): Finding => ({
          id: "fit.float-loose",
          severity: "error",
          place: plate.id,
          message: `0 rods pass through this piece of foam and 1 is needed; add one inside it${placeInside(plate)}, or move the float off the ducts and rods that cut it`,
          measured: 0,
          limit: 1,
          unit: "1",
          why: "loose foam floats away",
          source: "geometry",
        }),
      ),
    ],
  };
}
