import { cableTie, deriveFrame, locate, type Plate, regionBounds } from "@keelcut/geometry";
import { describe, expect, it } from "vitest";
import { richParameters } from "./rich.js";

describe("the ties of skids", () => {
  const parameters = richParameters("75");
  const frame = deriveFrame(parameters);
  const plate = (template: string): Plate => {
    const found = frame.plates.find((one) => one.template === template);
    if (found === undefined) throw new Error(`no ${template}`);
    return found;
  };
  const cheek = plate("cheek");
  const { thickness } = parameters.sheets.structure;
  const skidFace = -parameters.cheek.below - thickness;
  const { minY: ground } = regionBounds(cheek.region);
  const tie = cableTie(parameters.ties.width);
  const middle = parameters.deck.length / 2 - parameters.cheek.footLength / 2;

  it("lie above the ground, which the tabs of the feet touch first", () => {
    expect(skidFace - ground).toBeGreaterThanOrEqual(tie.thickness + 1.5 - 1e-9);
  });

  it("are refused where the tab has no room for their notch", () => {
    const short = { ...parameters, cheek: { ...parameters.cheek, footLength: 36, cornerRadius: 12 } };
    expect(deriveFrame(short).findings).toContainEqual(
      expect.objectContaining({
        severity: "error",
        message: expect.stringMatching(/a foot is straight for 12 mm.*make cheek\.footLength longer/),
      }),
    );
  });

  it("have room on a short foot whose straight part has it", () => {
    const short = { ...parameters, cheek: { ...parameters.cheek, footLength: 44, cornerRadius: 5 } };
    expect(deriveFrame(short).findings.filter(({ place }) => place === "skid")).toEqual([]);
  });

  it.each([-1, 1])("pass through a notch of the tab, under the skid, foot at %d", (end) => {
    for (const side of [-1, 1]) {
      for (const down of [0.01, tie.thickness]) {
        const corner = { x: end * middle + (side * parameters.ties.width) / 2, y: skidFace - down };
        expect(locate(cheek.region.outer, corner)).toBe("outside");
      }
    }
    expect(locate(cheek.region.outer, { x: end * middle, y: skidFace + 0.1 })).toBe("inside");
    expect(locate(cheek.region.outer, { x: end * middle + 12, y: ground + 0.1 })).toBe("inside");
  });
});
