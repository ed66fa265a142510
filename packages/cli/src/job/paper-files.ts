import type { Plate } from "@keelcut/geometry";
import type { OutputFile } from "../output/folder.js";
import { type Drawing, plateDrawing, plateFileName, type SizeState } from "../output/index.js";
import type { Paper } from "../output/pdf/index.js";
import { markPaths } from "../output/plate-cuts.js";
import type { Job } from "./job.js";
import { plateLabels } from "./plate-labels.js";

/** What is printed. */
export interface PaperWish {
  readonly paper: Paper;
  /** Also every plate that is cut, at 1:1, for those who cut by hand or want to lay it on the sheet. */
  readonly plates: boolean;
}

/** Paper shows plates as they come out. */
const size: SizeState = { state: "nominal" };

/** Templates at 1:1 (`wraps.pdf`, on request `plates.pdf`) and one dimensioned drawing for each plate that is cut. */
export async function paperFiles(job: Job, wish: PaperWish): Promise<OutputFile[]> {
  const { writeDimensioned, writePdf } = await import("../output/pdf/index.js");
  const { frame, demand } = job;
  const printed = frame.plates.filter((plate) => plate.made === "printed");
  const cut = frame.plates.filter((plate) => plate.made === "cut");
  const files: OutputFile[] = [];
  const print = async (path: string, plates: readonly Plate[]): Promise<void> => {
    const drawings = plates.flatMap((plate) => fullSize(job, plate));
    if (drawings.length > 0) files.push({ path, content: await writePdf(drawings, wish.paper) });
  };
  await print("wraps.pdf", printed);
  if (wish.plates) await print("plates.pdf", cut);
  for (const plate of cut) {
    const quantity = demand(plate);
    const content = await writeDimensioned({
      plate,
      frame: frame.parameters.name,
      revision: frame.parameters.revision,
      quantity,
      marks: markPaths(plate).paths,
    });
    files.push({ path: `plates/${plateFileName(plate, quantity, size)}.pdf`, content });
  }
  return files;
}

function fullSize({ frame, demand }: Job, plate: Plate): Drawing[] {
  const options = { size, marks: true, stockOutline: false, labels: plateLabels(frame) };
  const result = plateDrawing(plate, demand(plate), options);
  return result.ok ? [result.drawing] : [];
}
