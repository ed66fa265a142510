import { type BadInput, frameWith, shopWith, stockWith } from "./bad-input.js";

/** Frames that are well written and cannot be made: findings, exit code 1, nothing written. */
export const badFrames: readonly BadInput[] = [
  {
    name: "rods outside the bore",
    files: frameWith("motor: outrunner\n", "motor: outrunner\n    carrier: {rodPitch: 74}\n"),
    code: 1,
    says: ["fit.rod-inside-bore", "port.rods", "74 mm apart", "nothing was written"],
  },
  {
    name: "a motor thicker than the pipe",
    files: frameWith("diameter: 28", "diameter: 90"),
    code: 1,
    says: ["fit.motor-body", "body of 90 mm", "nothing was written"],
  },
  {
    name: "a propeller larger than the pipe",
    files: frameWith("motor: outrunner\n", "motor: outrunner\n    propeller: {diameter: 90, height: 12}\n"),
    code: 1,
    says: ["error", "90", "nothing was written"],
  },
  {
    name: "ducts inside each other",
    files: frameWith("[-40, -75]", "[-40, 60]"),
    code: 1,
    says: ["fit.ducts-apart", "run into each other by", "nothing was written"],
  },
  {
    name: "a deck larger than any sheet",
    files: frameWith("length: 300", "length: 2400"),
    code: 1,
    says: ["deck", "nothing was written"],
  },
  {
    name: "a deck narrower than its ducts",
    files: frameWith("length: 300", "length: 300\n  width: 100"),
    code: 1,
    says: ["error", "100", "nothing was written"],
  },
  {
    name: "no sheet of that thickness",
    files: frameWith("thickness: 10", "thickness: 8"),
    code: 1,
    says: ["PE-HD 8 mm", "it has 10 mm only", "nothing was written"],
  },
  {
    name: "no sheet of that material",
    files: frameWith("{material: PE-HD", "{material: PP-H"),
    code: 1,
    says: ["PP-H 10 mm", "nothing was written"],
  },
  {
    name: "an empty stock list",
    files: { "stock.yaml": "keelcut: 1\ncurrency: EUR\n" },
    code: 1,
    says: ["it has no sheets", "nothing was written"],
  },
  {
    name: "sheets larger than the machine",
    files: shopWith("sheetLength: 2500, sheetWidth: 1250", "sheetLength: 300, sheetWidth: 200"),
    code: 1,
    says: ["does not fit the machine's bed of 300 x 200", "nothing was written"],
  },
  {
    name: "stock that is used up",
    files: stockWith(
      / {2}- \{id: pe-10-large.*\n.*price: 19\}/,
      "  - {id: pe-10, material: PE-HD, thickness: 10, length: 500, width: 400, price: 9, available: 1}",
    ),
    argv: ["make", "frame.yaml", "--out", "result", "--kits", "3", "--effort", "0.1"],
    code: 1,
    says: ["nest.stock-used-up", "3 of 3 copies of deck are left", "nothing was written"],
  },
  {
    name: "an edge margin that leaves nothing of a sheet",
    files: frameWith("deck:\n", "cutting: {edgeMargin: 600}\ndeck:\n"),
    code: 1,
    says: ["nothing was written"],
  },
];
