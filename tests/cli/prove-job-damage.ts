import { edit, first, set } from "./prove-damage.js";
import {
  change,
  compensated,
  type Damage,
  dxf,
  good,
  inFiles,
  inRecord,
  inSvg,
  kerf,
  plateDxf,
  small,
  svg,
} from "./prove-damaged-job.js";
import { writeJob } from "./prove-samples.js";

/** Damage to files as a whole, to the record, to compensation, and to SVG files. */
export const jobDamage: Damage = [
  // Files and record
  ["a missing file", () => inFiles((files) => files.filter((_, index) => index !== svg)), "prove.missing"],
  [
    "a file too many",
    () => inFiles((files) => [...files, { name: "sheets/more.dxf", text: "" }]),
    "prove.extra",
  ],
  [
    "a name that says another number",
    () => {
      const rename = (name: string): string => name.replace("-x3", "-x2");
      return {
        files: good.files.map((file) => ({ ...file, name: rename(file.name) })),
        expectations: {
          ...good.expectations,
          sheets: good.expectations.sheets.map((sheet) => ({ ...sheet, name: rename(sheet.name) })),
        },
      };
    },
    "prove.name",
  ],
  [
    "a kit more than the sheets give",
    () =>
      inRecord((record) => ({
        ...record,
        plates: record.plates.map((plate) => ({ ...plate, copies: plate.copies + 1 })),
      })),
    "prove.count",
  ],
  [
    "another plate in a plate's file",
    () => change(plateDxf, () => good.files[dxf]?.text ?? ""),
    "prove.missing",
  ],
  [
    "plates closer than the clearance",
    () => inRecord((record) => ({ ...record, clearance: 5.001 })),
    "prove.clearance",
  ],
  [
    "plates nearer to the edge than the margin",
    () => inRecord((record) => ({ ...record, edgeMargin: 10.001 + 15 })),
    "prove.margin",
  ],
  [
    "a plate over a keep-out",
    () =>
      inRecord((record) => ({
        ...record,
        sheets: record.sheets.map((sheet) => ({
          ...sheet,
          keepOuts: [
            [
              { x: 300, y: 250, bulge: 0 },
              { x: 340, y: 250, bulge: 0 },
              { x: 340, y: 270, bulge: 0 },
            ],
          ],
        })),
      })),
    "prove.keep-out",
  ],
  // Compensation
  [
    "nominal files where compensated ones are due",
    () => ({
      files: compensated.files.map((file, index) => ({
        name: file.name,
        text: good.files[index]?.text ?? "",
      })),
      expectations: compensated.expectations,
    }),
    "prove.half-kerf",
  ],
  [
    "compensated files where nominal ones are due",
    () => ({
      files: good.files.map((file, index) => ({
        name: file.name,
        text: compensated.files[index]?.text ?? "",
      })),
      expectations: good.expectations,
    }),
    "prove.changed",
  ],
  [
    "compensated for twice the kerf",
    () => {
      const twice = small(writeJob({ state: "compensated", kerf: kerf + 0.1 }));
      return {
        files: compensated.files.map((file, index) => ({
          name: file.name,
          text: twice.files[index]?.text ?? "",
        })),
        expectations: compensated.expectations,
      };
    },
    "prove.half-kerf",
  ],
  [
    "a hole compensated the wrong way",
    () =>
      change(
        dxf,
        (text) => edit(text, (all) => set(first(all, "opening", "CIRCLE"), 40, (r) => r + kerf)),
        compensated,
      ),
    "prove.half-kerf",
  ],
  [
    "an outline compensated the wrong way",
    () =>
      change(
        dxf,
        (text) => edit(text, (all) => set(first(all, "outline", "CIRCLE"), 40, (r) => r - kerf)),
        compensated,
      ),
    "prove.half-kerf",
  ],
  // SVG
  ["px for mm", () => inSvg((text) => text.replace(/(\d)mm"/g, '$1px"')), "prove.unit"],
  [
    "a viewBox of half the size",
    () => inSvg((text) => text.replace(/viewBox="0 0 [\d.]+ [\d.]+"/, 'viewBox="0 0 300 200"')),
    "prove.unit",
  ],
  ["no size", () => inSvg((text) => text.replace(/ width="[\d.]+mm" height="[\d.]+mm"/, "")), "prove.unit"],
  [
    "a path drawn twice",
    () => inSvg((text) => text.replace(/(<g id="outline-3"[\s\S]*?)(<path [^>]*>)/, "$1$2\n$2")),
    "prove.double",
  ],
  ["a path not closed", () => inSvg((text) => text.replace('Z"/>', '"/>')), "prove.open"],
  [
    "a circle of another radius",
    () => inSvg((text) => text.replace(/ r="3.3"/, ' r="3.31"')),
    "prove.changed",
  ],
  [
    "a group scaled",
    () => inSvg((text) => text.replace('<g id="outline-3"', '<g transform="scale(1.001)" id="outline-3"')),
    "prove.scale",
  ],
  [
    "a text element",
    () => inSvg((text) => text.replace("</svg>", '<text x="5" y="5">deck</text></svg>')),
    "import.not-understood",
  ],
  ["arcs as lines", () => inSvg((text) => text.replace(/A[\d.]+ [\d.]+ 0 0 [01] /g, "L")), "prove.changed"],
  ["an arc the other way", () => inSvg((text) => text.replace(/(A12 12 0 0 )0/, "$11")), "prove.changed"],
  [
    "a curve for an arc",
    () => inSvg((text) => text.replace(/A12 12 0 0 0 ([\d.]+) ([\d.]+)/, "Q$1 $2 $1 $2")),
    "prove.not-arcs",
  ],
  ["another group name", () => inSvg((text) => text.replace('id="outline-3"', 'id="cut"')), "prove.layer"],
  ["a tag never closed", () => inSvg((text) => text.replace("</g>", "")), "import.unreadable"],
  [
    "a drawing larger than its page",
    () =>
      inSvg((text) =>
        text.replace(
          /width="[\d.]+mm" height="([\d.]+)mm" viewBox="0 0 [\d.]+ /,
          'width="300mm" height="$1mm" viewBox="0 0 300 ',
        ),
      ),
    "prove.extent",
  ],
];
