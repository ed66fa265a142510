import { describe, expect, it } from "vitest";
import { shopProfileSchema } from "../../packages/cli/src/input/shop-profile.js";
import { fileFault } from "../../packages/cli/src/output/file-fault.js";
import { shop } from "./starter-texts.js";

// A shop profile that names no layers is read without asking the writers: this is why that is safe.
describe("the layer names a shop profile has by itself", () => {
  const { layerNames } = shopProfileSchema.shape.files.parse({});

  it.each(["R12", "R2000"] as const)("can be written as DXF %s, apart or as one", (flavour) => {
    expect(shop).not.toContain("layerNames");
    for (const layers of ["by-operation", "single"] as const) {
      expect(fileFault({ layers, layerNames, flavour })).toBeUndefined();
    }
  });

  it("would be refused when two of them were one", () => {
    const clash = { ...layerNames, mark: layerNames.outline };
    expect(fileFault({ layers: "by-operation", layerNames: clash, flavour: "R2000" })).toMatch(
      /cutting layer/,
    );
  });
});
