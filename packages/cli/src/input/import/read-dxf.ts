import type { Finding } from "@keelcut/geometry";
import type { IInsertEntity } from "dxf-parser";
import { type Affine, composeAll, shift, stretch, turn } from "./affine.js";
import { isUnderstood, type ParsedEntity, parseEntities } from "./dxf-parse.js";
import { extrusion, placeOf, readShape, type ShapeContext } from "./dxf-shapes.js";
import {
  type DxfStructure,
  dxfStructure,
  type RawBlock,
  type RawEntity,
  textOf,
  valueAt,
} from "./dxf-structure.js";
import { DxfFault, type DxfTag, dxfTags, numberOf } from "./dxf-tags.js";
import {
  DEEPEST,
  defaultReadOptions,
  importFinding,
  isAskedFor,
  MOST_SHAPES,
  otherUnit,
  type ReadFile,
  type ReadOptions,
  type ReadShape,
} from "./read-file.js";

/**
 * Reads an ASCII DXF file: lines, arcs, circles, polylines with bulges, and ellipses and splines replaced by arcs;
 * blocks expanded; millimetres by `$INSUNITS`. Everything else on the layers asked for is a finding. Never throws on bad input.
 */
export function readDxf(text: string, options: ReadOptions = defaultReadOptions): ReadFile {
  const findings: Finding[] = [];
  try {
    const structure = dxfStructure(dxfTags(text));
    const unit = unitOf(structure, options, findings);
    const { shapes, leftOut } = expand(structure, unit.scale, options, findings);
    const stated = statedExtent(structure, unit.scale);
    return {
      format: "dxf",
      scale: unit.scale,
      unitStated: unit.stated,
      shapes,
      leftOut,
      named: structure.layerNames,
      findings,
      ...(stated === undefined ? {} : { stated }),
    };
  } catch (fault) {
    if (!(fault instanceof DxfFault)) throw fault;
    findings.push(importFinding("unreadable", "error", `line ${fault.line}`, fault.message));
    return { format: "dxf", scale: 1, unitStated: false, shapes: [], leftOut: [], named: [], findings };
  }
}

/** Millimetres per drawing unit by the value of $INSUNITS (DXF reference, header section). */
const UNITS: Readonly<Record<number, number>> = {
  1: 25.4,
  2: 304.8,
  4: 1,
  5: 10,
  6: 1000,
  8: 25.4e-6,
  9: 0.0254,
  10: 914.4,
  13: 0.001,
  14: 100,
};

function unitOf(
  structure: DxfStructure,
  options: ReadOptions,
  findings: Finding[],
): { scale: number; stated: boolean } {
  const tag = structure.header.get("$INSUNITS")?.[0];
  const code = tag === undefined ? 0 : numberOf(tag);
  const scale = UNITS[code];
  if (options.unit !== undefined) {
    if (scale !== undefined && scale !== options.unit)
      findings.push(otherUnit(scale, options.unit, "header"));
    return { scale: options.unit, stated: true };
  }
  if (scale !== undefined) return { scale, stated: true };
  const message =
    code === 0
      ? `the file does not say its unit ($INSUNITS): one unit is taken as ${options.unitlessScale} mm`
      : `$INSUNITS ${code} is no unit of length for plates: one unit is taken as ${options.unitlessScale} mm`;
  findings.push(importFinding("unit", code === 0 ? "warning" : "error", "header", message));
  return { scale: options.unitlessScale, stated: false };
}

function statedExtent(structure: DxfStructure, scale: number): ReadFile["stated"] {
  const least = pointOf(structure.header.get("$EXTMIN"));
  const most = pointOf(structure.header.get("$EXTMAX"));
  if (least === undefined || most === undefined || least.x > most.x) return undefined;
  return { minX: least.x * scale, minY: least.y * scale, maxX: most.x * scale, maxY: most.y * scale };
}

function pointOf(tags: readonly DxfTag[] | undefined): { x: number; y: number } | undefined {
  const x = tags?.find((tag) => tag.code === 10);
  const y = tags?.find((tag) => tag.code === 20);
  return x === undefined || y === undefined ? undefined : { x: numberOf(x), y: numberOf(y) };
}

function expand(
  structure: DxfStructure,
  scale: number,
  options: ReadOptions,
  findings: Finding[],
): Pick<ReadFile, "shapes" | "leftOut"> {
  const blocks = new Map(structure.blocks.map((block) => [block.name.toLowerCase(), block]));
  const parsed = new Map<readonly RawEntity[], readonly ParsedEntity[]>();
  const shapes: ReadShape[] = [];
  const leftOut: string[] = [];
  let copies = 0;
  const walk = (
    entities: readonly RawEntity[],
    map: Affine,
    layer: string | undefined,
    trail: readonly string[],
  ) => {
    let list = parsed.get(entities);
    if (list === undefined) {
      reportUnread(
        // What lies on layer 0 of a block may come to lie on any.
        entities.filter(({ layer: own }) => own === "0" || isAskedFor([own], options)),
        findings,
      );
      list = parseEntities(entities.filter((entity) => isUnderstood(entity.type)));
      parsed.set(entities, list);
    }
    for (const one of list) {
      if (shapes.length + leftOut.length + findings.length > MOST_SHAPES) {
        throw new DxfFault(`more than ${MOST_SHAPES} shapes`, one.raw.line);
      }
      const own = one.raw.layer === "0" && layer !== undefined ? layer : one.raw.layer;
      if (one.raw.type !== "INSERT" && !isAskedFor([own], options)) {
        leftOut.push(own);
        continue;
      }
      if (isHidden(one.raw, structure, findings)) continue;
      const block = trail.at(-1);
      const context: ShapeContext = {
        map,
        layer: own,
        fitError: options.fitError,
        shapes,
        findings,
        ...(block === undefined ? {} : { block }),
      };
      if (one.raw.type === "INSERT") insert(one, context, trail);
      else readShape(one, context);
    }
  };
  const insert = (one: ParsedEntity, context: ShapeContext, trail: readonly string[]): void => {
    const block = blockFor(one, blocks, trail, findings);
    if (block === undefined) return;
    for (const map of insertMaps(one, block, context)) {
      // Blocks of blocks multiply, though they may draw nothing.
      if (++copies > MOST_SHAPES)
        throw new DxfFault(`more than ${MOST_SHAPES} copies of blocks`, one.raw.line);
      walk(block.entities, map, context.layer, [...trail, block.name.toLowerCase()]);
    }
  };
  walk(structure.entities, stretch(scale, scale), undefined, []);
  return { shapes, leftOut };
}

function blockFor(
  { raw, entity }: ParsedEntity,
  blocks: ReadonlyMap<string, RawBlock>,
  trail: readonly string[],
  findings: Finding[],
): RawBlock | undefined {
  const name = ((entity as IInsertEntity).name ?? "").toLowerCase();
  const block = blocks.get(name);
  const fault =
    block === undefined
      ? `block "${name}" is not in the file`
      : (block.flags & 4) !== 0
        ? `block "${name}" lives in another file`
        : trail.includes(name)
          ? `block "${name}" contains itself`
          : trail.length >= DEEPEST
            ? `blocks are nested deeper than ${DEEPEST}`
            : undefined;
  if (fault === undefined) return block;
  findings.push(importFinding("block", "error", placeOf(raw), fault));
  return undefined;
}

/** One map per copy: base point to origin, scaled, turned, shifted along the array, to the insertion point. */
function insertMaps({ raw, entity }: ParsedEntity, block: RawBlock, context: ShapeContext): Affine[] {
  const insert = entity as IInsertEntity;
  const side = extrusion(raw);
  if (side === undefined) {
    const message = "the block is tilted out of the drawing plane";
    context.findings.push(importFinding("tilted", "error", placeOf(raw), message));
    return [];
  }
  const [sx, sy] = [insert.xScale ?? 1, insert.yScale ?? 1];
  if (sx === 0 || sy === 0) {
    context.findings.push(importFinding("block", "error", placeOf(raw), "the block is scaled to nothing"));
    return [];
  }
  if (insert.position === undefined) throw new DxfFault("INSERT lacks its point", raw.line);
  const { x, y } = insert.position;
  const columns = Math.max(1, insert.columnCount ?? 1);
  const rows = Math.max(1, insert.rowCount ?? 1);
  if (columns * rows > MOST_SHAPES) throw new DxfFault(`an array of ${columns} x ${rows} copies`, raw.line);
  const maps: Affine[] = [];
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      maps.push(
        composeAll(
          context.map,
          stretch(side, 1),
          shift(x, y),
          turn(((insert.rotation ?? 0) * Math.PI) / 180),
          shift(column * (insert.columnSpacing ?? 0), row * (insert.rowSpacing ?? 0)),
          stretch(sx, sy),
          shift(-(valueAt(block, 10) ?? 0), -(valueAt(block, 20) ?? 0)),
        ),
      );
    }
  }
  return maps;
}

/** One finding for every entity that is not read. */
function reportUnread(entities: readonly RawEntity[], findings: Finding[]): void {
  for (const entity of entities) {
    const texts = entity.children.filter((child) => child.type === "ATTRIB");
    for (const child of texts) findings.push(notUnderstood(child));
    if (!isUnderstood(entity.type)) findings.push(notUnderstood(entity));
  }
}

function notUnderstood(entity: RawEntity): Finding {
  const text = textOf(entity, 1);
  const shown = text === undefined ? "" : ` ("${text.slice(0, 40)}")`;
  return importFinding(
    "not-understood",
    "warning",
    placeOf(entity),
    `${entity.type}${shown} on layer "${entity.layer}" is not read: only lines, arcs, circles, polylines, ellipses, splines and blocks are`,
  );
}

function isHidden(raw: RawEntity, structure: DxfStructure, findings: Finding[]): boolean {
  const why =
    valueAt(raw, 67) === 1
      ? "it lies in paper space"
      : valueAt(raw, 60) === 1
        ? "it is invisible"
        : structure.hiddenLayers.has(raw.layer.toLowerCase())
          ? `its layer "${raw.layer}" is off or frozen`
          : undefined;
  if (why === undefined) return false;
  findings.push(importFinding("hidden", "warning", placeOf(raw), `${raw.type} is not read: ${why}`));
  return true;
}
