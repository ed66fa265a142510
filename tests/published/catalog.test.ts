import {
  cableTie,
  capScrew,
  catalog,
  clearanceHole,
  hexSpacer,
  motorPattern,
  roundSpacer,
  sheetMaterial,
  thread,
  UnknownEntry,
} from "@keelcut/geometry";
import { describe, expect, test } from "vitest";

const tables = catalog();

describe("The catalog", () => {
  test("holds every table once, each with rows and a source", () => {
    expect(tables.length).toBeGreaterThanOrEqual(30);
    expect(new Set(tables.map(({ id }) => id)).size).toBe(tables.length);
    for (const { title, source, rows } of tables) {
      expect(title).not.toBe("");
      expect(source).not.toMatch(/^\s*$|https?:|www\./);
      expect(rows.length).toBeGreaterThan(0);
    }
  });

  test.each(tables.map((table) => [table.id, table] as const))(
    "%s: every row fills its columns",
    (_, table) => {
      expect(new Set(table.columns).size).toBe(table.columns.length);
      for (const row of table.rows) {
        expect(row.length).toBe(table.columns.length);
        for (const cell of row) {
          if (typeof cell === "number") expect(Number.isFinite(cell)).toBe(true);
          else if (typeof cell === "string") expect(cell).not.toMatch(/undefined|NaN|\[object/);
          else expect(cell).toBeNull();
        }
      }
    },
  );

  test("has more than 300 rows and names its basis", () => {
    expect(tables.reduce((sum, { rows }) => sum + rows.length, 0)).toBeGreaterThan(300);
    const bases = ["standard", "common practice", "from memory", "computed"];
    expect(tables.filter(({ basis }) => !bases.includes(basis))).toEqual([]);
  });

  test("a table from memory says so in its source or note", () => {
    const fromMemory = tables.filter(({ basis }) => basis === "from memory");
    expect(fromMemory.length).toBeGreaterThan(4);
    for (const { source, note } of fromMemory) expect(`${source} ${note}`).toContain("memory");
  });

  test("prints what the look-ups return", () => {
    const value = (id: string, name: string, column: string) => {
      const table = tables.find((each) => each.id === id);
      const row = table?.rows.find((each) => each[0] === name);
      return row?.[table?.columns.indexOf(column) ?? -1];
    };
    expect(value("iso-273", "M6", "medium")).toBe(clearanceHole("M6", "medium"));
    expect(value("iso-4762", "M3", "lengths")).toBe(capScrew("M3").lengths.join(", "));
    expect(value("iso-724", "M8", "stressArea")).toBeCloseTo(thread("M8").stressArea, 5);
    expect(value("sheet-materials", "PE-HD", "expansion")).toBe(sheetMaterial("PE-HD").expansion);
    expect(value("sheet-materials", "PMMA cast", "thickness")).toBe("0.4 + 0.1 t");
    expect(value("motor-patterns", "stator 22", "pattern")).toBe(
      "cross: 2 holes on circle 16, 2 on circle 19",
    );
  });
});

describe("Look-ups", () => {
  const asked = (look: () => unknown): UnknownEntry => {
    try {
      look();
    } catch (error) {
      if (error instanceof UnknownEntry) return error;
    }
    throw new Error("no UnknownEntry was thrown");
  };

  test("an unknown name is answered with the nearest by value", () => {
    const error = asked(() => clearanceHole("M11", "medium"));
    expect(error.table).toContain("ISO 273");
    expect(error.asked).toBe("M11");
    expect(error.nearest).toEqual(["M10", "M12", "M8"]);
    expect(error.message).toContain("M11");
  });

  test("lower case is a miss that names the right one", () => {
    expect(asked(() => thread("m6")).nearest[0]).toBe("M6");
  });

  test.each(["constructor", "__proto__", "toString", ""])("the inherited name %s is unknown", (name) => {
    expect(asked(() => thread(name)).nearest.length).toBe(3);
  });

  test("a button head M2 does not exist in the standard, a tie of 5 mm is not sold", () => {
    expect(asked(() => cableTie(5)).nearest[0]).toBe("4.8");
  });

  test.each([2.5, 3.6, 4.8, 7.6])("a slot lets a tie %d mm wide pass with play", (width) => {
    const tie = cableTie(width);
    expect(tie.slotWidth).toBeGreaterThan(tie.width + 0.5);
    expect(tie.slotHeight).toBeGreaterThan(tie.thickness + 0.5);
    expect(tie.bundles.length).toBe(tie.lengths.length);
    // A bundle and the head and tail together cannot be longer than the tie.
    tie.lengths.forEach((length, i) => {
      expect(Math.PI * (tie.bundles[i] as number) + 25).toBeLessThanOrEqual(length);
    });
  });

  test.each(["M2", "M2.5", "M3", "M4", "M5", "M6", "M8"])(
    "a round spacer %s passes its screw and has a wall",
    (name) => {
      const spacer = roundSpacer(name);
      expect(spacer.bore).toBeGreaterThan(thread(name).majorMax);
      expect(spacer.outside - spacer.bore).toBeGreaterThanOrEqual(1.6);
      expect([...spacer.lengths].sort((a, b) => a - b)).toEqual(spacer.lengths);
    },
  );

  test("a hexagon spacer M3 is 5.5 across flats, 5 and 6 are sold too", () => {
    expect(hexSpacer("M3")).toMatchObject({ acrossFlats: 5.5, otherFlats: [5, 6] });
    expect(motorPattern("NEMA 17").pattern).toEqual({ kind: "rectangle", width: 31, height: 31 });
  });
});
