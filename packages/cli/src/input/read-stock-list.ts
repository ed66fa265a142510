import { type ContourFault, contourFaults, polygon, signedArea } from "@keelcut/geometry";
import { numberText } from "../screen/number-text.js";
import { checked } from "./checked.js";
import { readExtendedReference } from "./extended-file.js";
import { InputError, type Problem } from "./input-error.js";
import {
  fieldText,
  idOf,
  type Located,
  type LocatedScalar,
  nodeAt,
  type PathStep,
  placeText,
} from "./located.js";
import { type StockList, stockListSchema } from "./stock-list.js";

export interface ReadStockList {
  /** It and every file it extends, absolute. */
  readonly files: readonly [string, ...string[]];
  readonly stock: StockList;
  readonly root: Located;
}

/** Nothing that is sold flat is longer, mm: a larger number is a slip of the keys. */
const largestSheet = 20_000;

/** Reads the stock list that a frame file or an option names, and what it extends. Throws InputError. */
export async function readStockList(reference: LocatedScalar, cwd: string): Promise<ReadStockList> {
  const { root, files } = await readExtendedReference(reference, "stock", cwd, nameOf);
  const stock = checked(stockListSchema, root);
  const problems = [
    ...idProblems(stock, root),
    ...sizeProblems(stock, root),
    ...outlineProblems(stock, root),
    ...itemProblems(stock, root),
  ];
  if (problems.length > 0) throw new InputError(problems);
  return { files, stock, root };
}

/** Sheets and offcuts have ids; hardware is known by what is sold how by whom, a rod or pipe by its length too. */
function nameOf(entry: Located): string | undefined {
  const id = idOf(entry);
  if (id !== undefined || entry.kind !== "map") return id;
  const texts = ["item", "pack", "length", "supplier"].map((key) => {
    const value = entry.entries.get(key)?.value;
    const written = value?.kind === "scalar" && value.value !== null ? value.text : undefined;
    return key === "pack" && entry.entries.get("length") === undefined ? (written ?? "1") : written;
  });
  return texts[0] === undefined ? undefined : JSON.stringify(texts);
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

type Corners = StockList["offcuts"][number]["outline"];

const faultWords: Readonly<Record<ContourFault["what"], string>> = {
  "not-finite": "has a corner that is no number",
  "too-few-vertices": "has too few corners",
  "no-length": "has the same corner twice",
  "meets-itself": "crosses or touches itself",
  "doubled-edge": "runs along itself",
};

/** Outlines and keep-outs must enclose an area without crossing themselves. */
function outlineProblems(stock: StockList, root: Located): Problem[] {
  const check = (corners: Corners, path: readonly PathStep[]): Problem[] => {
    const contour = polygon(corners.map(([x, y]) => ({ x, y })));
    const [fault] = contourFaults(contour);
    if (fault !== undefined) {
      const at = `${numberText(fault.at.x)}, ${numberText(fault.at.y)}`;
      const message = `${faultWords[fault.what]} at [${at}]; give the corners in order around the piece`;
      return [problemAt(root, path, message)];
    }
    return signedArea(contour) === 0 ? [problemAt(root, path, "these corners enclose nothing")] : [];
  };
  return (["sheets", "offcuts"] as const).flatMap((list) =>
    stock[list].flatMap((piece, index) => [
      ...("outline" in piece ? check(piece.outline, [list, index, "outline"]) : []),
      ...piece.keepOuts.flatMap((keepOut, at) => check(keepOut, [list, index, "keepOuts", at])),
    ]),
  );
}

/** One price for one pack of one thing by one supplier; packs of several sizes and suppliers are bought as is cheapest. */
function itemProblems(stock: StockList, root: Located): Problem[] {
  const seen = new Set<string>();
  return stock.hardware.flatMap(({ item, pack, supplier }, index) => {
    const key = JSON.stringify([item, pack, supplier]);
    if (!seen.has(key)) {
      seen.add(key);
      return [];
    }
    const what = pack === 1 ? `"${item}"` : `a pack of ${pack} of "${item}"`;
    const who = supplier === undefined ? "" : ` of ${supplier}`;
    const cure = supplier === undefined ? "keep one, or name the supplier of each" : "keep one";
    return [problemAt(root, ["hardware", index, "item"], `${what}${who} is priced twice; ${cure}`)];
  });
}

function problemAt(root: Located, path: readonly PathStep[], message: string): Problem {
  return { where: placeText(nodeAt(root, path).node.place), field: fieldText(root, path), message };
}
