import { z } from "zod";
import { demandOf } from "../job/demand.js";
import { jobRecordData } from "../output/job-format.js";
import type { Expectations, ExpectedPlate, ExpectedPlateFile, ExpectedSheet } from "./expectations.js";

/** A job record that cannot be used, in one sentence. */
export class RecordFault extends Error {
  override readonly name = "RecordFault";
}

/** One file of the folder as the record lists it. */
interface RecordedFile {
  readonly path: string;
  readonly sha256: string;
}

/** What a job record says its folder must hold. */
export interface ProofRecord {
  readonly name: string;
  readonly kits: number;
  readonly files: readonly RecordedFile[];
  readonly expectations: Expectations;
}

const vertex = z.object({ x: z.number(), y: z.number(), bulge: z.number() });
const contour = z.array(vertex).min(2);
const part = z.union([z.literal("outline"), z.int().nonnegative()]);
const strokes = {
  markStrokes: z.int().nonnegative(),
  noteStrokes: z.int().nonnegative(),
  leadIns: z.int().nonnegative(),
};

const recordSchema = z.object({
  name: z.string(),
  kits: z.int().positive(),
  sparesPercent: z.number().nonnegative(),
  leastSpares: z.int().nonnegative().optional(),
  scrapPercent: z.number().nonnegative().lt(100).optional(),
  shop: z.object({
    cutting: z.object({
      kerf: z.number().positive(),
      safetyGap: z.number().nonnegative(),
      edgeMargin: z.number().nonnegative(),
      compensation: z.enum(["shop", "file"]),
    }),
    files: z.object({
      layers: z.enum(["by-operation", "single"]),
      layerNames: z.object({ outline: z.string(), opening: z.string(), mark: z.string(), stock: z.string() }),
      stockOutline: z.boolean(),
      bridges: z.object({ width: z.number().positive() }).optional(),
    }),
  }),
  plates: z.array(
    z.object({
      id: z.string(),
      count: z.int().positive(),
      demand: z.int().nonnegative(),
      surplus: z.int().nonnegative().optional(),
      made: z.enum(["cut", "printed"]),
      region: z.object({ outer: contour, openings: z.array(contour) }),
      bridges: z.array(z.object({ part, at: z.object({ x: z.number(), y: z.number() }) })).optional(),
    }),
  ),
  nests: z.array(
    z.object({
      stock: z.array(z.object({ id: z.string(), outline: contour, keepOuts: z.array(contour) })),
      sheets: z.array(
        z.object({
          file: z.string(),
          stock: z.string(),
          times: z.int().positive(),
          placements: z.array(
            z.object({
              part: z.string(),
              x: z.number(),
              y: z.number(),
              rotation: z.number(),
              mirrored: z.boolean(),
            }),
          ),
        }),
      ),
    }),
  ),
  drawings: z.array(
    z.object({
      name: z.string(),
      plate: z.string().optional(),
      quantity: z.int().positive().optional(),
      ...strokes,
    }),
  ),
  files: z.array(z.object({ path: z.string(), sha256: z.string() })),
});

/** As `cost` writes it. */
const withoutDrawings = z.object({ drawings: z.array(z.never()) });

type JobData = z.infer<typeof recordSchema>;

/**
 * Reads the text of a job record into what its files must hold.
 *
 * @throws RecordFault when it is no record of ours, of another version, or contradicts itself
 */
export function proofRecord(text: string): ProofRecord {
  const data = recordData(text);
  refuseUnknownPlates(data);
  const { name, kits, files } = data;
  return { name, kits, files, expectations: expectationsOf(data) };
}

function refuseUnknownPlates({ plates, nests, drawings }: JobData): void {
  const known = new Set(plates.map(({ id }) => id));
  const placed = nests.flatMap(({ sheets }) =>
    sheets.flatMap(({ file, placements }) => placements.map(({ part }) => ({ what: file, plate: part }))),
  );
  const drawn = drawings.flatMap(({ name, plate }) => (plate === undefined ? [] : [{ what: name, plate }]));
  const unknown = [...placed, ...drawn].find(({ plate }) => !known.has(plate));
  if (unknown !== undefined)
    throw new RecordFault(
      `contradicts itself: ${unknown.what} holds "${unknown.plate}", which is none of its plates`,
    );
}

function recordData(text: string): JobData {
  const read = jobRecordData(text);
  if ("fault" in read) throw new RecordFault(read.fault);
  if (withoutDrawings.safeParse(read.data).success) {
    throw new RecordFault("holds no drawings, which only make and nest write: there is nothing to prove");
  }
  const result = recordSchema.safeParse(read.data);
  if (result.success) return result.data;
  const [issue] = result.error.issues;
  throw new RecordFault(
    `is no whole record: ${issue?.path.map(String).join(".")}: ${issue?.message ?? "not as expected"}`,
  );
}

function expectationsOf(data: JobData): Expectations {
  const { cutting, files } = data.shop;
  const { layerNames, layers, bridges } = files;
  const drawn = new Map(data.drawings.map((drawing) => [drawing.name, drawing]));
  return {
    size:
      cutting.compensation === "shop" ? { state: "nominal" } : { state: "compensated", kerf: cutting.kerf },
    clearance: cutting.kerf + cutting.safetyGap,
    edgeMargin: cutting.edgeMargin,
    cutRadius: cutting.kerf / 2,
    layers: layers === "single" ? { ...layerNames, opening: layerNames.outline } : layerNames,
    formats: ["dxf", "svg"],
    ...(bridges === undefined ? {} : { bridgeGap: bridges.width + cutting.kerf }),
    plates: data.plates.map((plate) => expectedPlate(plate, data)),
    sheets: data.nests.flatMap((nest) => nest.sheets.map((sheet) => expectedSheet(sheet, nest, drawn, data))),
    plateFiles: data.drawings.flatMap(expectedPlateFile),
  };
}

/** Copies are counted anew from kits, spares and scrap, with the surplus stated: a record that asks for fewer contradicts itself. */
function expectedPlate(plate: JobData["plates"][number], job: JobData): ExpectedPlate {
  const { id, region, count, demand, surplus = 0, made, bridges } = plate;
  const copies = demandOf({ count }, job) + surplus;
  if (copies !== demand) {
    throw new RecordFault(
      `asks for ${demand} of ${id}, but ${job.kits} kits with spares, scrap and surplus take ${copies}`,
    );
  }
  return {
    id,
    region,
    copies,
    printed: made === "printed",
    ...(bridges === undefined ? {} : { bridges }),
  };
}

function expectedSheet(
  sheet: JobData["nests"][number]["sheets"][number],
  nest: JobData["nests"][number],
  drawn: ReadonlyMap<string, JobData["drawings"][number]>,
  { shop }: JobData,
): ExpectedSheet {
  const path = sheet.file.replace(/\.dxf$/, "");
  const stock = nest.stock.find((each) => each.id === sheet.stock);
  const drawing = drawn.get(path);
  if (stock === undefined) throw new RecordFault(`lays ${path} on "${sheet.stock}", which is no stock`);
  if (drawing === undefined) throw new RecordFault(`says nothing of the drawing ${path}`);
  const { markStrokes, noteStrokes, leadIns } = drawing;
  return {
    name: baseName(path),
    stockOutline: stock.outline,
    keepOuts: stock.keepOuts,
    times: sheet.times,
    placements: sheet.placements.map(({ part, ...placement }) => ({ ...placement, plate: part })),
    reference: { stock: shop.files.stockOutline, markStrokes, noteStrokes, leadIns },
  };
}

function expectedPlateFile(drawing: JobData["drawings"][number]): ExpectedPlateFile[] {
  const { name, plate, quantity, markStrokes, noteStrokes, leadIns } = drawing;
  if (plate === undefined || quantity === undefined) return [];
  return [{ name: baseName(name), plate, quantity, reference: { markStrokes, noteStrokes, leadIns } }];
}

/** `sheets/pe-hd-10mm-01-x1.dxf` is proved as `pe-hd-10mm-01-x1.dxf`. */
export function baseName(path: string): string {
  return path.slice(Math.max(path.lastIndexOf("/"), path.lastIndexOf("\\")) + 1);
}
