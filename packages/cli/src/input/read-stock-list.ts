import { checked } from "./checked.js";
import { InputError, type Problem } from "./input-error.js";
import { fieldText, type Located, type LocatedScalar, nodeAt, type PathStep, placeText } from "./located.js";
import { type StockList, stockListSchema } from "./stock-list.js";
import { readReferencedFile } from "./yaml-file.js";

export interface ReadStockList {
  readonly absolute: string;
  readonly stock: StockList;
  readonly root: Located;
}

/** Nothing that is sold flat is longer, mm: a larger number is a slip of the keys. */
const largestSheet = 20_000;

/** Reads the stock list that a frame file or an option names. Throws InputError. */
export async function readStockList(reference: LocatedScalar, cwd: string): Promise<ReadStockList> {
  const { absolute, root } = await readReferencedFile(reference, "stock", cwd);
  const stock = checked(stockListSchema, root);
  const problems = [...idProblems(stock, root), ...sizeProblems(stock, root), ...itemProblems(stock, root)];
  if (problems.length > 0) throw new InputError(problems);
  return { absolute, stock, root };
}

/** Sheets and offcuts are named in one namespace: a layout says which piece it lies on by id alone. */
function idProblems(stock: StockList, root: Located): Problem[] {
  const sheets = stock.sheets.map((sheet) => sheet.id);
  return stock.offcuts.flatMap((offcut, index) =>
    sheets.includes(offcut.id)
      ? [problemAt(root, ["offcuts", index, "id"], `"${offcut.id}" is the id of a sheet already`)]
      : [],
  );
}

function sizeProblems(stock: StockList, root: Located): Problem[] {
  return stock.sheets.flatMap((sheet, index) =>
    (["length", "width", "thickness"] as const).flatMap((key) =>
      sheet[key] > largestSheet
        ? [problemAt(root, ["sheets", index, key], `${sheet[key]} must be ${largestSheet} or less, in mm`)]
        : [],
    ),
  );
}

/** One price for one thing: hardware and lengths are found by their item name. */
function itemProblems(stock: StockList, root: Located): Problem[] {
  const seen = new Set<string>();
  return stock.hardware.flatMap((entry, index) => {
    if (!seen.has(entry.item)) {
      seen.add(entry.item);
      return [];
    }
    return [problemAt(root, ["hardware", index, "item"], `"${entry.item}" is priced twice; keep one`)];
  });
}

function problemAt(root: Located, path: readonly PathStep[], message: string): Problem {
  return { where: placeText(nodeAt(root, path).node.place), field: fieldText(root, path), message };
}
