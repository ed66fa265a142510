import { obround, roundedPolygon } from "../contour/build.js";
import { addTabsAt, tabSlot } from "../features/tab-joint.js";
import type { Machine } from "../fit/machine.js";
import type { HandleParameters } from "../frame/parameters.js";
import type { Cut, PlateDraft } from "./compose.js";
import { measuredThickness } from "./measured-thickness.js";
import type { PlateTemplate } from "./template.js";

/** Grip opening for a gloved hand: common practice 100 x 30 and more. */
const GRIP = { length: 112, height: 34 } as const;

/** Least material on both sides of the grip, mm. Own choice. */
const WEB = 12;

/** Bars across the vehicle with a grip in the middle, tabbed into both cheeks. */
export const handles: PlateTemplate = {
  name: "handle",
  contribute: (machine) => {
    const wanted = machine.parameters.handles ?? [];
    return {
      plates: wanted.map((handle) => drawHandle(handle, machine)),
      cheekCuts: wanted.map(
        (handle): Cut => ({
          contour: tabSlot(
            { x: handle.x, y: handle.z - machine.layout.structure.nominal / 2 },
            tabLength(handle),
            machine.layout.structure.max,
            machine.relief,
          ),
          kind: "tab-slot",
          name: "handle slot",
          why: `takes a tab of handle ${handle.id}`,
        }),
      ),
    };
  },
};

function drawHandle(handle: HandleParameters, machine: Machine): PlateDraft {
  const { parameters, layout, relief } = machine;
  const sheet = parameters.sheets.structure;
  const half = layout.innerWidth / 2;
  const wide = handle.width / 2;
  if (wide < GRIP.height / 2 + WEB) {
    throw new RangeError(
      `handle ${handle.id} is ${handle.width} mm wide; a grip of ${GRIP.height} mm with ${WEB} mm on both sides needs ${GRIP.height + 2 * WEB}`,
    );
  }
  const body = roundedPolygon(
    [
      { x: -wide, y: -half },
      { x: wide, y: -half },
      { x: wide, y: half },
      { x: -wide, y: half },
    ].map((corner) => ({ ...corner, radius: 8 })),
  );
  const tabbed = addTabsAt(
    { outer: body, openings: [] },
    [-1, 1].map((end) => ({
      root: { x: 0, y: end * half },
      out: { x: 0, y: end },
      length: tabLength(handle),
      reach: measuredThickness(sheet),
    })),
    relief,
  );
  const reach = (GRIP.length - GRIP.height) / 2;
  return {
    id: `handle-${handle.id}`,
    name: `Handle ${handle.id}`,
    template: "handle",
    sheet,
    outline: tabbed.outer,
    outlineWhy: "between the cheeks, carried by one tab in each",
    cuts: [
      {
        contour: obround({ x: 0, y: -reach }, { x: 0, y: reach }, GRIP.height),
        kind: "window",
        name: "grip",
        why: "a gloved hand lifts the vehicle here",
      },
    ],
    mirrorable: true,
    seats: [{ origin: [handle.x, 0, handle.z - measuredThickness(sheet)], u: [1, 0, 0], v: [0, 1, 0] }],
  };
}

function tabLength(handle: HandleParameters): number {
  return Math.round(handle.width * 0.6);
}
