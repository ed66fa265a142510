import type { CuttingMethod } from "../../frame/parameters.js";
import type { Basis } from "../table.js";

/** What a limit is about. */
export type LimitKind =
  /** Least width of an opening. */
  | "opening"
  /** Least material between two cuts that is worth a warning. */
  | "web"
  /** Material between two cuts below which nothing stays standing. */
  | "lostWeb"
  /** Material between a hole and the outline, in hole diameters; for slots in slot widths. */
  | "holeToEdge"
  | "slotToEdge"
  /** Most material a cutter may leave in a sharp inside corner. */
  | "uncut"
  /** Least width of a plate. */
  | "plate"
  /** Longest extent squared over area: length over width of a strip. */
  | "slenderness"
  /** Least extent of a piece falling out of an opening that needs care. */
  | "core"
  /** Largest thickness. */
  | "depth";

/**
 * A limit, mm (a plain number where the kind says so): the largest of the parts that are given. `thicknesses` is in
 * sheet thicknesses, `kerfs` in kerfs; `overKerf` is added to one kerf.
 */
export interface FeatureLimit {
  readonly least?: number;
  readonly thicknesses?: number;
  readonly kerfs?: number;
  readonly overKerf?: number;
  readonly why: string;
  readonly source: string;
  readonly basis: Basis;
}

/** The value of a limit for a sheet of that thickness and a cut of that kerf, mm. */
export function limitFor(limit: FeatureLimit, thickness: number, kerf: number): number {
  return Math.max(
    limit.least ?? 0,
    (limit.thicknesses ?? 0) * thickness,
    (limit.kerfs ?? 0) * kerf,
    limit.overKerf === undefined ? 0 : kerf + limit.overKerf,
  );
}

const guides = "Public guides of cutting shops, common practice";
const judged = "Common practice, judged from the guides of cutting shops";

const holeToEdge: FeatureLimit = {
  least: 0.8,
  why: "a screw closer to the edge breaks out: its centre wants one and a half screw diameters of plastic, which is 0.8 of the diameter of an ISO 273 hole beside the hole",
  source: "Least edge distance in plastics, common practice, from memory",
  basis: "from memory",
};
const laserHoleToEdge: FeatureLimit = {
  least: 1,
  why: "a hole closer to the edge than its own diameter overheats the wall between",
  source: guides,
  basis: "common practice",
};
const lostWeb: FeatureLimit = {
  least: 0.5,
  why: "two cuts this close burn, tear or wash away what is between them",
  source: "Public guides of cutting shops, said of lasers; taken for all methods",
  basis: "common practice",
};
const slotToEdge: FeatureLimit = {
  least: 1.5,
  why: "a slot closer to the edge than one and a half of its width lets the strip beside it bend and break",
  source: guides,
  basis: "common practice",
};
const uncut: FeatureLimit = {
  least: 0.1,
  why: "what stays in the corner keeps the mating edge out; 0.1 mm is what flat cutting holds anyway",
  source:
    "Geometry of a circle between two straight sides; accuracy +-0.1 mm of laser and router, common practice",
  basis: "computed",
};
const plate: FeatureLimit = {
  least: 20,
  why: "a smaller plate falls between the bars of a bed or is lifted by the cutter",
  source: guides,
  basis: "common practice",
};
const slenderness: FeatureLimit = {
  least: 25,
  why: "a long strip springs while it is cut, heats up and bends",
  source: judged,
  basis: "common practice",
};

/**
 * Limits by method. For the smallest laser hole the guides give 0.5, 0.7 and 1.5 thicknesses: the least is the limit,
 * because a warning that every shop contradicts is not read.
 */
export const featureLimits: Readonly<Record<CuttingMethod, Readonly<Record<LimitKind, FeatureLimit>>>> = {
  router: {
    opening: {
      overKerf: 0.3,
      why: "the cutter has to move inside an opening; a hole of its own size is plunged, not routed",
      source: "Common practice, from memory (cutter diameter + 0.3 to 0.5)",
      basis: "from memory",
    },
    web: {
      least: 1.5,
      thicknesses: 0.2,
      why: "the cutter pushes a thinner wall aside and it tears",
      source: judged,
      basis: "common practice",
    },
    lostWeb,
    holeToEdge,
    slotToEdge,
    uncut,
    plate,
    slenderness,
    core: {
      least: 10,
      why: "a loose core turns with the cutter and can break it: hold it by a bridge, or clear the opening completely",
      source: judged,
      basis: "common practice",
    },
    depth: {
      kerfs: 4,
      why: "cutting edges are about four diameters long; a deeper cut needs a longer cutter, which bends",
      source: "Common practice, from memory",
      basis: "from memory",
    },
  },
  laser: {
    opening: {
      thicknesses: 0.5,
      why: "in a smaller hole the heat has nowhere to go and the wall melts",
      source: guides,
      basis: "common practice",
    },
    web: {
      least: 1,
      thicknesses: 1,
      why: "a web thinner than the sheet warps from the heat of both cuts; below 1 mm it breaks",
      source: guides,
      basis: "common practice",
    },
    lostWeb,
    holeToEdge: laserHoleToEdge,
    slotToEdge,
    uncut,
    plate,
    slenderness,
    core: {
      least: 25,
      why: "a core longer than the gap between the bars of the bed can tip up into the head",
      source: judged,
      basis: "common practice",
    },
    depth: {
      least: 12,
      why: "a carbon dioxide laser of 100 W cuts about 12 mm of acrylic and less of wood",
      source: "Common practice of machine tables",
      basis: "common practice",
    },
  },
  waterjet: {
    opening: {
      least: 1.8,
      overKerf: 0.3,
      why: "the jet pierces inside the opening and needs room beside the pierce",
      source: guides,
      basis: "common practice",
    },
    web: {
      least: 1.5,
      thicknesses: 0.5,
      why: "the jet widens and bends away a thin wall",
      source: judged,
      basis: "common practice",
    },
    lostWeb,
    holeToEdge,
    slotToEdge,
    uncut,
    plate,
    slenderness,
    core: {
      least: 25,
      why: "a core longer than the gap between the bars of the bed can tip up into the nozzle",
      source: judged,
      basis: "common practice",
    },
    depth: {
      least: 50,
      why: "the taper and the drag of the jet grow with thickness",
      source: judged,
      basis: "common practice",
    },
  },
};
