import { bounds, type Frame, type Plate, regionArea } from "@keelcut/geometry";
import { exitCodes } from "../exit-codes.js";
import { readFrame } from "../input/read-frame.js";
import { derived, hasErrors } from "../job/derived.js";
import { stableJson } from "../output/stable-json.js";
import { findingsCount, findingsText } from "../screen/findings-text.js";
import { numberText } from "../screen/number-text.js";
import type { Screen } from "../screen/screen.js";
import { table } from "../screen/table.js";
import { type SettingOptions, settingsOf } from "./options.js";
import { expectRunOf } from "./short-run.js";

/** Lists the plates, hardware and lengths of one kit. Exit code 1 when the frame cannot work as it stands. */
export async function plates(path: string, options: SettingOptions, screen: Screen): Promise<number> {
  expectRunOf("a fraction of a second");
  const input = await readFrame(path, settingsOf(options), screen.cwd);
  const { frame, findings } = derived(input);
  if (options.json === true) {
    const { plates, hardware, lengths, dimensions } = frame;
    const rows = plates.map(plateFacts);
    screen.print(
      stableJson({
        format: "keelcut-plates",
        version: 1,
        frame: frame.parameters.name,
        plates: rows,
        hardware,
        lengths,
        dimensions,
        findings,
      }),
    );
  } else {
    screen.print(text(frame));
    const serious = findings.filter((finding) => finding.severity === "error");
    if (serious.length > 0) screen.print(`\n${findingsText(serious, screen)}`);
    screen.print(`\n${findingsCount(findings)}${findings.length > 0 ? "; keelcut check lists them" : ""}`);
  }
  return hasErrors(findings) ? exitCodes.findings : exitCodes.fine;
}

/** What a list says about a plate; lengths mm, area mm2. */
interface PlateFacts {
  readonly id: string;
  readonly name: string;
  readonly template: string;
  readonly made: Plate["made"];
  readonly material: string;
  readonly thickness: number;
  readonly count: number;
  readonly length: number;
  readonly width: number;
  readonly area: number;
  readonly openings: number;
}

function plateFacts(plate: Plate): PlateFacts {
  const box = bounds(plate.region.outer);
  return {
    id: plate.id,
    name: plate.name,
    template: plate.template,
    made: plate.made,
    material: plate.sheet.material,
    thickness: plate.sheet.thickness,
    count: plate.count,
    length: box.maxX - box.minX,
    width: box.maxY - box.minY,
    area: regionArea(plate.region),
    openings: plate.region.openings.length,
  };
}

function text(frame: Frame): string {
  const plateRows = frame.plates
    .map(plateFacts)
    .map((plate) => [
      plate.id,
      plate.made === "cut" ? `${plate.material} ${plate.thickness}` : "print 1:1",
      String(plate.count),
      `${numberText(plate.length, 1)} x ${numberText(plate.width, 1)}`,
      numberText(plate.area / 100, 1),
      String(plate.openings),
    ]);
  const hardwareRows = frame.hardware.map((item) => [item.item, String(item.count), ""]);
  const lengthRows = frame.lengths.map((item) => [
    item.item,
    String(item.count),
    `${numberText(item.length, 1)} mm`,
  ]);
  return [
    table(
      [
        { title: "plate" },
        { title: "material, mm" },
        { title: "count", right: true },
        { title: "size, mm", right: true },
        { title: "area, cm2", right: true },
        { title: "openings", right: true },
      ],
      plateRows,
    ),
    "",
    table(
      [{ title: "hardware" }, { title: "count", right: true }, { title: "length", right: true }],
      [...hardwareRows, ...lengthRows],
    ),
  ].join("\n");
}
