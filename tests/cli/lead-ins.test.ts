import {
  circle,
  clockwise,
  deriveFrame,
  locateInRegion,
  placeContour,
  type Region,
  rectangle,
  signedArea,
} from "@keelcut/geometry";
import { describe, expect, it } from "vitest";
import { cutLinesOf } from "../../packages/cli/src/output/cut-lines.js";
import { leadInFindings, withLeadIns } from "../../packages/cli/src/output/lead-ins.js";
import { prove } from "../../packages/cli/src/prove/index.js";
import { tealParameters } from "../geometry/frame/teal.js";
import { edit, move, on, vertices } from "./prove-damage.js";
import { writeJob } from "./prove-samples.js";

const home = { x: 0, y: 0, rotation: 0, mirrored: false };

function linesOf(region: Region): ReturnType<typeof cutLinesOf>["openings"] {
  const { outline, openings } = cutLinesOf(region, [], home);
  return [...openings, outline];
}

describe("lead-ins", () => {
  const region: Region = {
    outer: rectangle(20, 20, 100, 60),
    openings: [
      clockwise(circle({ x: 60, y: 50 }, 12)),
      clockwise(circle({ x: 100, y: 50 }, 0.8)),
      clockwise(rectangle(28, 30, 14, 30)),
    ],
  };
  const led = withLeadIns(linesOf(region), 5);

  it("end where their line begins, in the waste outside an outline and inside an opening", () => {
    for (const [index, { line, leadIn }] of led.entries()) {
      if (index === 1) continue;
      const [start, end] = leadIn?.vertices ?? [];
      if (start === undefined || end === undefined) throw new Error(`no lead-in for line ${index}`);
      expect({ x: end.x, y: end.y }).toEqual({ x: line.contour[0]?.x, y: line.contour[0]?.y });
      expect(Math.hypot(end.x - start.x, end.y - start.y)).toBeCloseTo(5, 9);
      expect(locateInRegion(region, start)).toBe("outside");
    }
  });
  it("are left out where there is no room, and a finding counts them", () => {
    expect(led[1]?.leadIn).toBeUndefined();
    expect(leadInFindings(led, "plate")).toMatchObject([{ measured: 1, place: "plate", severity: "note" }]);
  });
  it("end in the middle of a side where reliefs leave no room at the corners", () => {
    const cutting = { ...tealParameters().cutting, method: "waterjet" as const, kerf: 1 };
    const { plates } = deriveFrame(tealParameters("75", { cutting }));
    const slots = plates.flatMap(({ region, features }) =>
      region.openings.filter((_, at) =>
        features.some(({ contour, kind }) => contour === at && kind === "tab-slot"),
      ),
    );
    expect(slots.length).toBeGreaterThan(2);
    for (const drawn of slots) {
      const slot = placeContour(drawn, { ...home, x: 500, y: 500 });
      const region = { outer: rectangle(0, 0, 1000, 1000), openings: [slot] };
      const [lead] = withLeadIns(linesOf(region), 4);
      const [start, end] = lead?.leadIn?.vertices ?? [];
      if (start === undefined || end === undefined) throw new Error("a slot without a lead-in");
      expect(locateInRegion(region, start)).toBe("outside");
      expect({ x: end.x, y: end.y }).toEqual({ x: lead?.line.contour[0]?.x, y: lead?.line.contour[0]?.y });
      expect(signedArea(lead?.line.contour ?? [])).toBeCloseTo(signedArea(slot), 9);
    }
  });
  it("are shorter between plates that lie close", () => {
    const near = rectangle(20, 85, 100, 20);
    const { outline } = cutLinesOf({ outer: near, openings: [] }, [], home);
    const stock = rectangle(0, 0, 125, 110);
    for (const { leadIn } of withLeadIns([...linesOf(region), outline], 30, stock)) {
      for (const { x, y } of leadIn?.vertices ?? []) {
        expect(x > 0 && y > 0 && x < 125 && y < 110).toBe(true);
      }
    }
  });
});

describe("files with lead-ins", () => {
  const size = { state: "nominal" as const };
  const good = writeJob(size, "R2000", { leadIns: { length: 4 } });
  const index = good.files.findIndex(({ name }) => /sheets.*01.*\.dxf$/.test(name));

  it.each(["R12", "R2000"] as const)("in %s are proved", (flavour) => {
    const { files, expectations } = writeJob(size, flavour, { leadIns: { length: 4 } });
    expect(expectations.sheets[0]?.reference.leadIns).toBeGreaterThan(15);
    expect(prove(files, expectations).findings).toEqual([]);
  });
  it.each([
    ["moved into a plate", 1],
    ["left out", 2],
  ])("are missed when one is %s", (_, kind) => {
    const text = edit(good.files[index]?.text ?? "", (entities) => {
      const starts = on(entities, "outline").flatMap((entity) => vertices(entity).slice(0, 1));
      const lead = on(entities, "mark").find((entity) => {
        const points = vertices(entity);
        const end = points[1];
        return points.length === 2 && starts.some(({ x, y }) => x === end?.x && y === end?.y);
      });
      if (lead === undefined) throw new Error("no lead-in");
      if (kind === 1) move(lead, 3, 3);
      else entities.splice(entities.indexOf(lead), 1);
    });
    const files = good.files.map((file, at) => (at === index ? { ...file, text } : file));
    expect(prove(files, good.expectations).findings.map(({ id }) => id)).toContain("prove.lead-in");
  });
  it("are no business of a job without", () => {
    const expectations = {
      ...good.expectations,
      sheets: good.expectations.sheets.map((sheet) => ({
        ...sheet,
        reference: { ...sheet.reference, leadIns: 0 },
      })),
    };
    expect(prove(good.files, expectations).proved).toBe(false);
  });
});
