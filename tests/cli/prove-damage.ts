/** Tools to damage good DXF files: tag by tag, entity by entity. */

export type Tag = [code: number, value: string];

export interface Entity {
  type: string;
  tags: Tag[];
}

export interface DxfText {
  head: string;
  entities: Entity[];
  tail: string;
}

export function openDxf(text: string): DxfText {
  const start =
    text.indexOf("  2\nENTITIES\n") >= 0 ? text.indexOf("  2\nENTITIES\n") : text.indexOf("2\nENTITIES\n");
  const from = text.indexOf("ENTITIES\n", start) + "ENTITIES\n".length;
  const to = text.indexOf("0\nENDSEC\n", from);
  const lines = text.slice(from, to).split("\n");
  const entities: Entity[] = [];
  for (let i = 0; i + 1 < lines.length; i += 2) {
    const code = Number(lines[i]);
    const value = lines[i + 1] ?? "";
    if (code === 0) entities.push({ type: value, tags: [] });
    else entities.at(-1)?.tags.push([code, value]);
  }
  return { head: text.slice(0, from), entities, tail: text.slice(to) };
}

export function closeDxf({ head, entities, tail }: DxfText): string {
  const body = entities.map(
    ({ type, tags }) => `0\n${type}\n${tags.map(([c, v]) => `${c}\n${v}\n`).join("")}`,
  );
  return head + body.join("") + tail;
}

/** The text with its entity list changed in place. */
export function edit(text: string, change: (entities: Entity[]) => void): string {
  const file = openDxf(text);
  change(file.entities);
  return closeDxf(file);
}

export function layerOf(entity: Entity): string {
  return entity.tags.find(([code]) => code === 8)?.[1] ?? "";
}

export function on(entities: readonly Entity[], layer: string, type?: string): Entity[] {
  return entities.filter(
    (entity) => layerOf(entity) === layer && (type === undefined || entity.type === type),
  );
}

export function first(entities: readonly Entity[], layer: string, type?: string): Entity {
  const entity = on(entities, layer, type)[0];
  if (entity === undefined) throw new Error(`no ${type} on ${layer}`);
  return entity;
}

export function set(
  entity: Entity,
  code: number,
  change: (value: number) => number | string,
  most = Infinity,
): void {
  let done = 0;
  for (const tag of entity.tags) {
    if (tag[0] === code && done++ < most) tag[1] = String(change(Number(tag[1])));
  }
}

export function move(entity: Entity, dx: number, dy: number): void {
  set(entity, 10, (x) => x + dx);
  set(entity, 20, (y) => y + dy);
}

/** The same open polyline, drawn from its other end. */
export function reverse(entity: Entity): void {
  const begins = entity.tags.findIndex(([code]) => code === 10);
  const corners: { x: string; y: string; bulge: number }[] = [];
  for (const [code, value] of entity.tags.slice(begins)) {
    const corner = corners.at(-1);
    if (code === 10) corners.push({ x: value, y: "", bulge: 0 });
    else if (corner !== undefined && code === 20) corner.y = value;
    else if (corner !== undefined && code === 42) corner.bulge = Number(value);
  }
  const turned = corners.toReversed();
  const bulges = [
    ...corners
      .slice(0, -1)
      .toReversed()
      .map(({ bulge }) => -bulge),
    0,
  ];
  entity.tags = [
    ...entity.tags.slice(0, begins),
    ...turned.flatMap(({ x, y }, index): Tag[] => [
      [10, x],
      [20, y],
      [42, String(bulges[index] ?? 0)],
    ]),
  ];
}

export function toLayer(entity: Entity, layer: string): void {
  for (const tag of entity.tags) if (tag[0] === 8) tag[1] = layer;
}

export function copy(entity: Entity): Entity {
  return { type: entity.type, tags: entity.tags.map(([code, value]): Tag => [code, value]) };
}

export function value(entity: Entity, code: number): number {
  return Number(entity.tags.find((tag) => tag[0] === code)?.[1]);
}

export function scaled(text: string, factor: number): string {
  return edit(text, (entities) => {
    for (const entity of entities) {
      for (const code of [10, 20]) set(entity, code, (x) => x * factor);
      if (entity.type === "CIRCLE") set(entity, 40, (r) => r * factor);
    }
  });
}

/** A closed polyline on a layer. */
export function polyline(
  layer: string,
  points: readonly (readonly [number, number])[],
  closed = true,
): Entity {
  return {
    type: "LWPOLYLINE",
    tags: [
      [8, layer],
      [90, String(points.length)],
      [70, closed ? "1" : "0"],
      ...points.flatMap(([x, y]): Tag[] => [
        [10, String(x)],
        [20, String(y)],
      ]),
    ],
  };
}

/** A circle by straight pieces. */
export function chords(circle: Entity, count: number): Entity {
  const [x, y, r] = [value(circle, 10), value(circle, 20), value(circle, 40)];
  const points = Array.from({ length: count }, (_, i): [number, number] => {
    const angle = (2 * Math.PI * i) / count;
    return [x + r * Math.cos(angle), y + r * Math.sin(angle)];
  });
  return polyline(layerOf(circle), points);
}

/** Vertices of a polyline: x, y, bulge. */
export function vertices(entity: Entity): { x: number; y: number; bulge: number }[] {
  const found: { x: number; y: number; bulge: number }[] = [];
  for (const [code, text] of entity.tags) {
    const last = found.at(-1);
    if (code === 10) found.push({ x: Number(text), y: 0, bulge: 0 });
    else if (code === 20 && last !== undefined) last.y = Number(text);
    else if (code === 42 && last !== undefined) last.bulge = Number(text);
  }
  return found;
}

/** The polyline as loose LINEs; its arcs become straight, which no one should notice before the open ends. */
export function exploded(entity: Entity): Entity[] {
  const points = vertices(entity);
  return points.map((from, index) => {
    const to = points[(index + 1) % points.length] ?? from;
    return {
      type: "LINE",
      tags: [
        [8, layerOf(entity)],
        [10, String(from.x)],
        [20, String(from.y)],
        [11, String(to.x)],
        [21, String(to.y)],
      ],
    };
  });
}
