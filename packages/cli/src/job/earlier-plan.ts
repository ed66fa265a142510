import { readFile, stat } from "node:fs/promises";
import { join, resolve } from "node:path";
import type { Finding, SheetMaterial } from "@keelcut/geometry";
import { type NestJob, type NestResult, type Sheet, servingSheets } from "@keelcut/nesting";
import { z } from "zod";
import { stockListId } from "../cost/index.js";
import { inputError } from "../input/input-error.js";
import { jobFileName, jobRecordData } from "../output/job-format.js";
import { counted } from "../screen/number-text.js";

/** The sheets of an earlier job, to go on from. */
export interface EarlierPlan {
  /** The record's path as it was given. */
  readonly path: string;
  readonly nests: z.infer<typeof planSchema>["nests"];
}

const vertex = z.object({ x: z.number(), y: z.number(), bulge: z.number() });
const contour = z.array(vertex).min(2);
const placement = z.object({
  part: z.string(),
  x: z.number(),
  y: z.number(),
  rotation: z.number(),
  mirrored: z.boolean(),
});

const planSchema = z.object({
  nests: z.array(
    z.object({
      material: z.string(),
      thickness: z.number().positive(),
      stock: z.array(z.object({ id: z.string(), outline: contour, keepOuts: z.array(contour) })),
      sheets: z.array(
        z.object({ stock: z.string(), times: z.int().positive(), placements: z.array(placement) }),
      ),
    }),
  ),
});

/**
 * Reads the job record that `make` or `nest` wrote, given as the file or as its folder.
 *
 * @throws InputError when there is none, or it is none of ours
 */
export async function readEarlierPlan(path: string, cwd: string): Promise<EarlierPlan> {
  const given = resolve(cwd, path);
  const folder = await stat(given).then(
    (found) => found.isDirectory(),
    () => false,
  );
  const file = folder ? join(given, jobFileName) : given;
  const where = folder ? join(path, jobFileName) : path;
  const text = await readFile(file, "utf8").catch(() => {
    const right = `give ${jobFileName} of a folder that make or nest wrote, or that folder`;
    throw inputError("--resume", `${where} cannot be read; ${right}`);
  });
  return { path: where, nests: planOf(text, where) };
}

function planOf(text: string, where: string): EarlierPlan["nests"] {
  const read = jobRecordData(text);
  if ("fault" in read) {
    throw inputError(where, `${read.fault}; --resume takes the ${jobFileName} that make or nest wrote`);
  }
  const result = planSchema.safeParse(read.data);
  if (result.success) return result.data.nests;
  const [issue] = result.error.issues;
  throw inputError(where, issue?.message ?? "is no whole job record", issue?.path.map(String).join("."));
}

/** Sheets of an earlier plan that serve the job of one material, and notes on those that do not. */
export interface Resumed {
  readonly sheets: readonly Sheet[];
  readonly findings: readonly Finding[];
}

export function resumed(
  { nests, path }: EarlierPlan,
  { material, thickness }: { readonly material: string; readonly thickness: number },
  job: NestJob,
): Resumed {
  const nest = nests.find((each) => each.material === material && each.thickness === thickness);
  const earlier = (nest?.sheets ?? []).map((sheet) => ({
    ...sheet,
    stock: todaysStock(sheet.stock, nest, job),
  }));
  const { sheets, dropped } = servingSheets(job, earlier);
  const findings = dropped.map(({ index, message }): Finding => {
    const times = earlier[index]?.times ?? 1;
    const reason = message.replace(/^sheet \d+: /, "");
    return {
      id: "resume.dropped",
      severity: "note",
      place: `${material} ${thickness} mm`,
      message: `layout ${index + 1} of ${path} (${counted(times, "sheet")}) is not used again: ${reason}`,
      why: "the plates, the stock or the spacing changed since, so it must not be cut any more",
      source: "independent check",
    };
  });
  return { sheets, findings };
}

/** How many of the layouts that still serve the new plan has. */
export function usedAgain(
  { path, nests }: EarlierPlan,
  { sheets }: Resumed,
  {
    material: { material, thickness },
    result,
  }: { readonly material: SheetMaterial; readonly result: NestResult },
): Finding {
  const known = nests.some((nest) => nest.material === material && nest.thickness === thickness);
  const now = new Set(result.sheets.map(lookOf));
  const earlier = new Set(sheets.map(lookOf));
  const used = [...earlier].filter((look) => now.has(look)).length;
  const message = known
    ? earlier.size === 0
      ? `none of the layouts of ${path} serves any more`
      : `${used} of the ${counted(earlier.size, "layout")} of ${path} that still ${earlier.size === 1 ? "serves" : "serve"} ${used === 1 ? "is" : "are"} used again`
    : `${path} has no layouts of it`;
  return {
    id: "resume.used",
    severity: "note",
    place: `${material} ${thickness} mm`,
    message,
    why: "an earlier layout is used where it is not dearer than what the search finds; one kit takes exactly its plates",
    source: "arithmetic of the layouts",
  };
}

/** The same layout on a piece at hand and on a bought one is one layout; and so is one found anew, up to rounding. */
function lookOf({ stock, placements }: Sheet): string {
  return JSON.stringify([
    stockListId(stock),
    placements
      .map(({ part, x, y, rotation, mirrored }) =>
        [part, ...[x, y, rotation].map((value) => value.toFixed(6)), mirrored].join(" "),
      )
      .sort(),
  ]);
}

/** The stock of the same id, or else of the same outline: a price list may have been renamed. */
function todaysStock(id: string, nest: EarlierPlan["nests"][number] | undefined, job: NestJob): string {
  if (job.stock.some((piece) => piece.id === id)) return id;
  const old = nest?.stock.find((piece) => piece.id === id);
  const shape = (piece: Pick<NestJob["stock"][number], "outline" | "keepOuts">): string =>
    JSON.stringify(
      [piece.outline, ...piece.keepOuts].map((contour) => contour.map(({ x, y, bulge }) => [x, y, bulge])),
    );
  const same = old && job.stock.find((piece) => shape(piece) === shape(old));
  return same?.id ?? id;
}
