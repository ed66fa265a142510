import { bounds, type Plate, regionArea } from "@keelcut/geometry";
import { describe, expect, it } from "vitest";
import { framed, ownPlate as own, plateOf, seat, structure } from "./own-plate-sample.js";
import { tealParameters } from "./teal.js";

const width = (plate: Plate): number => bounds(plate.region.outer).maxX - bounds(plate.region.outer).minX;

describe("copies", () => {
  const bracket = own("bracket", {
    outline: {
      kind: "polygon",
      corners: [
        { x: 0, y: 0, radius: 0 },
        { x: 50, y: 0, radius: 0 },
        { x: 0, y: 40, radius: 4 },
      ],
    },
    seats: [seat(130, 40, 0, "along"), seat(130, -50, 0, "across", { mirrored: true })],
  });

  it("that are mirror images cut as one shape", () => {
    const plate = plateOf(framed([bracket]), "own-bracket");
    expect([plate.count, plate.seats.length]).toEqual([2, 2]);
    expect(width(plate)).toBeCloseTo(50, 6);
    // The second copy is the first shape turned over in the mirror image's place: back to front, a thickness farther.
    const apart = framed([{ ...bracket, mirrorable: false }]).plates;
    const [place] = apart.find(({ id }) => id === "own-bracket-mirrored")?.seats ?? [];
    const [, turned] = plate.seats;
    if (place === undefined || turned === undefined) throw new Error("no second seat");
    expect(turned.u).toEqual(place.u.map((value) => -value));
    expect(turned.v).toEqual(place.v);
    const [a, b] = [place.u, place.v];
    const normal = [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
    turned.origin.forEach((value, axis) => {
      const shift = plate.sheet.thickness * (normal[axis] ?? Number.NaN);
      expect(value).toBeCloseTo((place.origin[axis] ?? Number.NaN) + shift, 9);
    });
  });

  it("are two shapes when one face must stay up", () => {
    const ids = framed([{ ...bracket, mirrorable: false }]).plates.map(({ id }) => id);
    expect(ids.filter((id) => id.startsWith("own-"))).toEqual(["own-bracket", "own-bracket-mirrored"]);
  });

  it("weigh what their own measured sheet does", () => {
    const sheet = { material: "PMMA cast", thickness: 8, measured: 7.4, grain: false };
    const frame = framed([{ ...bracket, sheet }]);
    const { region } = plateOf(frame, "own-bracket");
    const mass = frame.dimensions.find(({ name }) => name === "own-bracket.mass")?.value;
    // PMMA: 1190 kg/m3 (ISO 7823-1).
    expect(mass).toBeCloseTo((regionArea(region) * 7.4 * 1190) / 1e6, 6);
  });

  it("have no lug behind a body that is narrower than their tabs are long", () => {
    const strip = own("strip", {
      outline: { kind: "rectangle", width: 100, height: 8, radius: 0, at: { x: 0, y: 0 } },
      tabs: [{ into: "deck", at: { x: 0, y: -4 }, length: 20 }],
      loose: 1,
    });
    const plate = plateOf(framed([strip]), "own-strip");
    const { minY, maxY } = bounds(plate.region.outer);
    expect([minY, maxY]).toEqual([-14, 4]);
  });

  it("share what was measured on another sheet of their stock", () => {
    const { material, thickness } = structure;
    const sheets = {
      ...tealParameters("75").sheets,
      structure: { material, thickness, measured: thickness + 0.2 },
    };
    const frame = framed([{ ...bracket, sheet: { material, thickness } }], { sheets });
    expect(plateOf(frame, "own-bracket").sheet.measured).toBe(thickness + 0.2);
  });

  it("of a plate with a grain lie along it", () => {
    const plate = plateOf(framed([{ ...bracket, sheet: { ...structure, grain: true } }]), "own-bracket");
    expect(plate.rotations).toEqual([0, 180]);
  });

  it("bring their hardware, each its own", () => {
    const hardware = [{ item: "screw ISO 4762 M4x20", kind: "screw", count: 3 } as const];
    const frame = framed([{ ...bracket, hardware, loose: 1 }]);
    const item = frame.hardware.find((one) => one.item === "screw ISO 4762 M4x20");
    expect(item?.uses).toMatchObject([{ place: "plates.bracket", count: 9 }]);
  });
});
