import { numberText } from "../checks/number-text.js";
import { obround, roundedPolygon } from "../contour/build.js";
import { tabSlot } from "../features/tab-joint.js";
import type { FrameParameters } from "../frame/parameters.js";
import { cableTie } from "../standards/index.js";
import type { Cut, PlateDraft } from "./compose.js";
import { measuredThickness } from "./measured-thickness.js";
import type { FootTab, PlateTemplate } from "./template.js";

/** How far a skid's nose stands beyond the cheek at each end, mm. Own choice. */
const NOSE = 10;

/** Share of a foot's length that its tab takes. */
const TAB_SHARE = 0.45;

/** A slot must let the cutter in with a little room (common practice: cutter + 0.3). */
const CUTTER_ROOM = 0.3;

/** Height of the tie's hole above the skid, mm: the tie lies flat against the foot. */
const TIE_RISE = 14;

/** Tie head, tail to pull and bends, mm (common practice). */
const HEAD_AND_TAIL = 55;

/** Least that a tab stands out below the ties, mm: it wears off before they do. Own choice. */
const WEAR = 1.5;

/** Least material of a tab on both sides of its notch, mm. Own choice. */
const LUG = 5;

/** Room beside a tie in its notch, mm. Own choice. */
const NOTCH_ROOM = 0.5;

/**
 * The notch that takes a tie in the lower edge of a foot's tab, which stands out below the skid by as much; mm. Between its
 * corners, rounded so that the cutter enters them, a tie lies flat.
 */
function tieNotch({ ties, cutting }: FrameParameters): FootTab["notch"] {
  const radius = (cutting.kerf + CUTTER_ROOM) / 2;
  const depth = Math.max(cableTie(ties.width).thickness + WEAR, radius + 0.1);
  return { width: ties.width + NOTCH_ROOM + 2 * radius, depth, radius };
}

/** How far the tabs of the feet stand out below the skids, mm. */
export function belowSkids(parameters: FrameParameters): number {
  return tieNotch(parameters).depth;
}

/**
 * Skids under the cheeks: each foot's tab passes through one, and a cable tie through the foot holds it up. The tie passes
 * under the skid in a notch of the tab, which stands out below: on the ground the tab wears and not the tie.
 */
export const skids: PlateTemplate = {
  name: "skid",
  contribute: (machine) => {
    const { parameters, layout, relief } = machine;
    const { skids: skid, deck, cheek, ties, cutting } = parameters;
    if (skid === undefined) return {};
    const sheet = parameters.sheets.structure;
    const half = deck.length / 2 + NOSE;
    const wide = skid.width / 2;
    const notch = tieNotch(parameters);
    const needs = notch.width + 2 * LUG;
    const straight = cheek.footLength - 2 * cheek.cornerRadius;
    const tabLength = Math.min(Math.max(cheek.footLength * TAB_SHARE, needs), straight);
    const middles = [-1, 1].map((end) => end * (deck.length / 2 - cheek.footLength / 2));
    const tie = cableTie(ties.width);
    if (tabLength < needs) {
      throw new RangeError(
        `a foot is straight for ${numberText(Math.max(0, straight))} mm, but its tab with a notch for a tie needs ${numberText(needs)} mm: make cheek.footLength longer or cheek.cornerRadius smaller`,
      );
    }
    const slotWidth = Math.max(tie.slotHeight, cutting.kerf + CUTTER_ROOM);
    const slotY = layout.structure.max / 2 + 3 + slotWidth / 2;
    const halfSlot = ties.width / 2;
    const needed = 2 * (measuredThickness(sheet) + TIE_RISE + slotY) + HEAD_AND_TAIL;
    const length = tie.lengths.find((candidate) => candidate >= needed);
    if (length === undefined)
      throw new RangeError(`skid: no ${ties.width} mm tie is ${needed.toFixed(0)} mm long`);
    const cuts = middles.flatMap((x): Cut[] => [
      {
        contour: tabSlot({ x, y: 0 }, tabLength, layout.structure.max, relief),
        kind: "tab-slot",
        name: "foot slot",
        why: "takes the tab of a cheek's foot",
      },
      ...[-1, 1].map(
        (side): Cut => ({
          contour: obround(
            { x: x - halfSlot, y: side * slotY },
            { x: x + halfSlot, y: side * slotY },
            slotWidth,
          ),
          kind: "tie-slot",
          name: "tie slot",
          why: "cable tie around the skid and through the foot",
        }),
      ),
    ]);
    const draft: PlateDraft = {
      id: "skid",
      name: "Skid",
      template: "skid",
      sheet,
      outline: roundedPolygon(
        [
          { x: -half, y: -wide },
          { x: half, y: -wide },
          { x: half, y: wide },
          { x: -half, y: wide },
        ].map((corner) => ({ ...corner, radius: Math.min(15, wide / 2) })),
      ),
      outlineWhy: "what the vehicle lands and slides on",
      cuts,
      mirrorable: true,
      seats: [1, -1].map((side) => ({
        origin: [
          0,
          side * (layout.innerWidth / 2 + measuredThickness(sheet) / 2),
          -cheek.below - measuredThickness(sheet),
        ] as const,
        u: [1, 0, 0] as const,
        v: [0, 1, 0] as const,
      })),
    };
    return {
      plates: [draft],
      footTabs: middles.map((middle) => ({
        middle,
        length: tabLength,
        reach: measuredThickness(sheet) + notch.depth,
        notch,
      })),
      cheekCuts: middles.map(
        (x): Cut => ({
          contour: obround(
            { x: x - halfSlot, y: -cheek.below + TIE_RISE },
            { x: x + halfSlot, y: -cheek.below + TIE_RISE },
            slotWidth,
          ),
          kind: "tie-slot",
          name: "skid tie slot",
          why: "cable tie that holds the skid on the foot",
        }),
      ),
      hardware: [
        {
          item: `tie ${ties.width}x${length}`,
          kind: "tie",
          place: "skids",
          count: 2 * middles.length,
          why: `around the skid and through the foot needs ${needed.toFixed(0)} mm`,
        },
      ],
    };
  },
};
