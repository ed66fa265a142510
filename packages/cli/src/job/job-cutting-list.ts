import { cuttingList } from "../output/cutting-list.js";
import type { OutputFile } from "../output/folder.js";
import { layerOrder } from "../output/layer-names.js";
import { cuttingCautions } from "../output/page/index.js";
import { isHeld } from "./bridges.js";
import { drilledOpenings } from "./drilled-openings.js";
import type { Job } from "./job.js";

/** The one-page list for the machine; `sheetFiles` are for each group the DXF of each of its sheets. */
export function jobCuttingList(
  { input, frame, groups, quantity }: Job,
  sheetFiles: readonly (readonly string[])[],
): OutputFile {
  const { bridges, leadIns, marks } = input.shop.files;
  const { compensation, kerf, clearance } = input.parameters.cutting;
  const { shop } = input;
  return cuttingList({
    name: frame.parameters.name,
    revision: frame.parameters.revision,
    kits: quantity.kits,
    groups,
    sheetFiles,
    notes: [
      compensation === "shop"
        ? `Plates are drawn at their own size: offset the cutter, which may be ${kerf} mm wide at most, for plates lie as close as ${clearance} mm.`
        : `Contours are moved by half the kerf of ${kerf} mm: cut on the line.`,
      layerOrder(input.shop.files),
      ...(bridges ? [`Gaps in the contours are bridges of ${bridges.width} mm: leave them uncut.`] : []),
      ...(bridges && compensation === "shop"
        ? ["Interrupted lines have the plate on their left as they run: the cutter goes on their right."]
        : []),
      ...(leadIns && marks
        ? ["A short stroke beside a line, not to be cut, shows where its cut may begin."]
        : []),
    ],
    cautions: cuttingCautions({ frame, plates: frame.plates, held: isHeld(frame.plates, shop) }).map(
      ({ title }) => title,
    ),
    plateNames: new Map(frame.plates.map((plate) => [plate.id, plate.name])),
    drilled: new Map(frame.plates.map((plate) => [plate.id, drilledOpenings(plate, shop)])),
  });
}
