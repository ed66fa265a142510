import type { OwnPlateParameters } from "@keelcut/geometry";
import { describe, expect, it } from "vitest";
import { tabInSlot } from "../../../packages/geometry/src/checks/tolerance-stack/tab-in-slot.js";
import { fitMachine } from "../../../packages/geometry/src/fit/machine.js";
import { ownPlate } from "../frame/own-plate-sample.js";
import { tealParameters } from "../frame/teal.js";

describe("joints at both ends of the tolerance", () => {
  // ISO 11833-1, pressed PVC-U: 5 +-0.35. A slot for the thickest is 5.35 + 0.2, its edges 0.1 off each.
  it("tabs and half-laps of own plates, on their own sheets", () => {
    const own = (id: string, sheet: OwnPlateParameters["sheet"], more: Partial<OwnPlateParameters>) =>
      ownPlate(id, { sheet, ...more });
    const thin = { material: "PVC-U", thickness: 5, grain: false };
    const tab = [{ into: "deck", at: { x: 0, y: -20 }, length: 20 }];
    const plates = [
      own("thin", thin, { tabs: tab, laps: [{ with: "exact" }] }),
      own("exact", { ...thin, measured: 5.1 }, {}),
      own("plain", thin, {}),
    ];
    const findings = tabInSlot(fitMachine(tealParameters("75", { plates }), []));
    const of = (id: string, place: string): readonly (number | undefined)[] =>
      findings.filter((one) => one.id === id && one.place === place).map(({ measured }) => measured);
    expect(of("fit.tab-thickness", "plates.thin")[0]).toBeCloseTo(5.35 + 0.2 - 0.2 - 5.35, 9);
    expect(of("fit.tab-length", "plates.thin")[0]).toBeCloseTo(0, 9);
    const laps = of("fit.lap-thickness", "plates.thin and plates.exact");
    expect(laps).toHaveLength(2);
    for (const play of laps) expect(play).toBeCloseTo(0, 9);
    expect(of("fit.lap-depth", "plates.thin and plates.exact")[0]).toBeCloseTo(0.4 - 0.2, 9);
    expect(findings.some(({ place }) => place.includes("plain"))).toBe(false);
    // At the thin end the tab is loose by the whole range: 5.55 + 0.2 - 4.65 in a slot cut large.
    const loose = findings.find(({ place, id }) => place === "plates.thin" && id === "fit.tab-thickness");
    expect(loose?.message).toContain("up to 1.1 mm loose");
  });
});
