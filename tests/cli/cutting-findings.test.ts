import { readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { circle, rectangle } from "@keelcut/geometry";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type ShopProfile, shopProfileSchema } from "../../packages/cli/src/input/shop-profile.js";
import { drilledOpenings } from "../../packages/cli/src/job/drilled-openings.js";
import { command, remove, scratch } from "./command-run.js";
import { opening, plate } from "./dxf-samples.js";
import { frame, shop, stock } from "./starter-texts.js";

let folder = "";
beforeAll(async () => {
  folder = await scratch({ "frame.yaml": frame, "stock.yaml": stock, "shop.yaml": shop });
});
afterAll(() => remove(folder));

interface Found {
  readonly id: string;
  readonly severity: string;
  readonly message: string;
}

/** Findings of the starter's frame at a shop with other lines in its profile. */
async function findings(change: (shop: string) => string, ...settings: readonly string[]): Promise<Found[]> {
  const changed = change(shop);
  await writeFile(join(folder, "shop.yaml"), changed);
  const ran = await command(
    ["check", "frame.yaml", "--json", ...settings.flatMap((one) => ["--set", one])],
    folder,
  );
  expect(ran.err).toBe("");
  return (JSON.parse(ran.out) as { findings: Found[] }).findings;
}

const asItIs = (text: string): string => text;
const withFiles = (lines: string) => (text: string) => text.replace(/\nfiles:\n/, `\nfiles:\n${lines}\n`);

it("drills a round hole that is just as wide as the cutter, and no wider one without a drill for it", () => {
  const profile = shopProfileSchema.parse({
    keelcut: 1,
    name: "-",
    currency: "EUR",
    cutting: { method: "router", kerf: 4 },
    feeds: [{ material: "PE-HD", feed: 1000 }],
    charges: {},
  });
  const holed = plate("holed", {
    outer: rectangle(0, 0, 90, 30),
    openings: [2, 4, 4.2, 6.6].map((across, index) =>
      opening(circle({ x: 15 + 20 * index, y: 15 }, across / 2)),
    ),
  });
  const across = (at: ShopProfile): number[] =>
    drilledOpenings(holed, at).map((diameter) => Number(diameter.toFixed(6)));
  expect(across(profile)).toEqual([2, 4]);
  const drills = [{ diameter: 6.6, plungeFeed: 300 }];
  const machine = { ...profile.machine, drills };
  expect(across({ ...profile, machine })).toEqual([2, 4, 6.6]);
  const laser = { ...profile.cutting, method: "laser" as const };
  expect(across({ ...profile, machine, cutting: laser })).toEqual([]);
});

describe("how a job is cut", () => {
  it.each([
    ["shop", 1.5, undefined],
    ["shop", 1.4, "warning"],
    ["file", 1.4, "error"],
    ["file", 0, "error"],
  ])(
    "compensated by the %s, with an edge margin of %d mm at a kerf of 3: %s",
    async (who, margin, severity) => {
      const settings = ["cutting.kerf=3", `cutting.edgeMargin=${margin}`, `cutting.compensation=${who}`];
      const found = (await findings(asItIs, ...settings)).find(({ id }) => id === "cutting.edge-margin");
      expect(found?.severity).toBe(severity);
      if (severity !== undefined) expect(found?.message).toContain("at least 1.5 mm");
    },
  );

  it("asks who compensates for a laser, unless it is written", async () => {
    const unsaid = (text: string): string => text.replace(/\n *compensation:[^\n]*/, "");
    expect(unsaid(shop)).not.toMatch(/^ *compensation:/m);
    const laser = ["cutting.method=laser", "cutting.kerf=0.2", "sheets.carrier.material=PE-HD"];
    const warned = async (...more: string[]): Promise<boolean> =>
      (await findings(unsaid, ...laser, ...more)).some(({ id }) => id === "cutting.laser-compensation");
    expect(await warned()).toBe(true);
    expect(await warned("cutting.compensation=shop")).toBe(false);
    expect(await warned("cutting.compensation=file")).toBe(false);
    expect(await warned("cutting.method=router")).toBe(false);
  });

  it("refuses compensated lines that would lie on each other", async () => {
    const settings = ["cutting.kerf=3", "cutting.clearance=3", "cutting.compensation=file"];
    const ran = await command(["check", "frame.yaml", ...settings.flatMap((one) => ["--set", one])], folder);
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(/would lie on each other; leave a safetyGap/);
  });

  it("says why no lead-in is drawn when all are too short for the kerf", async () => {
    const short = await findings(withFiles("  leadIns: {length: 2}"), "cutting.kerf=3");
    expect(short.find(({ id }) => id === "cutting.lead-in-length")?.message).toContain(
      "leadIns: {length: 3}",
    );
    const long = await findings(withFiles("  leadIns: {length: 3}"), "cutting.kerf=3");
    expect(long.some(({ id }) => id === "cutting.lead-in-length")).toBe(false);
  });

  it("takes a hole for drilled that the shop has a drill for, and tells the machine how many", async () => {
    const narrow = ["cutting.kerf=5"];
    const isHole = ({ id, message }: Found): boolean =>
      id === "cuttability.opening" && /3\.4 mm wide.*have it drilled/.test(message);
    expect((await findings(asItIs, ...narrow)).some(isHole)).toBe(true);
    const drills = (text: string): string =>
      `${text}\nmachine: {drills: [{diameter: 3.4, plungeFeed: 300}]}\n`;
    expect((await findings(drills, ...narrow)).some(isHole)).toBe(false);
    const ran = await command(
      ["make", "frame.yaml", "--out", "drilled", "--effort", "0.2", "--set", "cutting.kerf=5"],
      folder,
    );
    expect([ran.code, ran.err]).toEqual([0, ""]);
    const list = await readFile(join(folder, "drilled/cutting-list.html"), "utf8");
    expect(list).toMatch(/<br>Drill \d+ × 3\.4 mm/);
    expect(list).toContain("which may be 5 mm wide at most");
  }, 60_000);

  it("warns the machine when nothing holds the plates", async () => {
    const list = async (change: (text: string) => string, out: string): Promise<string> => {
      await writeFile(join(folder, "shop.yaml"), change(shop));
      const ran = await command(["make", "frame.yaml", "--out", out, "--effort", "0.2"], folder);
      expect([ran.code, ran.err]).toEqual([0, ""]);
      return readFile(join(folder, out, "cutting-list.html"), "utf8");
    };
    expect(await list(asItIs, "free")).toContain("Plates come loose as they are cut");
    expect(await list(withFiles("  bridges: {count: 3}"), "held")).not.toContain("Plates come loose");
  }, 60_000);
});
