import { circle, obround, roundedPolygon } from "../contour/build.js";
import type { Contour } from "../contour/contour.js";
import { type TabRow, tabSlot } from "../features/tab-joint.js";
import type { Layout } from "../fit/layout.js";
import type { FrameParameters } from "../frame/parameters.js";
import { clearanceHole } from "../standards/index.js";
import type { Cut } from "./compose.js";

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

/** The cheek in its own plane: x forward, y up, y = 0 at the top of the deck. */
export interface CheekShape {
  readonly outline: Contour;
  readonly cuts: readonly Cut[];
  readonly top: number;
}

/** Side plate that carries every rod, takes the deck's tabs and stands on two feet. */
export function cheekShape(
  parameters: FrameParameters,
  layout: Layout,
  tabs: TabRow,
  relief: number,
): CheekShape {
  const { cheek } = parameters;
  const half = parameters.deck.length / 2;
  const above = cheek.above ?? (cheek.handle ? HANDLE.height + 2 * WEB : PLAIN_TOP);
  const top = Math.ceil(layout.ductTop + above);
  const rods = rodHoles(parameters, layout);
  const slots = tabs.centres.map(
    (centre): Cut => ({
      contour: tabSlot(
        { x: centre, y: -layout.structure.nominal / 2 },
        tabs.length,
        layout.structure.max,
        relief,
      ),
      kind: "tab-slot",
      name: "tab slot",
      why: `takes a tab of the deck, up to ${layout.structure.max.toFixed(2)} mm thick`,
    }),
  );
  return {
    outline: cheekOutline(half, cheek.below, top, parameters),
    cuts: [...slots, ...rods, ...handleCut(parameters, half, top), ...windows(parameters, layout, half, top)],
    top,
  };
}

function cheekOutline(half: number, below: number, top: number, parameters: FrameParameters): Contour {
  const { cornerRadius, footLength } = parameters.cheek;
  const shoulder = Math.min(45, half / 3, top / 2);
  const { thickness } = parameters.sheets.structure;
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

function handleCut(parameters: FrameParameters, half: number, top: number): readonly Cut[] {
  if (!parameters.cheek.handle || 2 * half < HANDLE.length + 6 * WEB) return [];
  const y = top - WEB - HANDLE.height / 2;
  const reach = (HANDLE.length - HANDLE.height) / 2;
  return [
    {
      contour: obround({ x: -reach, y }, { x: reach, y }, HANDLE.height),
      kind: "window",
      name: "handle",
      why: "the vehicle is lifted by it; two people, one at each cheek",
    },
  ];
}

/** Rounded windows wherever rods, tab slots and handle leave room: less weight, and water flows through sideways. */
function windows(parameters: FrameParameters, layout: Layout, half: number, top: number): readonly Cut[] {
  const shoulder = Math.min(45, half / 3, top / 2);
  const low = WEB;
  const high = top - WEB - (parameters.cheek.handle ? HANDLE.height + WEB : 0);
  const radius = clearanceHole(parameters.rods.thread, "medium") / 2;
  const posts = layout.runs
    .map((run) => ({ from: run.x - radius - WEB, to: run.x + radius + WEB }))
    .sort((a, b) => a.from - b.from);
  const free: { from: number; to: number }[] = [];
  let from = -half + shoulder;
  for (const post of posts) {
    free.push({ from, to: post.from });
    from = Math.max(from, post.to);
  }
  free.push({ from, to: half - shoulder });
  if (high - low < SMALLEST_WINDOW.height) return [];
  return free
    .filter((span) => span.to - span.from >= SMALLEST_WINDOW.length)
    .flatMap(divide)
    .map(
      (span): Cut => ({
        contour: roundedPolygon(
          [
            { x: span.from, y: low },
            { x: span.to, y: low },
            { x: span.to, y: high },
            { x: span.from, y: high },
          ].map((corner) => ({ ...corner, radius: 12 })),
        ),
        kind: "window",
        name: "window",
        why: "saves weight and lets the water through sideways",
      }),
    );
}

function divide(span: { from: number; to: number }): readonly { from: number; to: number }[] {
  const length = span.to - span.from;
  const count = Math.ceil((length + WEB) / (LONGEST_WINDOW + WEB));
  const each = (length - WEB * (count - 1)) / count;
  return Array.from({ length: count }, (_, index) => {
    const from = span.from + index * (each + WEB);
    return { from, to: from + each };
  });
}
