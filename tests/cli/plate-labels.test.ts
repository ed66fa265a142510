import { circle, deriveFrame, type Plate, type Region, rectangle } from "@keelcut/geometry";
import type { Sheet } from "@keelcut/nesting";
import { describe, expect, it } from "vitest";
import type { LaidOut } from "../../packages/cli/src/job/laid-out.js";
import { kitNumbers, plateLabels } from "../../packages/cli/src/job/plate-labels.js";
import { plateLabel } from "../../packages/cli/src/output/part-label.js";
import { strokeText, strokeTextWidth } from "../../packages/cli/src/output/strokes.js";
import { tealParameters } from "../geometry/frame/teal.js";
import { plate } from "./dxf-samples.js";

const square: Region = { outer: rectangle(0, 0, 10, 10), openings: [] };
const plates: Plate[] = [plate("deck", square), plate("cheek", square, { count: 2 })];

function laid(sheets: readonly (readonly [times: number, ...parts: string[]])[]): LaidOut {
  const at = { x: 0, y: 0, rotation: 0, mirrored: false };
  const made = sheets.map(
    ([times, ...parts]): Sheet => ({ stock: "s", times, placements: parts.map((part) => ({ part, ...at })) }),
  );
  return { result: { sheets: made } } as unknown as LaidOut;
}

describe("kit numbers", () => {
  it.each<[string, number, readonly (readonly [number, ...string[]])[], (number | undefined)[]]>([
    [
      "one kit on two sheets",
      1,
      [
        [1, "deck"],
        [1, "cheek", "cheek"],
      ],
      [1, 1],
    ],
    [
      "a sheet for each kit",
      2,
      [
        [1, "deck", "cheek", "cheek"],
        [1, "cheek", "cheek", "deck"],
      ],
      [1, 2],
    ],
    ["a sheet cut twice", 2, [[2, "deck", "cheek", "cheek"]], [undefined]],
    [
      "a sheet cut twice takes the first kits",
      3,
      [
        [1, "deck", "cheek", "cheek"],
        [2, "deck", "cheek", "cheek"],
      ],
      [3, undefined],
    ],
    [
      "plates of two kits on one sheet",
      2,
      [
        [1, "deck", "deck"],
        [1, "cheek", "cheek", "cheek", "cheek"],
      ],
      [undefined, undefined],
    ],
    [
      "spares",
      1,
      [
        [1, "deck", "cheek", "cheek"],
        [1, "deck"],
      ],
      [1, undefined],
    ],
  ])("for %s", (_, kits, sheets, expected) => {
    expect(kitNumbers([laid(sheets)], plates, kits)).toEqual([expected]);
  });
});

describe("labels of plates", () => {
  const frame = deriveFrame(tealParameters());
  const id = frame.plates[2]?.id ?? "";

  it("say id, revision and kit, then less and less", () => {
    expect(plateLabels(frame, 4)(id)).toEqual([`${id} A kit 4`, `${id} A`, id, "3"]);
    expect(plateLabels(frame)(id)).toEqual([`${id} A`, id, "3"]);
    const without = { ...frame, parameters: { ...frame.parameters, revision: "" } };
    expect(plateLabels(without)(id)).toEqual([id, "3"]);
  });
  it("are the fullest that fits", () => {
    const texts = ["carrier-front A kit 1", "carrier-front A", "7"];
    const strokes = (text: string): number => strokeText(text, { x: 0, y: 0 }, 3).strokes.length + 2;
    const room = (width: number): Region => ({ outer: rectangle(0, 0, width, 12), openings: [] });
    const drawn = (width: number): number => plateLabel(room(width), texts, [], "p").paths.length;
    const need = (text: string): number => strokeTextWidth(text, 2.5) + 3.5 + 4.5;
    expect(drawn(need("carrier-front A kit 1"))).toBe(strokes("carrier-front A kit 1"));
    expect(drawn(need("carrier-front A"))).toBe(strokes("carrier-front A"));
    expect(drawn(14)).toBe(strokes("7"));
    const none = plateLabel({ outer: circle({ x: 0, y: 0 }, 3), openings: [] }, texts, [], "p");
    expect(none.paths).toEqual([]);
    expect(none.findings[0]?.message).toContain('"7"');
  });
});
