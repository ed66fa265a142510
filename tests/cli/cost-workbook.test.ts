import { execFileSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { describe, expect, it } from "vitest";
import type { CostEstimate } from "../../packages/cli/src/cost/index.js";
import { costWorkbook } from "../../packages/cli/src/output/cost-workbook.js";
import { estimateOf, frameOf, shopOf, stockOf } from "./cost-fixture.js";
import {
  allCells,
  FORMULA,
  readWorkbook,
  type SheetOf,
  STRING,
  type WorkbookOf,
} from "./cost-workbook-reader.js";

const OFFICE = ["/usr/bin/soffice", "/usr/bin/libreoffice"].find((path) => existsSync(path));
// In CI the reader must be there; elsewhere its absence only skips the recalculation.
const needsOffice = OFFICE !== undefined || process.env["CI"] === "true" ? it : it.skip;

/** Value of every formula cell, by `sheet!cell`. */
function formulaResults(workbook: WorkbookOf): Map<string, unknown> {
  const formulas = allCells(workbook).filter(({ cell }) => cell.type === FORMULA);
  return new Map(formulas.map(({ sheet, cell }) => [`${sheet}!${cell.address}`, cell.result]));
}

interface Recalculation {
  readonly name: string;
  readonly bytes: Uint8Array;
  readonly change?: (workbook: WorkbookOf) => void;
}

/** The workbooks after their changes, with no cached result left, calculated by one run of LibreOffice. */
async function recalculated(jobs: readonly Recalculation[]): Promise<Map<string, WorkbookOf>> {
  if (OFFICE === undefined) throw new Error("soffice is missing: install libreoffice-calc");
  const folder = mkdtempSync(join(tmpdir(), "cost-workbook-"));
  try {
    for (const { name, bytes, change } of jobs) {
      const workbook = await readWorkbook(bytes);
      for (const { cell } of allCells(workbook)) {
        if (cell.type === FORMULA) cell.value = { formula: cell.formula };
      }
      change?.(workbook);
      writeFileSync(join(folder, `${name}.xlsx`), new Uint8Array(await workbook.xlsx.writeBuffer()));
    }
    const profile = `-env:UserInstallation=${pathToFileURL(join(folder, "profile")).href}`;
    const target = join(folder, "out");
    const how = ["--headless", "--convert-to", "xlsx:Calc MS Excel 2007 XML", "--outdir", target];
    const files = jobs.map(({ name }) => join(folder, `${name}.xlsx`));
    execFileSync(OFFICE, [profile, ...how, ...files], { stdio: "pipe", timeout: 100_000 });
    const read = jobs.map(async ({ name }) => {
      return [name, await readWorkbook(readFileSync(join(target, `${name}.xlsx`)))] as const;
    });
    return new Map(await Promise.all(read));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

const rich = (changes: { perHour?: number } = {}): Promise<CostEstimate> =>
  estimateOf(7, {
    stockList: stockOf({
      hardware: [{ item: "nut ISO 4032 M6", pack: 100, price: 3.05 }],
      offcutWorth: { length: 100, width: 100, percent: 35 },
      selling: { packagingPerKit: 1.255, packingMinutes: 7, labourPerHour: 28.33, marginPercent: 22 },
    }),
    shop: shopOf({ charges: { minimum: 150, ...changes } }),
  });

function amountsOf(workbook: WorkbookOf | undefined): Map<string, unknown> {
  const summary = workbook?.getWorksheet("Summary");
  const amounts = new Map<string, unknown>();
  summary?.eachRow((row) => {
    if (row.getCell(2).type === FORMULA) amounts.set(row.getCell(1).text, row.getCell(2).result);
  });
  return amounts;
}

describe("the workbook", () => {
  it("has its sheets, frozen headers and the figures of the estimate", async () => {
    const found = await rich();
    const workbook = await readWorkbook(await costWorkbook(found));
    expect(workbook.worksheets.map((sheet) => sheet.name)).toEqual([
      "Summary",
      "Material",
      "Cutting",
      "Hardware",
      "Lengths",
      "Per kit",
      "Assumptions",
    ]);
    for (const sheet of workbook.worksheets) {
      expect(sheet.views[0]).toMatchObject({ state: "frozen", ySplit: 1 });
    }
    const amounts = amountsOf(workbook);
    expect(amounts.get("Total")).toBe(found.totals.total / 100);
    expect(amounts.get("Hardware")).toBe(found.totals.groups.hardware / 100);
    expect(amounts.get("Lines without a price")).toBe(1);
    const lines = workbook.worksheets.flatMap((sheet) => lineAmounts(sheet));
    const priced = found.lines.filter((line) => line.group !== "tax" && line.group !== "minimum");
    expect(lines.sort()).toEqual(priced.map((line) => line.amount ?? "no price").sort());
  });

  it("is the same bytes every time, without a date of writing", async () => {
    const found = await rich();
    const first = await costWorkbook(found);
    await new Promise((resolve) => setTimeout(resolve, 2100));
    expect(Buffer.from(await costWorkbook(found)).equals(Buffer.from(first))).toBe(true);
  });

  it("leaves room for what hardware is for, and for the order beside it", async () => {
    const sheet = (await readWorkbook(await costWorkbook(await rich()))).getWorksheet("Hardware");
    const columns = [..."ABCDEFGHIJ"];
    const width = (title: string): number => {
      const rows = Array.from({ length: 60 }, (_, row) => row + 1);
      const column = columns.findIndex((letter) =>
        rows.some((row) => sheet?.getCell(`${letter}${row}`).value === title),
      );
      return sheet?.getColumn(column + 1).width ?? 0;
    };
    expect(width("what for (one kit)")).toBeGreaterThanOrEqual(60);
    expect(width("order")).toBeGreaterThanOrEqual(30);
  });

  it("keeps text text and drops what XML cannot hold", async () => {
    const hardware = [{ item: "=1+1\u0007 & <b>", kind: "other" as const, count: 1, uses: [] }];
    const workbook = await readWorkbook(
      await costWorkbook(await estimateOf(1, { frame: frameOf({ hardware }) })),
    );
    const cell = workbook.getWorksheet("Hardware")?.getCell("B2");
    expect(cell?.type).toBe(STRING);
    expect(cell?.value).toBe("=1+1  & <b>");
  });

  needsOffice(
    "is recalculated by LibreOffice to the cent, also after a changed rate and a price typed over a missing one",
    async () => {
      const [before, cheap, after] = [
        await rich(),
        await rich({ perHour: 5 }),
        await rich({ perHour: 97.25 }),
      ];
      const bytes = await costWorkbook(before);
      const setRate = (workbook: WorkbookOf): void => {
        const sheet = workbook.getWorksheet("Assumptions");
        if (sheet?.getCell("A2").value !== "machine, an hour") throw new Error("the hourly rate has moved");
        sheet.getCell("B2").value = 97.25;
      };
      const setPrice = (workbook: WorkbookOf): void => {
        const sheet = workbook.getWorksheet("Hardware");
        if (sheet?.getCell("E2").value !== "no price") throw new Error("the first hardware line has a price");
        sheet.getCell("E2").value = 0.5;
      };
      const found = await recalculated([
        { name: "plain", bytes },
        { name: "cheap", bytes: await costWorkbook(cheap) },
        { name: "rate", bytes, change: setRate },
        { name: "price", bytes, change: setPrice },
      ]);

      expect(cheap.totals.groups.minimum).toBeGreaterThan(0);
      await expectSameResults(bytes, found.get("plain"));
      await expectSameResults(await costWorkbook(cheap), found.get("cheap"));
      // A changed rate gives what a new estimate at that rate gives.
      const [rate, price] = [amountsOf(found.get("rate")), amountsOf(found.get("price"))];
      expect(rate.get("Total")).toBe(after.totals.total / 100);
      expect(rate.get("Tax")).toBe(after.totals.tax / 100);
      expect(rate.get("Up to the minimum charge")).toBe(after.totals.groups.minimum / 100);
      expect(price.get("Hardware")).toBe(before.totals.groups.hardware / 100 + 56 * 0.5);
      expect(price.get("Lines without a price")).toBe(0);
    },
    120_000,
  );
});

/** Every formula of ours has the same value in their calculation; money to a billionth, far below a cent. */
async function expectSameResults(bytes: Uint8Array, theirs: WorkbookOf | undefined): Promise<void> {
  const ours = formulaResults(await readWorkbook(bytes));
  const others = theirs === undefined ? new Map<string, unknown>() : formulaResults(theirs);
  expect(ours.size).toBeGreaterThan(40);
  expect([...others.keys()].sort()).toEqual([...ours.keys()].sort());
  for (const [cell, value] of ours) {
    const other = others.get(cell);
    if (typeof value !== "number") expect([cell, other]).toEqual([cell, value]);
    else expect([cell, Math.abs(Number(other) - value) < 1e-9]).toEqual([cell, true]);
  }
}

/** Amounts of the line rows of a sheet, in hundredths. */
function lineAmounts(sheet: SheetOf): (number | string)[] {
  const amounts: (number | string)[] = [];
  sheet.eachRow((row) => {
    const formula = row.getCell(6).formula ?? "";
    if (!formula.startsWith("IF(ISNUMBER")) return;
    const { result } = row.getCell(6);
    amounts.push(typeof result === "number" ? Math.round(result * 100) : String(result));
  });
  return amounts;
}
