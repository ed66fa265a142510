import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { afterEach, expect, it } from "vitest";
import { command, remove, scratch } from "./command-run.js";
import { frame, shop, stock } from "./starter-texts.js";

interface Plate {
  readonly id: string;
  readonly made: string;
  readonly count: number;
  readonly demand: number;
  readonly surplus: number;
}

let folder = "";
afterEach(() => remove(folder));

async function platesMade(stockText: string, ...options: string[]): Promise<Plate[]> {
  folder = await scratch({ "frame.yaml": frame, "stock.yaml": stockText, "shop.yaml": shop });
  const made = await command(["make", "frame.yaml", "--out", "made", ...options], folder);
  expect([made.code, made.err]).toEqual([0, ""]);
  const proved = await command(["prove", "made"], folder);
  expect([proved.code, proved.err]).toEqual([0, ""]);
  const record = JSON.parse(await readFile(join(folder, "made/job.json"), "utf8")) as { plates: Plate[] };
  return record.plates.filter((plate) => plate.made === "cut");
}

it("a folder with plates for scrap and least spares proves", async () => {
  expect(stock).not.toMatch(/^selling:/m);
  const selling = "selling:\n  scrapPercent: 20\n  spares: { plates: 0, least: { plates: 1 } }\n";
  const plates = await platesMade(`${stock}\n${selling}`);
  for (const { count, demand } of plates) expect(demand).toBe(Math.ceil((count + 1) / 0.8));
}, 60_000);

it("a surplus within the percent allowed is counted, cut and proved", async () => {
  const options = ["--kits", "9", "--spares", "0", "--effort", "1", "--surplus", "15"];
  const plates = await platesMade(stock, ...options);
  for (const { count, demand, surplus } of plates) {
    expect(demand).toBe(9 * count + surplus);
    expect(surplus).toBeLessThanOrEqual(Math.floor(9 * count * 0.15));
  }
  expect(plates.some(({ surplus }) => surplus > 0)).toBe(true);
}, 60_000);
