import { type Box, bounds, type Contour, locate, placeContour } from "@keelcut/geometry";
import type { NestPart, PlacedPart, Sheet } from "@keelcut/nesting";
import type { ShopProfile } from "../input/shop-profile.js";
import type { CuttingSheet } from "./cost-estimate.js";
import { moveSeconds } from "./motion.js";
import { entryPoints, type PlateProgram } from "./plate-program.js";
import { type Stop, shortTour } from "./tour.js";

/** What the work on one sheet needs to know beside its layout. */
export interface SheetContext {
  readonly material: string;
  readonly thickness: number;
  readonly layout: number;
  readonly parts: ReadonlyMap<string, NestPart>;
  readonly programs: ReadonlyMap<string, PlateProgram>;
  readonly shop: ShopProfile;
}

/** Lengths, starts and times of one layout. The machine starts and ends at the sheet's corner (0, 0). */
export function sheetWork(sheet: Sheet, context: SheetContext): CuttingSheet {
  const { shop, programs } = context;
  const depths = nestingDepths(sheet.placements, context.parts);
  const stops: Stop[] = [];
  let drawn = 0;
  let cut = 0;
  let cutSeconds: number | undefined = 0;
  let enterSeconds = 0;
  for (const [index, placement] of sheet.placements.entries()) {
    const program = known(programs, placement.part);
    const depth = depths[index] ?? 0;
    for (const contour of program.contours) {
      drawn += contour.drawn;
      cut += contour.cut;
      cutSeconds = contour.seconds && cutSeconds !== undefined ? cutSeconds + contour.seconds.cut : undefined;
      enterSeconds += contour.seconds?.enter ?? 0;
      const phase = -(2 * depth + (contour.contour === "outline" ? 0 : 1));
      for (const path of contour.paths) stops.push({ entries: entryPoints(path, placement), phase });
    }
  }
  const tour = shortTour(stops, { x: 0, y: 0 });
  const { travelFeed, acceleration } = shop.machine;
  const travelSeconds = tour.moves.reduce(
    (sum, move) => sum + moveSeconds(move, travelFeed / 60, acceleration),
    0,
  );
  const travel = tour.moves.reduce((sum, move) => sum + move, 0);
  const seconds = cutSeconds === undefined ? undefined : { cutSeconds, enterSeconds, travelSeconds };
  return {
    material: context.material,
    thickness: context.thickness,
    layout: context.layout,
    stock: sheet.stock,
    times: sheet.times,
    plates: sheet.placements.length,
    starts: stops.length,
    metres: { drawn: drawn / 1000, cut: cut / 1000, travel: travel / 1000 },
    ...(seconds === undefined ? {} : { minutes: sheetMinutes(seconds, sheet, shop) }),
  };
}

function sheetMinutes(
  seconds: { cutSeconds: number; enterSeconds: number; travelSeconds: number },
  sheet: Sheet,
  shop: ShopProfile,
): NonNullable<CuttingSheet["minutes"]> {
  const [cut, enter, travel] = [
    seconds.cutSeconds / 60,
    seconds.enterSeconds / 60,
    seconds.travelSeconds / 60,
  ];
  return {
    cut,
    enter,
    travel,
    machine: cut + enter + travel,
    load: shop.charges.loadPerSheet,
    plates: (shop.charges.perPlate * sheet.placements.length) / 60,
  };
}

/**
 * How many plates' openings each plate lies in. What lies in an opening is cut before that opening is, or it would fall
 * out uncut; and all openings of one depth before the outlines, so that the sheet stays stiff and plates do not move.
 */
function nestingDepths(placements: readonly PlacedPart[], parts: ReadonlyMap<string, NestPart>): number[] {
  const outers = placements.map((placement) =>
    placeContour(known(parts, placement.part).region.outer, placement),
  );
  const openings = placements.flatMap((placement, owner) =>
    known(parts, placement.part).region.openings.map((opening) => ({
      owner,
      contour: placeContour(opening, placement),
    })),
  );
  const boxes = outers.map((outer) => bounds(outer));
  const smallest = Math.min(...boxes.map((box) => Math.min(box.maxX - box.minX, box.maxY - box.minY)));
  // Most openings are screw holes, into which no plate fits: they are left out before plates are looked for in them.
  const roomy = openings
    .map((opening) => ({ ...opening, box: bounds(opening.contour) }))
    .filter(({ box }) => Math.min(box.maxX - box.minX, box.maxY - box.minY) >= smallest);
  return outers.map((outer, index) => {
    const box = boxes[index] ?? bounds(outer);
    const around = roomy.filter(
      (opening) => opening.owner !== index && holds(opening.box, box) && contains(opening.contour, outer),
    );
    return around.length;
  });
}

function contains(opening: Contour, outer: Contour): boolean {
  const vertex = outer[0];
  return vertex !== undefined && locate(opening, vertex) === "inside";
}

function holds(outer: Box, inner: Box): boolean {
  return (
    outer.minX <= inner.minX &&
    outer.minY <= inner.minY &&
    outer.maxX >= inner.maxX &&
    outer.maxY >= inner.maxY
  );
}

function known<T>(table: ReadonlyMap<string, T>, part: string): T {
  const entry = table.get(part);
  if (entry === undefined)
    throw new RangeError(`the layout names a plate ${part} that the job does not have`);
  return entry;
}
