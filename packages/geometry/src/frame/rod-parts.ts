import type { Machine } from "../fit/machine.js";
import { endNut, plainNutItem } from "../hardware/end-nut.js";
import { rodSolid, solidMass } from "../hardware/mass.js";
import { rodLength } from "../hardware/screw-length.js";
import type { HardwareUse } from "../hardware/uses.js";
import type { Contribution } from "../plates/template.js";
import { overCheeks } from "./axes.js";

/** Rods of every run across the vehicle, with their nuts and washers. */
export function rodParts({ parameters, layout }: Machine): Contribution {
  const { thread } = parameters.rods;
  const outer = endNut(thread, parameters.nuts).item;
  const plain = plainNutItem(thread);
  const length = rodLength(thread, overCheeks(layout), parameters.nuts);
  const perRun = layout.runs.map((run, index) => ({ run, place: `rods.${index + 1}` }));
  return {
    lengths: perRun.map(({ run, place }) => ({
      item: `rod DIN 976 ${thread}`,
      kind: "rod",
      length,
      place,
      count: run.z.length,
      mass: solidMass(rodSolid(thread, length)),
      why: `over the cheeks ${overCheeks(layout).toFixed(1)} mm, then washer, nut and two threads at each end`,
    })),
    hardware: perRun.flatMap(({ run, place }): HardwareUse[] => {
      const ends = 2 * run.z.length;
      return [
        { item: outer, kind: "nut", place, count: ends, why: "one outside each cheek" },
        { item: plain, kind: "nut", place, count: ends, why: "one inside each cheek" },
        {
          item: `washer ISO 7089 ${thread}`,
          kind: "washer",
          place,
          count: 2 * ends,
          why: "under each nut at a cheek",
        },
        {
          item: plain,
          kind: "nut",
          place,
          count: run.z.length * 2 * run.ducts.length,
          why: "one on each side of each pipe, so that it cannot slide along the rod",
        },
      ];
    }),
  };
}
