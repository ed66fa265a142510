import { DxfFault, type DxfTag, isNumeric, numberOf } from "./dxf-tags.js";

/** An entity's groups as they stand in the file; a POLYLINE with its VERTEX records, an INSERT with its ATTRIBs. */
export interface RawEntity {
  readonly type: string;
  readonly line: number;
  readonly layer: string;
  readonly tags: readonly DxfTag[];
  readonly children: readonly RawEntity[];
}

export interface RawBlock {
  readonly name: string;
  readonly line: number;
  /** Bits of group 70; 4 marks a reference to another file. */
  readonly flags: number;
  readonly tags: readonly DxfTag[];
  readonly entities: readonly RawEntity[];
}

export interface DxfStructure {
  /** Header variables with their groups. */
  readonly header: ReadonlyMap<string, readonly DxfTag[]>;
  /** Names in the table of layers, whatever lies on them. */
  readonly layerNames: readonly string[];
  /** Names of layers that are off or frozen, in lower case: layers are the same whatever their case. */
  readonly hiddenLayers: ReadonlySet<string>;
  readonly blocks: readonly RawBlock[];
  readonly entities: readonly RawEntity[];
}

/**
 * Sections, blocks and entities of a DXF file, with every numeric group of an entity checked.
 *
 * @throws DxfFault with the line when sections do not nest or a number is malformed.
 */
export function dxfStructure(tags: readonly DxfTag[]): DxfStructure {
  const sections = splitSections(tags);
  const entities = sections.get("ENTITIES");
  if (entities === undefined) throw new DxfFault("there is no ENTITIES section", tags.at(-1)?.line ?? 1);
  return {
    header: headerVariables(sections.get("HEADER") ?? []),
    layerNames: layerNames(sections.get("TABLES") ?? []),
    hiddenLayers: hiddenLayers(sections.get("TABLES") ?? []),
    blocks: readBlocks(sections.get("BLOCKS") ?? []),
    entities: withChildren(records(entities)),
  };
}

/** First value of a code among an entity's own groups. */
export function textOf(entity: { readonly tags: readonly DxfTag[] }, code: number): string | undefined {
  return entity.tags.find((tag) => tag.code === code)?.value;
}

export function valueAt(entity: { readonly tags: readonly DxfTag[] }, code: number): number | undefined {
  const tag = entity.tags.find((candidate) => candidate.code === code);
  return tag === undefined ? undefined : numberOf(tag);
}

function splitSections(tags: readonly DxfTag[]): Map<string, DxfTag[]> {
  const sections = new Map<string, DxfTag[]>();
  let open: { tags: DxfTag[]; line: number } | undefined;
  for (let i = 0; i < tags.length; i++) {
    const tag = tags[i];
    if (tag === undefined || tag.code === 999) continue;
    if (tag.code === 0 && tag.value === "SECTION") {
      if (open !== undefined) throw new DxfFault("a section starts inside another", tag.line);
      const name = tags[i + 1];
      if (name?.code !== 2) throw new DxfFault("a section has no name", tag.line);
      if (sections.has(name.value)) throw new DxfFault(`there are two ${name.value} sections`, tag.line);
      open = { tags: [], line: tag.line };
      sections.set(name.value, open.tags);
      i++;
    } else if (tag.code === 0 && tag.value === "ENDSEC") {
      if (open === undefined) throw new DxfFault("a section ends that never started", tag.line);
      open = undefined;
    } else if (tag.code === 0 && tag.value === "EOF") {
      if (open !== undefined) throw new DxfFault("the file ends inside a section", open.line);
    } else if (open === undefined) {
      throw new DxfFault(
        `group ${tag.code} "${tag.value.slice(0, 40)}" stands outside every section`,
        tag.line,
      );
    } else open.tags.push(tag);
  }
  return sections;
}

function headerVariables(tags: readonly DxfTag[]): Map<string, DxfTag[]> {
  const variables = new Map<string, DxfTag[]>();
  let current: DxfTag[] = [];
  for (const tag of tags) {
    if (tag.code === 9) {
      current = [];
      variables.set(tag.value, current);
    } else current.push(tag);
  }
  return variables;
}

function layerNames(tags: readonly DxfTag[]): string[] {
  return records(tags).flatMap((record) => {
    const name = record.type === "LAYER" ? textOf(record, 2) : undefined;
    return name === undefined ? [] : [name];
  });
}

/** Colour below zero means off, bit 1 of group 70 frozen (DXF reference, LAYER). */
function hiddenLayers(tags: readonly DxfTag[]): Set<string> {
  const hidden = new Set<string>();
  for (const record of records(tags)) {
    if (record.type !== "LAYER") continue;
    const off = (valueAt(record, 62) ?? 7) < 0 || ((valueAt(record, 70) ?? 0) & 1) !== 0;
    const name = textOf(record, 2);
    if (off && name !== undefined) hidden.add(name.toLowerCase());
  }
  return hidden;
}

/** Groups from one code 0 to the next. */
function records(tags: readonly DxfTag[]): RawEntity[] {
  const found: { type: string; line: number; layer: string; tags: DxfTag[]; children: RawEntity[] }[] = [];
  for (const tag of tags) {
    if (tag.code === 0) {
      found.push({ type: tag.value, line: tag.line, layer: "0", tags: [], children: [] });
      continue;
    }
    const record = found.at(-1);
    if (record === undefined) throw new DxfFault(`group ${tag.code} belongs to no entity`, tag.line);
    if (tag.code === 8 && record.layer === "0") record.layer = tag.value;
    record.tags.push(tag);
  }
  return found;
}

function withChildren(list: readonly RawEntity[]): RawEntity[] {
  const entities: RawEntity[] = [];
  let parent: { type: string; children: RawEntity[]; line: number } | undefined;
  for (const record of list) {
    for (const tag of record.tags) if (isNumeric(tag.code)) numberOf(tag);
    if (record.type === "SEQEND") {
      if (parent === undefined) throw new DxfFault("SEQEND closes nothing", record.line);
      parent = undefined;
    } else if (record.type === "VERTEX" || record.type === "ATTRIB") {
      if (parent === undefined) throw new DxfFault(`${record.type} belongs to no entity`, record.line);
      parent.children.push(record);
    } else {
      if (parent !== undefined) throw new DxfFault(`${parent.type} has no SEQEND`, parent.line);
      const entity = { ...record, children: [] as RawEntity[] };
      entities.push(entity);
      const follows = valueAt(record, 66) === 1;
      if (record.type === "POLYLINE" || (record.type === "INSERT" && follows)) parent = entity;
    }
  }
  if (parent !== undefined) throw new DxfFault(`${parent.type} has no SEQEND`, parent.line);
  return entities;
}

function readBlocks(tags: readonly DxfTag[]): RawBlock[] {
  const blocks: RawBlock[] = [];
  let head: RawEntity | undefined;
  let inside: RawEntity[] = [];
  for (const record of records(tags)) {
    if (record.type === "BLOCK") {
      if (head !== undefined) throw new DxfFault("a block starts inside another", record.line);
      head = record;
      inside = [];
    } else if (record.type === "ENDBLK") {
      if (head === undefined) throw new DxfFault("ENDBLK closes no block", record.line);
      blocks.push({
        name: textOf(head, 2) ?? "",
        line: head.line,
        flags: valueAt(head, 70) ?? 0,
        tags: head.tags,
        entities: withChildren(inside),
      });
      head = undefined;
    } else if (head === undefined)
      throw new DxfFault(`${record.type} stands outside every block`, record.line);
    else inside.push(record);
  }
  if (head !== undefined) throw new DxfFault("a block has no ENDBLK", head.line);
  return blocks;
}
