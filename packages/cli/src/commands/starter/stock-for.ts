import { deriveFrame, type HardwareItem, type LengthItem } from "@keelcut/geometry";
import { checked } from "../../input/checked.js";
import { frameFileSchema } from "../../input/frame-file.js";
import { frameParameters } from "../../input/frame-parameters.js";
import { parseYaml } from "../../input/yaml-text.js";
import type { StarterChoice } from "./choices.js";
import { starterFrame } from "./frame-text.js";

/** A stock list with a line for everything the chosen frame takes. Prices are invented: a beginner puts in the own ones. */
export function stockFor(choice: StarterChoice): string {
  const { hardware, lengths } = takenBy(choice);
  const bars = [...new Map(lengths.map((length) => [length.item, length.kind]))];
  return `# What can be bought or is at hand. Every price is a made-up example: put in your own.
# Lengths are millimetres, prices without tax.
keelcut: 1
currency: EUR

sheets:
  - {id: structure-10-large, material: ${choice.material}, thickness: 10, length: 2000, width: 1000, price: 62}
  - {id: structure-10-small, material: ${choice.material}, thickness: 10, length: 1000, width: 500, price: 19}
  - {id: pvc-5, material: PVC-U, thickness: 5, length: 1000, width: 500, price: 24}

# Pieces you already have, with their corners in order: used before anything is bought.
offcuts:
  - {id: pvc-5-rest, material: PVC-U, thickness: 5, outline: [[0, 0], [400, 0], [400, 300], [0, 300]]}

# Items are called as hardware.csv calls them; what has no price is listed and not counted.
hardware:
${hardware.map(({ item, kind }) => `  - {item: ${item}, ${packPrices[kind]}}\n`).join("")}
# What is sold by length and sawn.
lengths:
${bars.map(([item, kind]) => `  - {item: ${item}, length: 1000, price: ${kind === "rod" ? 1.4 : 4.9}}\n`).join("")}sawKerf: 2
`;
}

const packPrices: Readonly<Record<HardwareItem["kind"], string>> = {
  motor: "price: 18",
  propeller: "price: 4",
  part: "price: 30",
  ballast: "price: 2",
  screw: "pack: 50, price: 3.2",
  nut: "pack: 50, price: 1.8",
  washer: "pack: 50, price: 1.2",
  spacer: "pack: 10, price: 4.5",
  tie: "pack: 50, price: 3.9",
  other: "price: 1",
};

/** What the frame takes, by deriving it. The sheet's price list is not needed for that. */
function takenBy(choice: StarterChoice): {
  readonly hardware: readonly HardwareItem[];
  readonly lengths: readonly LengthItem[];
} {
  const root = parseYaml(starterFrame(choice), { shown: "frame.yaml", folder: "." });
  const file = checked(frameFileSchema, root);
  const cutting = {
    method: "router",
    kerf: 3,
    clearance: 5.175,
    edgeMargin: 15,
    compensation: "shop",
  } as const;
  return deriveFrame(frameParameters(file, cutting));
}
