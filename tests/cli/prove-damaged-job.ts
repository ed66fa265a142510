import type { Expectations, WrittenFile } from "../../packages/cli/src/prove/index.js";
import { type Entity, edit, on, value, vertices } from "./prove-damage.js";
import { type ProvedJob, writeJob } from "./prove-samples.js";

/** What is damaged, how, and the finding that must name it. */
export type Damage = readonly (readonly [string, () => ProvedJob, string])[];

/** One sheet in both formats and one plate file, to keep every case quick. */
export function small(job: ProvedJob): ProvedJob {
  const [sheet] = job.expectations.sheets;
  const [plateFile] = job.expectations.plateFiles;
  if (sheet === undefined || plateFile === undefined) throw new Error("the sample job is empty");
  const copies = (id: string): number =>
    sheet.placements.filter(({ plate }) => plate === id).length * sheet.times;
  const names = [sheet.name, plateFile.name];
  return {
    files: job.files.filter(({ name }) => names.some((wanted) => name.includes(`/${wanted}.`))),
    expectations: {
      ...job.expectations,
      sheets: [sheet],
      plateFiles: [plateFile],
      plates: job.expectations.plates.map((plate) => ({ ...plate, copies: copies(plate.id) })),
    },
  };
}

export const kerf = 3.175;
export const good: ProvedJob = small(writeJob({ state: "nominal" }));
export const compensated: ProvedJob = small(writeJob({ state: "compensated", kerf }));
export const dxf: number = good.files.findIndex(({ name }) => /sheets.*\.dxf$/.test(name));
export const svg: number = good.files.findIndex(({ name }) => /sheets.*\.svg$/.test(name));
export const plateDxf: number = good.files.findIndex(({ name }) => /plates.*\.dxf$/.test(name));

export function change(index: number, damage: (text: string) => string, job: ProvedJob = good): ProvedJob {
  const files = job.files.map((file, at) => (at === index ? { ...file, text: damage(file.text) } : file));
  return { ...job, files };
}

export const inDxf = (damage: (entities: Entity[]) => void): ProvedJob =>
  change(dxf, (text) => edit(text, damage));
export const inText = (damage: (text: string) => string): ProvedJob => change(dxf, damage);
export const inSvg = (damage: (text: string) => string): ProvedJob => change(svg, damage);
export const inRecord = (
  record: (expectations: Expectations) => Expectations,
  job: ProvedJob = good,
): ProvedJob => ({
  ...job,
  expectations: record(job.expectations),
});
export const inFiles = (files: (files: readonly WrittenFile[]) => WrittenFile[]): ProvedJob => ({
  ...good,
  files: files(good.files),
});

export function replace(entities: Entity[], old: Entity, ...fresh: Entity[]): void {
  entities.splice(entities.indexOf(old), 1, ...fresh);
}

export function largest(entities: readonly Entity[], layer: string, type: string): Entity {
  const sizes = on(entities, layer, type).map((entity) => {
    const xs = vertices(entity).map(({ x }) => x);
    return { entity, size: Math.max(...xs) - Math.min(...xs) };
  });
  const found = sizes.sort((a, b) => b.size - a.size)[0]?.entity;
  if (found === undefined) throw new Error(`nothing on ${layer}`);
  return found;
}

export function each(entities: readonly Entity[], damage: (entity: Entity) => void): void {
  for (const entity of entities) damage(entity);
}

/** The circle of a deck's large opening. */
export function largeCircle(entities: readonly Entity[]): Entity {
  return hole(entities, 50);
}

export function hole(entities: readonly Entity[], radius: number): Entity {
  const found = on(entities, "opening", "CIRCLE").find((entity) => value(entity, 40) === radius);
  if (found === undefined) throw new Error("no such circle");
  return found;
}

export function toEnd(entities: Entity[], entity: Entity): void {
  entities.splice(entities.indexOf(entity), 1);
  entities.push(entity);
}

export const square = (x: number, y: number, size: number): [number, number][] => [
  [x, y],
  [x + size, y],
  [x + size, y + size],
  [x, y + size],
];
