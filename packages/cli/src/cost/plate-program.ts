import {
  asCircle,
  type Contour,
  contourLength,
  isDrilled,
  offsetContour,
  type Path,
  type Point,
  pathSegments,
  type Region,
  rememberedBy,
  segmentLength,
} from "@keelcut/geometry";
import type { Bridge } from "../bridges/bridge-places.js";
import { bridgedPaths } from "../bridges/bridged-paths.js";
import type { ShopProfile } from "../input/shop-profile.js";
import type { CuttingRate } from "./feed.js";
import { moveSeconds, pathSeconds } from "./motion.js";

/** What the machine does to cut one contour through, the same wherever the plate lies. */
export interface ContourProgram {
  /** `outline`, or the index of the opening. */
  readonly contour: "outline" | number;
  /** Length as drawn, without the gaps at bridges, mm. */
  readonly drawn: number;
  /** Paths of the cutter's centre; one, several where the cutter leaves a neck, and one from each bridge to the next. */
  readonly paths: readonly Path[];
  /** Moves over its bridges, from the end of one path to the start of the next, mm. */
  readonly hops: readonly number[];
  /** Length of `paths` over all passes, mm; 0 for a drilled opening. */
  readonly cut: number;
  /** Diameter of the drill that makes it in place of the cutter, mm. */
  readonly drill?: number;
  /** Absent without a feed. */
  readonly seconds?: { readonly cut: number; readonly enter: number };
}

export interface PlateProgram {
  readonly contours: readonly ContourProgram[];
  /** Contours the cutter does not fit into: their drawn length is used. */
  readonly unfit: readonly ("outline" | number)[];
}

/** The bridges of one plate, and the length each takes from a cut line, mm. */
export interface HeldPlate {
  readonly bridges: readonly Bridge[];
  readonly gap: number;
}

/**
 * The machine's work on one plate: its contours moved by half a kerf and interrupted at the bridges, timed with the
 * shop's rates and limits.
 */
export function plateProgram(
  region: Region,
  thickness: number,
  rate: CuttingRate | undefined,
  shop: ShopProfile,
  held: HeldPlate = { bridges: [], gap: 0 },
): PlateProgram {
  const conditions = JSON.stringify([thickness, rate, shop.cutting, shop.machine, held.gap]);
  const unfit: ("outline" | number)[] = [];
  const program = (drawn: Contour, contour: "outline" | number): ContourProgram => {
    const bridges = held.bridges.filter(({ part }) => part === contour).map(({ at }) => at);
    const work = { drawn, isOutline: contour === "outline", thickness, rate, shop, bridges, gap: held.gap };
    const { fits, ...found } = contourWork(work, conditions);
    if (!fits) unfit.push(contour);
    return { contour, ...found };
  };
  const contours = [...region.openings.map(program), program(region.outer, "outline")];
  return { contours, unfit };
}

interface ContourToCut {
  readonly drawn: Contour;
  readonly isOutline: boolean;
  readonly thickness: number;
  readonly rate: CuttingRate | undefined;
  readonly shop: ShopProfile;
  readonly bridges: readonly Point[];
  readonly gap: number;
}

type ContourWork = Omit<ContourProgram, "contour"> & { readonly fits: boolean };

/** Variations of a frame share most of their contours: each is offset and timed once under the same conditions. */
const contourWork = rememberedBy(
  4000,
  ({ drawn, isOutline, bridges }: ContourToCut, conditions: string) =>
    `${isOutline} ${conditions} ${JSON.stringify([drawn, bridges])}`,
  (work: ContourToCut, _conditions: string): ContourWork => {
    const { drawn, isOutline, thickness, rate, shop, bridges, gap } = work;
    const drill = isOutline ? undefined : drillOf(drawn, shop);
    if (drill !== undefined) return { ...drilled(drawn, drill, thickness, rate, shop), fits: true };
    const half = shop.cutting.kerf / 2;
    const offset = offsetContour(drawn, isOutline ? half : -half);
    const [whole = drawn, ...others] = offset;
    const paths =
      bridges.length > 0 && others.length === 0
        ? bridgedPaths(whole, bridges, gap)
        : [whole, ...others].map((vertices): Path => ({ vertices, closed: true }));
    const passes = rate?.passes ?? 1;
    const cut = passes * paths.reduce((sum, path) => sum + lengthOf(path), 0);
    const timed =
      rate === undefined ? {} : { seconds: programSeconds(paths, isOutline, thickness, rate, shop) };
    const lines = contourLength(drawn) - bridges.length * gap;
    return { drawn: lines, paths, hops: hopsOf(paths), cut, ...timed, fits: offset.length > 0 };
  },
);

function hopsOf(paths: readonly Path[]): number[] {
  return paths.slice(1).flatMap((path, index) => {
    const [end, start] = [paths[index]?.vertices.at(-1), path.vertices[0]];
    if (path.closed || end === undefined || start === undefined) return [];
    return [Math.hypot(start.x - end.x, start.y - end.y)];
  });
}

function lengthOf(path: Path): number {
  return pathSegments(path).reduce((sum, piece) => sum + segmentLength(piece), 0);
}

type Drill = ShopProfile["machine"]["drills"][number];

function drillOf(opening: Contour, { cutting, machine }: ShopProfile): Drill | undefined {
  const round = cutting.method === "router" ? asCircle(opening) : undefined;
  if (round === undefined) return undefined;
  return machine.drills.find(({ diameter }) => isDrilled(2 * round.radius, [diameter]));
}

/** Drilled through at once: down to the sheet, through it, and clear again. */
function drilled(
  drawn: Contour,
  drill: Drill,
  thickness: number,
  rate: CuttingRate | undefined,
  shop: ShopProfile,
): Omit<ContourProgram, "contour"> {
  const paths = [{ vertices: drawn, closed: true }];
  const base = { drawn: contourLength(drawn), paths, hops: [], cut: 0, drill: drill.diameter };
  if (rate === undefined) return base;
  const plungeFeed = drill.plungeFeed ?? rate.plungeFeed;
  return { ...base, seconds: { cut: 0, enter: enterSeconds(thickness, { ...rate, plungeFeed }, shop) } };
}

function programSeconds(
  paths: readonly Path[],
  isOutline: boolean,
  thickness: number,
  rate: CuttingRate,
  shop: ShopProfile,
): { cut: number; enter: number } {
  let cut = 0;
  let enter = 0;
  for (const path of paths) {
    cut += rate.passes * pathSeconds(pathSegments(path), rate.feed / 60, shop.machine);
    enter += enterSeconds(thickness, rate, shop);
  }
  if (isOutline) enter += tabSeconds(thickness, rate, shop);
  return { cut, enter };
}

/** Piercing; or lowering the cutter to the sheet, plunging through it pass by pass, and lifting it clear. */
function enterSeconds(thickness: number, rate: CuttingRate, shop: ShopProfile): number {
  if (rate.plungeFeed === undefined) return rate.pierceSeconds ?? 0;
  const { liftHeight, travelFeed, acceleration } = shop.machine;
  const down = moveSeconds(liftHeight, travelFeed / 60, acceleration);
  const up = moveSeconds(liftHeight + thickness, travelFeed / 60, acceleration);
  return down + thickness / (rate.plungeFeed / 60) + up;
}

/** A pass below the top of the tabs lifts over each tab and plunges again; slowing down along the path is left out. */
function tabSeconds(thickness: number, rate: CuttingRate, shop: ShopProfile): number {
  const { tabs } = shop.cutting;
  if (tabs === undefined || rate.plungeFeed === undefined) return 0;
  let seconds = 0;
  for (let pass = 1; pass <= rate.passes; pass++) {
    const depth = (thickness * pass) / rate.passes;
    const lift = depth - (thickness - Math.min(tabs.height, thickness));
    if (lift <= 0) continue;
    seconds += tabs.perPlate * (lift / (shop.machine.travelFeed / 60) + lift / (rate.plungeFeed / 60));
  }
  return seconds;
}
