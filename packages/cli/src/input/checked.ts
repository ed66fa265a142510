import { z } from "zod";
import { InputError, type Problem } from "./input-error.js";
import {
  fieldText,
  keyPlace,
  type Located,
  nodeAt,
  type PathStep,
  placeText,
  plainValue,
} from "./located.js";
import { nearestName } from "./nearest-name.js";
import { messageFor, namesAllowed } from "./schema-message.js";
import { type JsonSchema, schemaAt } from "./schema-walk.js";

/** What people write for a key that has another name here. */
const otherNames: Readonly<Record<string, string>> = {
  cutter: "kerf",
  diameter: "outside",
  gap: "clearance",
  margin: "edgeMargin",
  quantity: "count",
  type: "axis",
};

/**
 * The value of a located tree after its schema, or every problem with its place.
 *
 * @throws InputError with all problems: unknown keys with the nearest known one, wrong kinds of value with what
 *   to write instead, missing fields with what they mean
 */
export function checked<Schema extends z.ZodType>(schema: Schema, root: Located): z.output<Schema> {
  const result = schema.safeParse(plainValue(root));
  const nulls = nullKeys(root);
  if (result.success && nulls.length === 0) return result.data;
  const outline = z.toJSONSchema(schema, { io: "input", unrepresentable: "any" }) as JsonSchema;
  const found = [
    ...(result.error?.issues ?? []).flatMap((issue) => issueProblems(issue, root, outline)),
    ...nulls.flatMap((path) => unknownNull(path, root, outline)),
  ];
  if (result.success && found.length === 0) return result.data;
  throw new InputError(inOrder(withoutConsequences(found)));
}

/** Where keys were taken back to their defaults by `null`: the schema does not see them. */
function nullKeys(node: Located, path: readonly PathStep[] = []): (readonly PathStep[])[] {
  if (node.kind === "list") return node.items.flatMap((item, index) => nullKeys(item, [...path, index]));
  if (node.kind !== "map") return [];
  return [...node.entries].flatMap(([key, { value }]) =>
    value.kind === "scalar" && value.value === null ? [[...path, key]] : nullKeys(value, [...path, key]),
  );
}

function unknownNull(path: readonly PathStep[], root: Located, outline: JsonSchema): Found[] {
  const around = schemaAt(outline, path.slice(0, -1));
  const key = String(path.at(-1));
  const open = [around, ...(around?.anyOf ?? [])].some(
    (shape) => typeof shape?.additionalProperties === "object",
  );
  if (around === undefined || open || namesAllowed(around).includes(key)) return [];
  return unknownKeys([key], path.slice(0, -1), root, outline);
}

/** A problem with what only this file needs to know about it. */
interface Found extends Problem {
  /** Field that an unknown key was probably meant to be. */
  readonly meant?: string;
  readonly missing?: boolean;
}

/** A field whose name is misspelt is not missing as well. */
function withoutConsequences(found: readonly Found[]): Problem[] {
  const meant = new Set(found.map((problem) => problem.meant));
  return found
    .filter((problem) => problem.missing !== true || !meant.has(problem.field))
    .map(({ where, field, message }) =>
      field === undefined ? { where, message } : { where, field, message },
    );
}

function issueProblems(issue: z.core.$ZodIssue, root: Located, outline: JsonSchema): Found[] {
  const path = issue.path.map((step) => (typeof step === "number" ? step : String(step)));
  if (issue.code === "unrecognized_keys") return unknownKeys(issue.keys, path, root, outline);
  if (issue.code === "invalid_union") return unionProblems(issue, path, root, outline);
  const { node, reached } = nodeAt(root, path);
  const missing = reached < path.length || (node.kind === "scalar" && node.value === null);
  return [
    {
      where: placeText(node.place),
      field: fieldText(root, path),
      message: messageFor(issue, { missing, node, schema: schemaAt(outline, path) }),
      missing,
    },
  ];
}

function unknownKeys(
  keys: readonly string[],
  path: readonly PathStep[],
  root: Located,
  outline: JsonSchema,
): Found[] {
  const known = namesAllowed(schemaAt(outline, path));
  return keys.map((key) => {
    const other = otherNames[key];
    const guess = other !== undefined && known.includes(other) ? other : nearestName(key, known);
    const right = guess === undefined ? `known here: ${known.join(", ")}` : `did you mean "${guess}"?`;
    return {
      where: placeText(keyPlace(root, [...path, key])),
      field: fieldText(root, [...path, key]),
      message: `this key is not known; ${right}`,
      ...(guess === undefined ? {} : { meant: fieldText(root, [...path, guess]) }),
    };
  });
}

/**
 * Of several shapes a value may have, the one the person most likely meant: the shape that shares the most keys
 * with what was written, or has its kind. When none is near, all shapes are named.
 */
function unionProblems(
  issue: z.core.$ZodIssueInvalidUnion,
  path: readonly PathStep[],
  root: Located,
  outline: JsonSchema,
): Found[] {
  const { node, reached } = nodeAt(root, path);
  const branches = schemaAt(outline, path)?.anyOf ?? [];
  const shapes = branches.map(shapeText).join(" or ");
  const found = (message: string, missing = false): Found[] => [
    { where: placeText(node.place), field: fieldText(root, path), message, missing },
  ];
  if (reached < path.length) return found(`is missing; give ${shapes}`, true);
  if (mixesShapes(branches, node)) return found(`two of these at once; keep one: ${shapes}`);
  const meant = bestBranch(branches, node);
  const inner = issue.errors[meant];
  const chosen = branches[meant];
  if (inner === undefined || chosen === undefined) return found(`this cannot be understood; give ${shapes}`);
  const narrowed = replaceAt(outline, path, chosen);
  return inner.flatMap((one) =>
    issueProblems({ ...one, path: [...issue.path, ...one.path] }, root, narrowed),
  );
}

/** True when a map has keys that only one shape knows beside keys that only another knows. */
function mixesShapes(branches: readonly JsonSchema[], node: Located): boolean {
  if (node.kind !== "map") return false;
  const keys = [...node.entries.keys()];
  const owners = keys.map((key) =>
    branches.flatMap((branch, index) => (Object.hasOwn(branch.properties ?? {}, key) ? [index] : [])),
  );
  return new Set(owners.filter((each) => each.length === 1).flat()).size > 1;
}

/** Index of the likest shape, -1 when none is like it. */
function bestBranch(branches: readonly JsonSchema[], node: Located): number {
  let best = -1;
  let bestScore = 0;
  for (const [index, branch] of branches.entries()) {
    const score = likeness(branch, node);
    if (score > bestScore) {
      best = index;
      bestScore = score;
    }
  }
  return best;
}

function likeness(branch: JsonSchema, node: Located): number {
  if (node.kind === "list") return branch.type === "array" ? 1 : 0;
  if (node.kind === "map") {
    if (branch.type !== "object") return 0;
    const known = Object.keys(branch.properties ?? {});
    return [...node.entries.keys()].filter((key) => known.includes(key) || nearestName(key, known)).length;
  }
  if (typeof node.value === "string" && branch.type === "string") return 2;
  if (typeof node.value === "string" && /\d/.test(node.value) && isNumeric(branch)) return 1;
  return typeof node.value === "number" && isNumeric(branch) ? 2 : 0;
}

function isNumeric(schema: JsonSchema): boolean {
  return schema.type === "number" || schema.type === "integer";
}

function shapeText(schema: JsonSchema): string {
  if (schema.type === "object") return `{${Object.keys(schema.properties ?? {}).join(", ")}}`;
  if (schema.type === "array") return "a list";
  return isNumeric(schema) ? "a number" : "a text";
}

/** The outline with one schema in place of the union at the path, so that messages inside see the chosen shape. */
function replaceAt(outline: JsonSchema, path: readonly PathStep[], chosen: JsonSchema): JsonSchema {
  const [step, ...rest] = path;
  if (step === undefined) return chosen;
  const inner = schemaAt(outline, [step]);
  if (inner === undefined) return outline;
  const replaced = replaceAt(inner, rest, chosen);
  if (typeof step === "number") return { type: "array", items: replaced };
  return { ...outline, properties: { ...outline.properties, [step]: replaced } };
}

/** Problems of files by line, so that a person goes through the file once. */
function inOrder(problems: readonly Problem[]): Problem[] {
  const line = (problem: Problem): number => Number(/:(\d+):\d+$/.exec(problem.where)?.[1] ?? 0);
  return [...problems].sort((a, b) => line(a) - line(b));
}
