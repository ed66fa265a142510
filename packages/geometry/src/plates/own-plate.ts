import type { Finding } from "../checks/finding.js";
import { obround } from "../contour/build.js";
import type { Contour } from "../contour/contour.js";
import { asCircle } from "../contour/segment.js";
import { mirrorX, placePath, placePoint } from "../contour/transform.js";
import { addTabsAt } from "../features/tab-joint.js";
import { thicknessRange } from "../fit/layout.js";
import type { Machine } from "../fit/machine.js";
import { drawOrReport } from "../frame/draw-or-report.js";
import type { OwnPlateParameters } from "../frame/own-plate-parameters.js";
import type { HardwareUse } from "../hardware/uses.js";
import type { Cut, PlateDraft } from "./compose.js";
import { measuredThickness } from "./measured-thickness.js";
import { type Copy, copyAt } from "./own/copy.js";
import { contourKey, halfLap, notched } from "./own/half-lap.js";
import { holeCuts } from "./own/hole-pattern.js";
import { type Asked, mateThickness, slotsAsked } from "./own/mates.js";
import { shapeContour } from "./own/shape.js";
import { type PlacedTab, placeTab } from "./own/tab-mating.js";
import type { Mark } from "./plate.js";
import type { Contribution, PlateTemplate } from "./template.js";

/** The designer's own plates, described by features or drawn elsewhere. */
export const ownPlates: PlateTemplate = {
  name: "own plates",
  contribute: (machine) => {
    const findings: Finding[] = [];
    const drawn = (machine.parameters.plates ?? []).flatMap((plate) => {
      findings.push(...importFindings(plate), ...screwsNotListed(plate));
      return drawOrReport(findings, placeOf(plate), () => drawBody(plate, machine));
    });
    // A plate whose tabs find no mate is left out: drawn, it would only stand in the way of others.
    const joined = drawn.flatMap((body) =>
      drawOrReport(findings, placeOf(body.plate), () => [{ body, asked: slotsAsked(body, drawn, machine) }]),
    );
    const bodies = joined.map(({ body }) => body);
    const asked = joined.flatMap((each) => each.asked);
    const notches = lapNotches(bodies, machine, findings);
    const plates = bodies.flatMap((body) =>
      drawOrReport(findings, placeOf(body.plate), () => draftsOf(body, notches, asked)),
    );
    findings.push(...bodies.flatMap((body) => heldByTabs(body, asked)));
    const slots = distinct(asked);
    return {
      plates,
      deckCuts: cutsFor(slots, "deck"),
      cheekCuts: cutsFor(slots, "cheek"),
      plateCuts: slots
        .filter(({ family }) => family === "bulkhead")
        .map(({ into, cut }) => ({ plate: `bulkhead-${into}`, cut })),
      hardware: bodies.flatMap(({ plate }) => hardwareOf(plate)),
      findings,
    } satisfies Contribution;
  },
};

/** An own plate with its tabs, before other plates' slots and notches. */
export interface OwnBody {
  readonly plate: OwnPlateParameters;
  readonly outline: Contour;
  /** Openings of a drawn plate. */
  readonly openings: readonly Contour[];
  readonly tabs: readonly PlacedTab[];
  readonly copies: readonly Copy[];
  readonly nominal: number;
  readonly thickest: number;
}

function placeOf({ id }: OwnPlateParameters): string {
  return `plates.${id}`;
}

function importFindings({ id, outline }: OwnPlateParameters): readonly Finding[] {
  if (outline.kind !== "drawn") return [];
  return outline.findings.map((finding) => ({
    ...finding,
    place: `plates.${id}, ${outline.file}: ${finding.place}`,
  }));
}

/** A hole is no screw: what goes through it must be listed, or the kit lacks it. */
function screwsNotListed({ id, name, holes, hardware }: OwnPlateParameters): readonly Finding[] {
  const threads = new Set(holes.flatMap(({ hole }) => (hole.kind === "screw" ? [hole.thread] : [])));
  if (threads.size === 0 || hardware.length > 0) return [];
  return [
    {
      id: "plate.screws-not-listed",
      severity: "note",
      place: `plates.${id}`,
      message: `${name} has holes for ${[...threads].join(" and ")} screws and no hardware: unless the screws come with what they hold, list them under plates.${id}.hardware`,
      why: "a kit holds what is listed",
      source: "frame file",
    },
  ];
}

/** Tabs into one plate only go in, and come out, the same way; many sheets float. */
function heldByTabs({ plate, openings }: OwnBody, asked: readonly Asked[]): readonly Finding[] {
  const { id, name, tabs, laps, hardware, slots } = plate;
  const [into, ...others] = new Set(tabs.map((tab) => tab.into));
  const held = others.length + laps.length + hardware.length + slots.length + openings.length > 0;
  const entered = asked.some((one) => one.family === "own" && one.into === id);
  if (into === undefined || held || entered) return [];
  return [
    {
      id: "plate.held-by-tabs",
      severity: "note",
      place: `plates.${id}`,
      message: `${name} is held by its tabs in ${into} alone and can slip out of them: add a screw, slots for a tie, a half-lap, or a tab into another plate`,
      why: "tabs have play, the vehicle shakes, and many sheets float",
      source: "geometry",
    },
  ];
}

function drawBody(plate: OwnPlateParameters, machine: Machine): readonly OwnBody[] {
  const { outline, sheet } = plate;
  const drawn = outline.kind === "drawn" ? outline.region : { outer: shapeContour(outline), openings: [] };
  if (drawn === undefined) return [];
  const tabs = plate.tabs.map((tab) => placeTab(tab, drawn.outer));
  const reaching = tabs.map((tab, index) => ({
    ...tab,
    reach: mateThickness(plate.tabs[index]?.into ?? "", machine),
  }));
  const tabbed =
    tabs.length === 0
      ? drawn.outer
      : addTabsAt({ outer: drawn.outer, openings: [] }, reaching, machine.relief).outer;
  const { nominal, max } = thicknessRange(sheet);
  return [
    {
      plate,
      outline: tabbed,
      openings: drawn.openings,
      tabs,
      copies: plate.seats.map((seat) => copyAt(seat, measuredThickness(sheet))),
      nominal,
      thickest: max,
    },
  ];
}

/** Notches of all half-lap joints by plate id; a joint that both plates name is cut once. */
function lapNotches(
  bodies: readonly OwnBody[],
  machine: Machine,
  findings: Finding[],
): ReadonlyMap<string, readonly Contour[]> {
  const notches = new Map<string, Contour[]>();
  const done = new Set<string>();
  const add = (id: string, more: readonly Contour[]): void => {
    notches.set(id, [...(notches.get(id) ?? []), ...more]);
  };
  for (const body of bodies) {
    for (const lap of body.plate.laps) {
      const pair = [body.plate.id, lap.with].toSorted().join(" ");
      if (done.has(pair)) continue;
      done.add(pair);
      drawOrReport(findings, placeOf(body.plate), () => {
        const other = bodies.find(({ plate }) => plate.id === lap.with);
        if (other === undefined) throw new RangeError(`there is no own plate "${lap.with}" to lap with`);
        const joint = halfLap(crossing(body), crossing(other), machine.relief);
        add(body.plate.id, joint.first);
        add(lap.with, joint.second);
        return [];
      });
    }
  }
  return notches;
}

function crossing(body: OwnBody): Parameters<typeof halfLap>[0] {
  return {
    name: body.plate.id,
    region: { outer: body.outline, openings: body.openings },
    nominal: body.nominal,
    thickest: body.thickest,
    copies: body.copies,
  };
}

/** The plate as one draft, and its mirrored copies as another that is cut with it when it may be turned over. */
function draftsOf(
  body: OwnBody,
  notches: ReadonlyMap<string, readonly Contour[]>,
  asked: readonly Asked[],
): readonly PlateDraft[] {
  const { plate } = body;
  const own = distinct(asked.filter(({ family, into }) => family === "own" && into === plate.id));
  const draft: PlateDraft = {
    id: `own-${plate.id}`,
    name: plate.name,
    template: `own-${plate.id}`,
    sheet: plate.sheet,
    outline: notched(body.outline, notches.get(plate.id) ?? [], plate.id),
    outlineWhy: outlineWhy(plate),
    cuts: [...ownCuts(body), ...own.map(({ cut }) => cut)],
    marks: plate.marks,
    mirrorable: plate.mirrorable,
    seats: body.copies.filter(({ mirrored }) => !mirrored).map(({ seat }) => seat),
    loose: plate.loose,
  };
  const mirrored = body.copies.filter((copy) => copy.mirrored).map(({ seat }) => seat);
  const plain = draft.seats.length + plate.loose > 0 ? [draft] : [];
  return mirrored.length === 0 ? plain : [...plain, { ...mirrorDraft(draft), seats: mirrored, loose: 0 }];
}

function mirrorDraft(draft: PlateDraft): PlateDraft {
  const over = { x: 0, y: 0, rotation: 0, mirrored: true };
  const marks = (draft.marks ?? []).map(
    (mark): Mark =>
      mark.kind === "line"
        ? { kind: "line", path: placePath(mark.path, over) }
        : { ...mark, at: placePoint(mark.at, over), rotation: -mark.rotation, atEnd: mark.atEnd !== true },
  );
  return {
    ...draft,
    id: `${draft.id}-mirrored`,
    name: `${draft.name}, mirrored`,
    outline: mirrorX(draft.outline),
    cuts: draft.cuts.map((cut) => ({ ...cut, contour: mirrorX(cut.contour) })),
    marks,
  };
}

function outlineWhy({ outline, tabs, laps }: OwnPlateParameters): string {
  const joints = [
    ...new Set([
      ...tabs.map(({ into }) => `tabs in ${into}`),
      ...laps.map((lap) => `half-lapped with ${lap.with}`),
    ]),
  ];
  const first = outline.kind === "drawn" ? `as drawn in ${outline.file}` : "as described in the frame file";
  return [first, ...joints].join(", ");
}

function ownCuts({ plate, openings }: OwnBody): readonly Cut[] {
  return [
    ...openings.map((contour): Cut => {
      const round = asCircle(contour) !== undefined;
      return {
        contour,
        kind: round ? "hole" : "window",
        name: round ? "drawn hole" : "drawn opening",
        why: "as drawn",
      };
    }),
    ...plate.windows.map(
      (shape): Cut => ({
        contour: shapeContour(shape),
        kind: "window",
        name: "window",
        why: "as described",
      }),
    ),
    ...plate.holes.flatMap(holeCuts),
    ...plate.slots.map(
      ({ from, to, width, why }): Cut => ({
        contour: obround(from, to, width),
        kind: "slot",
        name: "slot",
        why: why ?? "as described",
      }),
    ),
  ];
}

function cutsFor(slots: readonly Asked[], family: Asked["family"]): readonly Cut[] {
  return slots.filter((slot) => slot.family === family).map(({ cut }) => cut);
}

/** Both cheeks, and all copies of a plate, are cut alike: a slot that two copies ask for at one place is cut once. */
function distinct(slots: readonly Asked[]): readonly Asked[] {
  const seen = new Set<string>();
  return slots.filter(({ family, into, cut }) => {
    const key = `${family} ${into} ${contourKey(cut.contour)}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

function hardwareOf(plate: OwnPlateParameters): readonly HardwareUse[] {
  const copies = plate.seats.length + plate.loose;
  return plate.hardware.map(({ item, kind, count }) => ({
    item,
    kind,
    place: placeOf(plate),
    count: count * copies,
    why: `${count} for each of ${copies} ${plate.name}`,
  }));
}
