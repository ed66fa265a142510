import type { PathStep } from "./located.js";

/** The part of JSON Schema that messages need. */
export interface JsonSchema {
  readonly type?: string;
  readonly description?: string;
  readonly default?: unknown;
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
  readonly properties?: Readonly<Record<string, JsonSchema>>;
  readonly required?: readonly string[];
  readonly additionalProperties?: boolean | JsonSchema;
  readonly items?: JsonSchema;
  readonly minItems?: number;
  readonly prefixItems?: readonly JsonSchema[];
  readonly anyOf?: readonly JsonSchema[];
}

/** The schema of the value at a path; of a union the first shape that leads on. */
export function schemaAt(schema: JsonSchema, path: readonly PathStep[]): JsonSchema | undefined {
  const [step, ...rest] = path;
  if (step === undefined) return schema;
  for (const shape of [schema, ...(schema.anyOf ?? [])]) {
    const next = inside(shape, step);
    const found = next === undefined ? undefined : schemaAt(next, rest);
    if (found !== undefined) return found;
  }
  return undefined;
}

function inside(schema: JsonSchema, step: PathStep): JsonSchema | undefined {
  if (typeof step === "number") return schema.prefixItems?.[step] ?? schema.items;
  if (schema.properties !== undefined && Object.hasOwn(schema.properties, step))
    return schema.properties[step];
  return typeof schema.additionalProperties === "object" ? schema.additionalProperties : undefined;
}
