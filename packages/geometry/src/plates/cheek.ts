import { subtract } from "../contour/boolean.js";
import { circle, obround, roundedPolygon } from "../contour/build.js";
import type { Contour, Region } from "../contour/contour.js";
import { addTabsAt, tabSlot } from "../features/tab-joint.js";
import type { Layout } from "../fit/layout.js";
import type { Machine } from "../fit/machine.js";
import { freeSpans, type Span } from "../fit/occupied.js";
import type { FrameParameters } from "../frame/parameters.js";
import { clearanceHole } from "../standards/index.js";
import type { Cut, PlateDraft } from "./compose.js";
import { measuredThickness } from "./measured-thickness.js";
import type { Seat } from "./plate.js";
import type { Contribution } from "./template.js";

/** Material kept around openings and along edges of the cheek, mm. Own choice: above 1.5 times a 10 mm sheet. */
const WEB = 16;

/** Material below the tab slots, in sheet thicknesses: a slot wants 1.5 times its width to the edge (common practice). */
const SLOT_EDGE = 2;

/** Grip opening for a gloved hand: common practice 100 x 30 and more. */
const HANDLE = { length: 112, height: 34 } as const;

/** Material above the highest duct of a cheek without a handle, mm. */
const PLAIN_TOP = 20;

/** Smallest window worth cutting, mm. */
const SMALLEST_WINDOW = { length: 45, height: 32 } as const;

/** Windows longer than this are divided by a strut, mm. */
const LONGEST_WINDOW = 150;

/** Side plate that carries every rod, takes the deck's tabs and stands on two feet. In its plane x is forward, y up from the deck. */
export function cheekDraft(
  machine: Machine,
  asked: readonly Cut[],
  footTabs: NonNullable<Contribution["footTabs"]>,
): PlateDraft {
  const { parameters, layout } = machine;
  const sheet = parameters.sheets.structure;
  const half = parameters.deck.length / 2;
  const top = cheekTop(machine);
  const needed = [
    ...tabSlots(machine),
    ...rodHoles(parameters, layout),
    ...asked,
    ...handleCut(parameters, top),
  ];
  const taken = needed.map((cut) => cut.contour);
  const plain = cheekOutline(half, parameters.cheek.below, top, parameters);
  return {
    id: "cheek",
    name: "Cheek",
    template: "cheek",
    sheet,
    outline: withFootTabs(plain, footTabs, parameters.cheek.below, machine.relief),
    outlineWhy: "carries the rods, takes the deck's tabs and stands on two feet",
    cuts: [...needed, ...windows(machine, half, top, taken)],
    mirrorable: true,
    seats: cheekSeats(machine),
  };
}

/** To port and to starboard of everything between them. */
export function cheekSeats({ parameters, layout }: Machine): readonly Seat[] {
  return [
    {
      origin: [0, layout.innerWidth / 2 + measuredThickness(parameters.sheets.structure), 0],
      u: [1, 0, 0],
      v: [0, 0, 1],
    },
    { origin: [0, -layout.innerWidth / 2, 0], u: [1, 0, 0], v: [0, 0, 1] },
  ];
}

/** Height of the cheeks above the deck, mm. */
export function cheekTop({ parameters, layout }: Machine): number {
  const { cheek } = parameters;
  return Math.ceil(
    layout.ductTop + (cheek.above ?? (hasGrip(parameters) ? HANDLE.height + 2 * WEB : PLAIN_TOP)),
  );
}

function tabSlots({ layout, deckTabs, relief }: Machine): readonly Cut[] {
  return deckTabs.centres.map(
    (centre): Cut => ({
      contour: tabSlot(
        { x: centre, y: -layout.structure.nominal / 2 },
        deckTabs.length,
        layout.structure.max,
        relief,
      ),
      kind: "tab-slot",
      name: "tab slot",
      why: `takes a tab of the deck, up to ${layout.structure.max.toFixed(2)} mm thick`,
    }),
  );
}

/** Feet that reach down through a skid. */
function withFootTabs(
  outline: Contour,
  footTabs: NonNullable<Contribution["footTabs"]>,
  below: number,
  relief: number,
): Contour {
  if (footTabs.length === 0) return outline;
  const notches = footTabs.map(({ middle, reach, notch }): Region => {
    const { width, depth, radius } = notch;
    const [lower, upper] = [-below - reach - 1, -below - reach + depth];
    const corners = [
      { x: middle - width / 2, y: lower },
      { x: middle + width / 2, y: lower },
      { x: middle + width / 2, y: upper, radius },
      { x: middle - width / 2, y: upper, radius },
    ];
    return { outer: roundedPolygon(corners), openings: [] };
  });
  const tabs = footTabs.map(({ middle, length, reach }) => ({
    root: { x: middle, y: -below },
    out: { x: 0, y: -1 },
    length,
    reach,
  }));
  const tabbed = addTabsAt({ outer: outline, openings: [] }, tabs, relief);
  const [notched] = subtract([tabbed], notches);
  if (notched === undefined) throw new RangeError("nothing is left of a cheek");
  return notched.outer;
}

function cheekOutline(half: number, below: number, top: number, parameters: FrameParameters): Contour {
  const { cornerRadius, footLength } = parameters.cheek;
  const shoulder = Math.min(45, half / 3, top / 2);
  const thickness = measuredThickness(parameters.sheets.structure);
  const archTop = -thickness - SLOT_EDGE * thickness;
  const rise = archTop + below;
  const foot = [
    { x: -half, y: -below, radius: cornerRadius },
    { x: half, y: -below, radius: cornerRadius },
  ];
  const arch =
    rise < 10 || half - footLength < 2 * rise
      ? []
      : [
          { x: -half + footLength, y: -below, radius: cornerRadius / 2 },
          { x: -half + footLength + rise, y: archTop, radius: cornerRadius },
          { x: half - footLength - rise, y: archTop, radius: cornerRadius },
          { x: half - footLength, y: -below, radius: cornerRadius / 2 },
        ];
  return roundedPolygon([
    ...foot.slice(0, 1),
    ...arch,
    ...foot.slice(1),
    { x: half, y: top - shoulder, radius: cornerRadius },
    { x: half - shoulder, y: top, radius: cornerRadius },
    { x: -half + shoulder, y: top, radius: cornerRadius },
    { x: -half, y: top - shoulder, radius: cornerRadius },
  ]);
}

function rodHoles(parameters: FrameParameters, layout: Layout): readonly Cut[] {
  const diameter = clearanceHole(parameters.rods.thread, "medium");
  return layout.runs.flatMap((run) =>
    run.z.map(
      (z): Cut => ({
        contour: circle({ x: run.x, y: z }, diameter / 2),
        kind: "rod-hole",
        name: "rod hole",
        why: `${parameters.rods.thread} rod that locks ${run.ducts.map((fitted) => fitted.duct.id).join(" and ")} (ISO 273 medium)`,
      }),
    ),
  );
}

/** Shortest deck, and so cheek, that a grip has room on, mm. */
export const SHORTEST_WITH_GRIP: number = HANDLE.length + 6 * WEB;

/** Whether a grip is cut: wanted, and with room for it. */
function hasGrip({ cheek, deck }: FrameParameters): boolean {
  return cheek.handle && deck.length >= SHORTEST_WITH_GRIP;
}

function handleCut(parameters: FrameParameters, top: number): readonly Cut[] {
  if (!hasGrip(parameters)) return [];
  const y = top - WEB - HANDLE.height / 2;
  const reach = (HANDLE.length - HANDLE.height) / 2;
  return [
    {
      contour: obround({ x: -reach, y }, { x: reach, y }, HANDLE.height),
      kind: "window",
      name: "grip",
      why: "the vehicle is lifted by it; two people, one at each cheek",
    },
  ];
}

/** Rounded windows wherever rods, slots and handle leave room: less weight, and water flows through sideways. */
function windows(
  { parameters }: Machine,
  half: number,
  top: number,
  taken: readonly Contour[],
): readonly Cut[] {
  const shoulder = Math.min(45, half / 3, top / 2);
  const low = WEB;
  const high = top - WEB - (hasGrip(parameters) ? HANDLE.height + WEB : 0);
  if (high - low < SMALLEST_WINDOW.height) return [];
  const span = { from: -half + shoulder, to: half - shoulder };
  return freeSpans(span, low + 1e-6, high - 1e-6, taken, WEB - 1e-3)
    .filter(({ from, to }) => to - from >= SMALLEST_WINDOW.length)
    .flatMap(divide)
    .map(
      ({ from, to }): Cut => ({
        contour: roundedPolygon(
          [
            { x: from, y: low },
            { x: to, y: low },
            { x: to, y: high },
            { x: from, y: high },
          ].map((corner) => ({ ...corner, radius: 12 })),
        ),
        kind: "window",
        name: "window",
        why: "saves weight and lets the water through sideways",
      }),
    );
}

function divide(span: Span): readonly Span[] {
  const length = span.to - span.from;
  const count = Math.ceil((length + WEB) / (LONGEST_WINDOW + WEB));
  const each = (length - WEB * (count - 1)) / count;
  return Array.from({ length: count }, (_, index) => {
    const from = span.from + index * (each + WEB);
    return { from, to: from + each };
  });
}
