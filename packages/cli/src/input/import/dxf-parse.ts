import dxfParser, { type IEntity } from "dxf-parser";
import type { RawEntity } from "./dxf-structure.js";
import { DxfFault, type DxfTag } from "./dxf-tags.js";

/** An entity as dxf-parser understood it, beside its groups. */
export interface ParsedEntity {
  readonly raw: RawEntity;
  readonly entity: IEntity;
}

/** The module is the class itself, whatever its types say. */
const Parser = dxfParser as unknown as typeof dxfParser.DxfParser;

/** What is understood, and the groups of it that are passed on. Others either mean nothing here or stop dxf-parser early. */
const COMMON = [5, 8, 6, 60, 62, 67];
const UNDERSTOOD: Readonly<Record<string, readonly number[]>> = {
  LINE: [10, 20, 30, 11, 21, 31],
  ARC: [10, 20, 30, 40, 50, 51],
  CIRCLE: [10, 20, 30, 40],
  LWPOLYLINE: [90, 70, 10, 20, 40, 41, 42],
  POLYLINE: [66, 10, 20, 30, 70],
  VERTEX: [10, 20, 30, 40, 41, 42, 70],
  ELLIPSE: [10, 20, 30, 11, 21, 31, 40, 41, 42],
  SPLINE: [70, 71, 72, 73, 74, 40, 10, 20, 30, 11, 21, 31],
  INSERT: [2, 10, 20, 30, 41, 42, 43, 50, 70, 71, 44, 45],
};

/** True when this reader knows what to do with an entity of this type. */
export function isUnderstood(type: string): boolean {
  return type !== "VERTEX" && UNDERSTOOD[type] !== undefined;
}

/**
 * Runs dxf-parser over one list of entities and checks that it came back with every one of them: it drops what it
 * does not know and stops inside polylines at groups it does not expect, both without a word.
 *
 * @throws DxfFault when an entity or a vertex got lost.
 */
export function parseEntities(entities: readonly RawEntity[]): ParsedEntity[] {
  const known = entities.filter((entity) => isUnderstood(entity.type));
  if (known.length === 0) return [];
  const parsed = run(sectionOf(known), known[0]?.line ?? 1);
  if (parsed.length !== known.length) {
    throw new DxfFault(
      `${known.length} entities, but the parser found ${parsed.length}`,
      known[0]?.line ?? 1,
    );
  }
  return known.map((raw, index) => {
    const entity = parsed[index];
    if (entity?.type !== raw.type)
      throw new DxfFault(`the parser took ${raw.type} for ${entity?.type}`, raw.line);
    checkVertices(raw, entity);
    return { raw, entity };
  });
}

function run(text: string, line: number): readonly IEntity[] {
  try {
    return new Parser().parseSync(text)?.entities ?? [];
  } catch (error) {
    throw new DxfFault(
      `the entities cannot be parsed: ${error instanceof Error ? error.message : error}`,
      line,
    );
  }
}

function sectionOf(entities: readonly RawEntity[]): string {
  const lines = ["0", "SECTION", "2", "ENTITIES"];
  const add = (type: string, tags: readonly DxfTag[]): void => {
    const wanted = [...COMMON, ...(UNDERSTOOD[type] ?? [])];
    lines.push("0", type);
    for (const { code, value } of tags) if (wanted.includes(code)) lines.push(String(code), value);
  };
  for (const entity of entities) {
    add(entity.type, entity.tags);
    if (entity.type === "POLYLINE") {
      for (const vertex of entity.children) add("VERTEX", vertex.tags);
      lines.push("0", "SEQEND");
    }
  }
  lines.push("0", "ENDSEC", "0", "EOF", "");
  return lines.join("\n");
}

function checkVertices(raw: RawEntity, entity: IEntity): void {
  if (raw.type !== "LWPOLYLINE" && raw.type !== "POLYLINE") return;
  const expected =
    raw.type === "POLYLINE" ? raw.children.length : raw.tags.filter((tag) => tag.code === 10).length;
  const vertices = (entity as IEntity & { vertices?: readonly unknown[] }).vertices ?? [];
  if (vertices.length !== expected) {
    throw new DxfFault(
      `${raw.type} has ${expected} vertices, but the parser found ${vertices.length}`,
      raw.line,
    );
  }
}
