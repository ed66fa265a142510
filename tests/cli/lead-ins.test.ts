import {
  circle,
  clockwise,
  compensateRegion,
  deriveFrame,
  locateInRegion,
  placeContour,
  pointDistance,
  type Region,
  rectangle,
  signedArea,
} from "@keelcut/geometry";
import { describe, expect, it } from "vitest";
import { cutLinesOf } from "../../packages/cli/src/output/cut-lines.js";
import type { LeadInWish } from "../../packages/cli/src/output/drawing.js";
import { leadInFindings, withLeadIns } from "../../packages/cli/src/output/lead-ins.js";
import { prove } from "../../packages/cli/src/prove/index.js";
import { tealParameters } from "../geometry/frame/teal.js";
import { edit, move, on, set, vertices } from "./prove-damage.js";
import { writeJob } from "./prove-samples.js";

const nominal = { state: "nominal" } as const;

/** Strokes for a cut a millimetre wide. */
const fine = (length: number): LeadInWish => ({ length, cutRadius: 0.5 });

const home = { x: 0, y: 0, rotation: 0, mirrored: false };

function compensated(region: Region, kerf: number): Region {
  const moved = compensateRegion(region, kerf);
  if (!moved.ok) throw new Error("the cutter does not fit");
  return moved.region;
}

function linesOf(region: Region): ReturnType<typeof cutLinesOf>["openings"] {
  const { outline, openings } = cutLinesOf(region, [], home);
  return [...openings, outline];
}

describe("lead-ins", () => {
  const region: Region = {
    outer: rectangle(20, 20, 100, 60),
    openings: [
      clockwise(circle({ x: 60, y: 50 }, 12)),
      clockwise(circle({ x: 100, y: 50 }, 0.55)),
      clockwise(rectangle(28, 30, 14, 30)),
    ],
  };
  const led = withLeadIns(linesOf(region), fine(5), nominal);

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
    expect(leadInFindings(led, "plate", fine(5), nominal)).toMatchObject([
      { measured: 1, place: "plate", severity: "note" },
    ]);
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
      const [lead] = withLeadIns(linesOf(region), fine(4), nominal);
      const [start, end] = lead?.leadIn?.vertices ?? [];
      if (start === undefined || end === undefined) throw new Error("a slot without a lead-in");
      expect(locateInRegion(region, start)).toBe("outside");
      expect({ x: end.x, y: end.y }).toEqual({ x: lead?.line.contour[0]?.x, y: lead?.line.contour[0]?.y });
      expect(signedArea(lead?.line.contour ?? [])).toBeCloseTo(signedArea(slot), 9);
    }
  });
  it.each([
    ["nominal", nominal],
    ["compensated", { state: "compensated", kerf: 3 } as const],
  ])(
    "leave room for the cut itself: nothing it takes is plate, clamp or beyond the sheet (%s)",
    (_, size) => {
      const cutRadius = 1.5;
      const plates = [0, 1, 2].map((k): Region => {
        const x = 20 + 66.1 * k;
        const holes = [2.25, 1.7, 4, 1.55].map((radius, i) =>
          clockwise(circle({ x: x + 12 * (i + 1), y: 40 }, radius)),
        );
        return {
          outer: rectangle(x, 20, 60, 40),
          openings: [...holes, clockwise(rectangle(x + 10, 48, 3.4, 8))],
        };
      });
      const around = {
        outline: rectangle(0, 0, 230, 70),
        keepOuts: [rectangle(30, 10, 12, 5), rectangle(150, 62, 30, 8)],
      };
      const drawn = size.state === "nominal" ? plates : plates.map((plate) => compensated(plate, size.kerf));
      const led = withLeadIns(drawn.flatMap(linesOf), { length: 6, cutRadius }, size, around);
      const strokes = led.flatMap(({ leadIn }) => (leadIn === undefined ? [] : [leadIn]));
      expect(strokes.length).toBeGreaterThan(8);
      for (const { vertices } of strokes) {
        const [start, end] = vertices;
        if (start === undefined || end === undefined) throw new Error("no stroke");
        const length = Math.hypot(end.x - start.x, end.y - start.y);
        // The middle of the cutter goes as far as the cut's own line: half a kerf short of a nominal one, more in a corner.
        const short = size.state === "nominal" ? Math.SQRT2 * cutRadius : 0;
        const reach = Math.max(0, 1 - short / length);
        for (let k = 0; k <= 8; k++) {
          const t = (k / 8) * reach;
          const at = { x: start.x + t * (end.x - start.x), y: start.y + t * (end.y - start.y) };
          for (const plate of plates) {
            expect(locateInRegion(plate, at)).toBe("outside");
            for (const contour of [plate.outer, ...plate.openings]) {
              expect(pointDistance(contour, at)).toBeGreaterThan(cutRadius - 1e-6);
            }
          }
          for (const keepOut of around.keepOuts)
            expect(pointDistance(keepOut, at)).toBeGreaterThan(cutRadius);
          expect(pointDistance(around.outline, at)).toBeGreaterThan(cutRadius);
        }
      }
    },
  );
  it("are shorter between plates that lie close, and enter none of them", () => {
    const plates = [rectangle(20, 20, 100, 40), rectangle(20, 70, 100, 20)];
    const lines = plates.map((outer) => cutLinesOf({ outer, openings: [] }, [], home).outline);
    // 5 mm around both and 10 mm between them: no stroke of 30 mm has room.
    const stock = { outline: rectangle(15, 15, 110, 80), keepOuts: [] };
    const strokes = withLeadIns(lines, fine(30), nominal, stock).map(({ leadIn }) => leadIn?.vertices ?? []);
    for (const [start, end] of strokes) {
      if (start === undefined || end === undefined) throw new Error("no stroke");
      expect(Math.hypot(end.x - start.x, end.y - start.y)).toBeLessThan(10);
      for (let t = 0; t < 1; t += 0.05) {
        const at = { x: start.x + t * (end.x - start.x), y: start.y + t * (end.y - start.y) };
        for (const outer of plates) expect(locateInRegion({ outer, openings: [] }, at)).toBe("outside");
        expect(locateInRegion({ outer: stock.outline, openings: [] }, at)).toBe("inside");
      }
    }
  });
});

describe("files with lead-ins", () => {
  const size = { state: "nominal" as const };
  const good = writeJob(size, "R2000", { leadIns: { length: 4, cutRadius: 0.5 } });
  const index = good.files.findIndex(({ name }) => /sheets.*01.*\.dxf$/.test(name));

  it.each(["R12", "R2000"] as const)("in %s are proved", (flavour) => {
    const { files, expectations } = writeJob(size, flavour, { leadIns: { length: 4, cutRadius: 0.5 } });
    expect(expectations.sheets[0]?.reference.leadIns).toBeGreaterThan(15);
    expect(prove(files, expectations).findings).toEqual([]);
  });
  it.each([
    ["moved away", 1],
    ["left out", 2],
    ["turned round its end into the plate", 3],
  ])("are missed when one is %s", (_, kind) => {
    const text = edit(good.files[index]?.text ?? "", (entities) => {
      const starts = on(entities, "outline").flatMap((entity) => vertices(entity).slice(0, 1));
      const lead = on(entities, "mark").find((entity) => {
        const points = vertices(entity);
        const end = points[1];
        return points.length === 2 && starts.some(({ x, y }) => x === end?.x && y === end?.y);
      });
      if (lead === undefined) throw new Error("no lead-in");
      const [start, end] = vertices(lead);
      if (start === undefined || end === undefined) throw new Error("no stroke");
      if (kind === 1) move(lead, 3, 3);
      else if (kind === 3) {
        set(lead, 10, () => 2 * end.x - start.x, 1);
        set(lead, 20, () => 2 * end.y - start.y, 1);
      } else entities.splice(entities.indexOf(lead), 1);
    });
    const files = good.files.map((file, at) => (at === index ? { ...file, text } : file));
    expect(prove(files, good.expectations).findings.map(({ id }) => id)).toContain("prove.lead-in");
  });
  it("are missed when a wider cut along them would take from another plate or meet the stock's edge", () => {
    const wider = { ...good.expectations, cutRadius: 40 };
    const messages = prove(good.files, wider).findings.map(({ message }) => message);
    expect(messages).toContainEqual(expect.stringContaining("takes from a plate"));
    expect(messages).toContainEqual(expect.stringContaining("meets the stock's edge or a keep-out"));
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
