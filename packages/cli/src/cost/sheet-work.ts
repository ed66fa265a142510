import { placeRegion } from "@keelcut/geometry";
import type { NestPart, Sheet } from "@keelcut/nesting";
import type { ShopProfile } from "../input/shop-profile.js";
import { cuttingTour } from "../tour/cutting-tour.js";
import type { CuttingSheet } from "./cost-estimate.js";
import { moveSeconds } from "./motion.js";
import type { PlateProgram } from "./plate-program.js";

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
  let drawn = 0;
  let cut = 0;
  let cutSeconds: number | undefined = 0;
  let enterSeconds = 0;
  let starts = 0;
  const hops: number[] = [];
  const tools = new Set<number | undefined>();
  for (const placement of sheet.placements) {
    const program = known(programs, placement.part);
    for (const contour of program.contours) {
      drawn += contour.drawn;
      cut += contour.cut;
      cutSeconds = contour.seconds && cutSeconds !== undefined ? cutSeconds + contour.seconds.cut : undefined;
      enterSeconds += contour.seconds?.enter ?? 0;
      starts += contour.paths.length;
      hops.push(...contour.hops);
      tools.add(contour.drill);
    }
  }
  const regions = sheet.placements.map((placement) =>
    placeRegion(known(context.parts, placement.part).region, placement),
  );
  const tour = cuttingTour(regions);
  const { travelFeed, acceleration } = shop.machine;
  const moves = [...tour.moves, ...hops];
  const travelSeconds = moves.reduce(
    (sum, move) => sum + moveSeconds(move, travelFeed / 60, acceleration),
    0,
  );
  const travel = moves.reduce((sum, move) => sum + move, 0);
  // Each sheet begins with the same tool, so the last change brings it back.
  const changes = tools.size > 1 ? tools.size : 0;
  const changeSeconds = changes * shop.machine.toolChangeSeconds;
  const seconds =
    cutSeconds === undefined ? undefined : { cutSeconds, enterSeconds, travelSeconds, changeSeconds };
  return {
    material: context.material,
    thickness: context.thickness,
    layout: context.layout,
    stock: sheet.stock,
    times: sheet.times,
    plates: sheet.placements.length,
    starts,
    metres: { drawn: drawn / 1000, cut: cut / 1000, travel: travel / 1000 },
    ...(seconds === undefined ? {} : { minutes: sheetMinutes(seconds, sheet, shop) }),
  };
}

function sheetMinutes(
  seconds: { cutSeconds: number; enterSeconds: number; travelSeconds: number; changeSeconds: number },
  sheet: Sheet,
  shop: ShopProfile,
): NonNullable<CuttingSheet["minutes"]> {
  const [cut, enter, travel, change] = [
    seconds.cutSeconds / 60,
    seconds.enterSeconds / 60,
    seconds.travelSeconds / 60,
    seconds.changeSeconds / 60,
  ];
  return {
    cut,
    enter,
    travel,
    ...(change > 0 ? { change } : {}),
    machine: cut + enter + travel + change,
    load: shop.charges.loadPerSheet,
    plates: (shop.charges.perPlate * sheet.placements.length) / 60,
  };
}

function known<T>(table: ReadonlyMap<string, T>, part: string): T {
  const entry = table.get(part);
  if (entry === undefined)
    throw new RangeError(`the layout names a plate ${part} that the job does not have`);
  return entry;
}
