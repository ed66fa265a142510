import { afterEach, describe, expect, it } from "vitest";
import { InputError } from "../../packages/cli/src/input/input-error.js";
import { readFrame } from "../../packages/cli/src/input/read-frame.js";
import { remove, scratch } from "./command-run.js";
import { estimateOf, frameOf, stockOf } from "./cost-fixture.js";
import { frame, shop, stock } from "./starter-texts.js";

let folder = "";
afterEach(() => remove(folder));

const starter = { "frame.yaml": frame, "stock.yaml": stock, "shop.yaml": shop };

async function read(
  files: Record<string, string>,
  settings: readonly string[] = [],
  path = "frame.yaml",
): ReturnType<typeof readFrame> {
  folder = await scratch({ ...starter, ...files });
  return await readFrame(path, settings, folder);
}

async function problemsOf(reading: ReturnType<typeof readFrame>): Promise<string> {
  const error: unknown = await reading.then(
    () => undefined,
    (reason: unknown) => reason,
  );
  if (error instanceof InputError) return error.message;
  throw new Error(`no InputError but ${String(error)}`);
}

describe("a frame file", () => {
  it("becomes parameters with every default filled in", async () => {
    const { parameters } = await read({});
    expect(parameters.name).toBe("Starter");
    expect(parameters.revision).toBe("A");
    expect(parameters.ducts.map((duct) => duct.id)).toEqual(["port", "starboard"]);
    expect(parameters.ducts[0]?.at).toEqual({ x: -40, y: 75 });
    expect(parameters.ducts[0]?.pipe).toEqual({ standard: "EN 1329-1", size: "75" });
    expect(parameters.motors["outrunner"]?.pattern).toEqual({ kind: "cross", diameters: [16, 19] });
    expect(parameters.rods).toEqual({ thread: "M6", gapAllowance: 0.3 });
    expect(parameters.ducts[0]?.carrier.spokes).toBe(4);
  });

  it("cuts as the shop profile says: clearance is kerf plus safety gap, without binary dust", async () => {
    const { parameters } = await read({});
    expect(parameters.cutting).toEqual({
      method: "router",
      kerf: 3,
      clearance: 5,
      edgeMargin: 15,
      compensation: "shop",
    });
  });

  it("may cut otherwise than the shop profile says, and the shop then reckons with that", async () => {
    const { parameters, shop } = await read({}, ["cutting={kerf: 6, edgeMargin: 20, compensation: file}"]);
    expect(parameters.cutting).toMatchObject({ kerf: 6, clearance: 8, edgeMargin: 20, compensation: "file" });
    expect(shop?.cutting).toMatchObject({ kerf: 6, safetyGap: 2, edgeMargin: 20, compensation: "file" });
  });

  it("takes packs of several sizes of one item, of which the cheapest are bought", async () => {
    const singly = "  - {item: nut ISO 4032 M4, price: 0.2}\n";
    const both = stock.replace("hardware:\n", `hardware:\n${singly}`);
    const given = await read({ "stock.yaml": both });
    const hardware = given.stock?.hardware ?? [];
    const nuts = hardware.filter(({ item }) => item === "nut ISO 4032 M4");
    expect(nuts.map(({ pack }) => pack)).toEqual([1, 50]);
    const nutsOnly = frameOf({ hardware: [{ item: "nut ISO 4032 M4", kind: "nut", count: 13, uses: [] }] });
    const bought = async (kits: number) =>
      (await estimateOf(kits, { frame: nutsOnly, stockList: stockOf({ hardware: nuts }) })).totals.groups
        .hardware;
    // 13 single ones are 2.60, a pack of 50 is 1.80; 52 are a pack and two more.
    expect(await bought(1)).toBe(180);
    expect(await bought(4)).toBe(180 + 2 * 20);
    expect(
      await problemsOf(read({ "stock.yaml": both.replace("hardware:\n", `hardware:\n${singly}`) })),
    ).toMatch(/hardware\[1\]\.item: "nut ISO 4032 M4" is priced twice/);
  });

  it("tells which fields of the other files were written", async () => {
    const { given } = await read({});
    expect(given("shop.charges.perHour")).toBe(true);
    expect(given("shop.machine.travelFeed")).toBe(false);
    expect(given("stock.sawKerf")).toBe(true);
    expect(given("toString")).toBe(false);
  });

  it.each([
    ["{circle: 25}", { kind: "circle", diameter: 25, holes: 4 }],
    ["{circle: 6, holes: 3}", { kind: "circle", diameter: 6, holes: 3 }],
    ["{rectangle: [31, 23]}", { kind: "rectangle", width: 31, height: 23 }],
  ])("reads the motor pattern %s", async (text, pattern) => {
    const { parameters } = await read({}, [`motors.outrunner.pattern=${text}`]);
    expect(parameters.motors["outrunner"]?.pattern).toEqual(pattern);
  });

  it("keeps a size that looks like no number, and a height", async () => {
    const { parameters } = await read({}, [
      "ducts.port.pipe={standard: ASTM D1785, size: 1-1/2}",
      "ducts.port.at=[1, 2, 3]",
    ]);
    expect(parameters.ducts[0]?.pipe).toEqual({ standard: "ASTM D1785", size: "1-1/2" });
    expect(parameters.ducts[0]?.at).toEqual({ x: 1, y: 2, z: 3 });
  });

  it("may repeat values through aliases", async () => {
    const text = frame
      .replace("pipe: {standard: EN 1329-1, size: 75}", "pipe: &pipe {standard: EN 1329-1, size: 110}")
      .replace("pipe: {standard: EN 1329-1, size: 75}", "pipe: *pipe");
    const { parameters } = await read({ "frame.yaml": text });
    expect(parameters.ducts.map((duct) => duct.pipe.size)).toEqual(["110", "110"]);
  });

  it("may begin with a byte order mark and end its lines with CR LF", async () => {
    const { parameters } = await read({ "frame.yaml": `\ufeff${frame.replaceAll("\n", "\r\n")}` });
    expect(parameters.name).toBe("Starter");
  });
});

describe("extends", () => {
  const small = "keelcut: 1\nextends: ../frame.yaml\nname: Small\n";

  it("lays a file over another: lists with ids by id, other values replaced", async () => {
    const text = `${small}ducts:\n  - {id: starboard, length: 90, at: [1, 2]}\n  - {id: third, axis: heave, at: [0, 0], pipe: {outside: 50, wall: 2}, length: 80, motor: outrunner}\n`;
    const { parameters } = await read({ "variants/small.yaml": text }, [], "variants/small.yaml");
    expect(parameters.name).toBe("Small");
    expect(parameters.ducts.map((duct) => [duct.id, duct.length, duct.at.x])).toEqual([
      ["port", 120, -40],
      ["starboard", 90, 1],
      ["third", 80, 0],
    ]);
    expect(parameters.ducts[1]?.pipe.size).toBe("75");
  });

  it("lets a stock list add to another, offcuts of the last job to what can be bought", async () => {
    const offcuts = `keelcut: 1\nextends: ../stock.yaml\ncurrency: EUR\noffcuts:\n  - {id: left, material: PE-HD, thickness: 10, outline: [[0, 0], [300, 0], [300, 200]]}\nsheets:\n  - {id: pe-10-small, material: PE-HD, thickness: 10, length: 500, width: 500, price: 20}\n`;
    const input = await read({ "left/offcuts.yaml": offcuts }, ["stock=left/offcuts.yaml"]);
    expect(input.stock?.offcuts.map(({ id }) => id)).toEqual(["pvc-5-rest", "left"]);
    expect(input.stock?.sheets).toHaveLength(3);
    expect(input.stock?.sheets.find(({ id }) => id === "pe-10-small")?.price).toBe(20);
    expect(input.stock?.hardware.length).toBeGreaterThan(3);
    expect(input.stockFile).toBe("left/offcuts.yaml");
    const files = input.files.map((file) => file.slice(folder.length + 1));
    expect(files).toEqual(expect.arrayContaining(["left/offcuts.yaml", "stock.yaml"]));
  });

  it("merges hardware by what is sold how by whom, and lengths by their length too", async () => {
    const own = `keelcut: 1\nextends: stock.yaml\ncurrency: EUR\nhardware:\n  - {item: motor outrunner, price: 9}\n  - {item: motor outrunner, supplier: Shed, price: 8}\nlengths:\n  - {item: rod DIN 976 M6, length: 2000, price: 2}\n`;
    const before = (await read({})).stock;
    const { stock: after } = await read({ "own.yaml": own }, ["stock=own.yaml"]);
    expect(after?.hardware).toHaveLength((before?.hardware.length ?? 0) + 1);
    expect(after?.lengths).toHaveLength((before?.lengths.length ?? 0) + 1);
    const motors = after?.hardware.filter(({ item }) => item === "motor outrunner");
    expect(motors?.map(({ price }) => price)).toEqual([9, 8]);
  });

  it("takes a pack of one for one piece, and two of a name in one list for two", async () => {
    const list = (hardware: string): string =>
      `keelcut: 1\nextends: stock.yaml\ncurrency: EUR\nhardware:\n${hardware}`;
    const single = list("  - {item: motor outrunner, pack: 1, price: 9}\n");
    const { stock: after } = await read({ "own.yaml": single }, ["stock=own.yaml"]);
    const motors = after?.hardware.filter(({ item }) => item === "motor outrunner");
    expect(motors?.map(({ price }) => price)).toEqual([9]);
    const twice = list("  - {item: anode, price: 9}\n  - {item: anode, price: 99}\n");
    await expect(read({ "own.yaml": twice }, ["stock=own.yaml"])).rejects.toThrow(/anode.*priced twice/);
  });

  it("takes a value that null takes back for not given", async () => {
    const { given } = await read({}, ["cutting.kerf=null", "cutting.clearance=9"]);
    expect([given("frame.cutting.kerf"), given("frame.cutting.clearance")]).toEqual([false, true]);
  });

  it("finds stock list and shop profile beside the file that names them", async () => {
    const moved = {
      "variants/small.yaml": `${small}shop: own.yaml\n`,
      "variants/own.yaml": shop.replace("Own router", "Shed"),
    };
    const input = await read(moved, [], "variants/small.yaml");
    expect(input.shop?.name).toBe("Shed");
    expect(input.stock?.sheets).toHaveLength(3);
    expect(input.files.map((file) => file.slice(folder.length + 1)).sort()).toEqual([
      "frame.yaml",
      "stock.yaml",
      "variants/own.yaml",
      "variants/small.yaml",
    ]);
  });

  it("takes a value back to its default with null", async () => {
    const base = frame.replace("rods: {thread: M6}", "rods: {thread: M8, gapAllowance: 0.5}");
    const over = `${small}rods: {gapAllowance: null}\n`;
    const { parameters } = await read({ "frame.yaml": base, "variants/s.yaml": over }, [], "variants/s.yaml");
    expect(parameters.rods).toEqual({ thread: "M8", gapAllowance: 0.3 });
  });

  it("replaces a motor pattern whole: half an old and half a new one make no sense", async () => {
    const over = `${small}motors: {outrunner: {pattern: {circle: 25}}}\n`;
    const { parameters } = await read({ "variants/s.yaml": over }, [], "variants/s.yaml");
    expect(parameters.motors["outrunner"]?.pattern).toEqual({ kind: "circle", diameter: 25, holes: 4 });
    expect(parameters.motors["outrunner"]?.threadDepth).toBe(4);
  });

  it("names the file in which the mistake stands", async () => {
    const base = frame.replace("length: 120", "length: -120");
    const says = await problemsOf(
      read({ "frame.yaml": base, "variants/s.yaml": small }, [], "variants/s.yaml"),
    );
    expect(says).toMatch(/^frame\.yaml:22:13: ducts\.port\.length: -120/);
    const over = `${small}deck: {length: -1}\n`;
    const other = await problemsOf(read({ "variants/s.yaml": over }, [], "variants/s.yaml"));
    expect(other).toMatch(/^variants\/s\.yaml:4:16: deck\.length: -1/);
  });

  it("follows a chain in the right order", async () => {
    const files = {
      "b.yaml": "extends: frame.yaml\nname: B\nrevision: B\n",
      "c.yaml": "extends: b.yaml\nname: C\n",
    };
    const { parameters } = await read(files, [], "c.yaml");
    expect([parameters.name, parameters.revision]).toEqual(["C", "B"]);
  });
});

describe("--set", () => {
  it.each([
    ["ducts.port.pipe.size=110", "port pipe"],
    ["ducts.*.pipe.size=110", "both pipes"],
  ])("%s changes the %s", async (setting, which) => {
    const { parameters } = await read({}, [setting]);
    const sizes = parameters.ducts.map((duct) => duct.pipe.size);
    expect(sizes).toEqual(which === "both pipes" ? ["110", "110"] : ["110", "75"]);
  });

  it("applies in order: the last one holds", async () => {
    const { parameters } = await read({}, ["ducts.*.length=90", "ducts.starboard.length=100"]);
    expect(parameters.ducts.map((duct) => duct.length)).toEqual([90, 100]);
  });

  it("reaches entries without id by position, makes sections that are not there, and adds motors", async () => {
    const { parameters } = await read({}, [
      "ducts.port.at.1=80",
      "cheek.handle=false",
      "motors.other={pattern: {circle: 25}, screw: M3, body: {diameter: 20, length: 20}, threadDepth: 3}",
      "ducts.port.motor=other",
    ]);
    expect(parameters.ducts[0]?.at).toEqual({ x: -40, y: 80 });
    expect(parameters.cheek.handle).toBe(false);
    expect(parameters.ducts[0]?.motor).toBe("other");
  });

  it("keeps the rest of a text that holds an equals sign", async () => {
    const { parameters } = await read({}, ["name=a=b"]);
    expect(parameters.name).toBe("a=b");
  });

  it("finds a stock list from the working folder", async () => {
    const two = stock.replace("id: pe-10-large", "id: pe-10-other");
    const files = { "variants/small.yaml": "extends: ../frame.yaml\n", "two.yaml": two };
    const { stock: read2 } = await read(files, ["stock=two.yaml"], "variants/small.yaml");
    expect(read2?.sheets[0]?.id).toBe("pe-10-other");
  });

  it("takes null for the default, and says so when there is none", async () => {
    const { parameters } = await read({}, ["rods=null"]);
    expect(parameters.rods.thread).toBe("M6");
    expect(await problemsOf(read({}, ["name=null"]))).toBe(
      "--set name=null: name: is missing (Name of the frame)",
    );
  });
});

describe("many problems", () => {
  it("are all named, in the order of the lines", async () => {
    const text = frame
      .replace("name: Starter", "nam: Starter")
      .replace("length: 120", "length: -1")
      .replace("screw: M3", "screw: 3");
    const says = await problemsOf(read({ "frame.yaml": text }));
    const lines = says.split("\n").map((line) => Number(line.split(":")[1]));
    expect(lines.length).toBe(3);
    expect(lines).toEqual([...lines].sort((a, b) => a - b));
  });

  it("of frame, stock list and shop profile come together", async () => {
    const says = await problemsOf(
      read({
        "frame.yaml": frame.replace("size: 75", "size: 76"),
        "stock.yaml": stock.replace("price: 62", "price: -62"),
        "shop.yaml": shop.replace("kerf: 3 ", "kerf: 0 "),
      }),
    );
    expect(says).toContain("frame.yaml:21:39");
    expect(says).toContain("stock.yaml:");
    expect(says).toContain("shop.yaml:");
  });
});
