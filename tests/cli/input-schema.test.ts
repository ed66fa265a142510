import { describe, expect, it } from "vitest";
import { command } from "./command-run.js";

interface Schema {
  readonly $schema?: string;
  readonly type?: string;
  readonly description?: string;
  readonly properties?: Record<string, Schema>;
  readonly items?: Schema;
  readonly prefixItems?: Schema[];
  readonly anyOf?: Schema[];
  readonly additionalProperties?: boolean | Schema;
}

async function schemaOf(file: string): Promise<Schema> {
  const ran = await command(["schema", file], "/");
  expect([ran.code, ran.err]).toEqual([0, ""]);
  return JSON.parse(ran.out) as Schema;
}

/** Paths of fields without a description, and of maps that take any key. */
function undocumented(schema: Schema, path: string): string[] {
  const named = Object.entries(schema.properties ?? {}).flatMap(([key, inner]) => [
    ...(inner.description === undefined ? [`${path}.${key}`] : []),
    ...undocumented(inner, `${path}.${key}`),
  ]);
  const loose =
    schema.properties !== undefined && schema.additionalProperties !== false ? [`${path} takes any key`] : [];
  const more = [
    schema.items,
    ...(schema.prefixItems ?? []),
    ...(schema.anyOf ?? []),
    schema.additionalProperties,
  ];
  const inner = more.flatMap((each) => (typeof each === "object" ? undocumented(each, `${path}[]`) : []));
  return [...named, ...loose, ...inner];
}

describe.each(["frame", "stock", "shop"])("the JSON Schema of the %s file", (file) => {
  it("describes every field and allows no unknown key", async () => {
    const schema = await schemaOf(file);
    expect(schema.$schema).toBe("https://json-schema.org/draft/2020-12/schema");
    expect(Object.keys(schema.properties ?? {}).length).toBeGreaterThan(5);
    expect(undocumented(schema, file)).toEqual([]);
  });
});
