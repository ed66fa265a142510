import type { z } from "zod";
import type { Located, LocatedScalar } from "./located.js";
import { didYouMean } from "./nearest-name.js";
import type { JsonSchema } from "./schema-walk.js";

export interface IssueContext {
  /** True when the value is not there at all. */
  readonly missing: boolean;
  /** What stands there; the surrounding value when it is missing. */
  readonly node: Located;
  readonly schema: JsonSchema | undefined;
}

/** What is wrong with one value and what would be right, for people. */
export function messageFor(issue: z.core.$ZodIssue, context: IssueContext): string {
  if (context.missing) return missingMessage(context.schema);
  switch (issue.code) {
    case "invalid_type":
      return wrongKind(issue.expected, context);
    case "invalid_value":
      return wrongChoice(issue.values, context.node);
    case "too_small":
      return limitMessage(context, issue.origin, Number(issue.minimum), issue.inclusive !== false, "least");
    case "too_big":
      return limitMessage(context, issue.origin, Number(issue.maximum), issue.inclusive !== false, "most");
    case "invalid_format":
      return `${quoted(context.node)} will not do; ${formatText(issue)}`;
    case "invalid_key":
      return "this name cannot be used; letters, digits, - and _ only, beginning with a letter";
    default:
      return issue.message;
  }
}

/** Keys that may stand in a map of this schema. */
export function namesAllowed(schema: JsonSchema | undefined): string[] {
  const shapes = [schema, ...(schema?.anyOf ?? [])];
  return shapes.flatMap((shape) => Object.keys(shape?.properties ?? {}));
}

function missingMessage(schema: JsonSchema | undefined): string {
  const choices = schema?.enum ?? (schema?.const === undefined ? undefined : [schema.const]);
  const meaning = schema?.description === undefined ? "" : ` (${schema.description})`;
  const right = choices === undefined ? "" : `; give ${choices.map(String).join(" or ")}`;
  return `is missing${meaning}${right}`;
}

function wrongKind(expected: string, context: IssueContext): string {
  const { node } = context;
  if (expected === "number" || expected === "int") {
    if (node.kind === "scalar" && typeof node.value === "string") return textForNumber(node);
    if (expected === "int" && node.kind === "scalar" && typeof node.value === "number") {
      return `${node.text} is not a whole number; write ${Math.max(1, Math.round(node.value))}`;
    }
  }
  if (expected === "boolean" && node.kind === "scalar") {
    const guess = /^(yes|on|y|1)$/i.test(node.text)
      ? "; write true"
      : /^(no|off|n|0)$/i.test(node.text)
        ? "; write false"
        : "";
    return `${quoted(node)} is neither true nor false${guess}`;
  }
  if (expected === "string" && node.kind === "scalar" && node.value !== null) {
    return `${node.text} is read as a ${typeof node.value}, but a text is wanted; put it in quotes: "${node.text}"${meaningText(context.schema)}`;
  }
  const single = node.kind === "scalar" && (context.schema?.minItems ?? 2) < 2;
  const hint = expected === "array" && single ? `; write [${node.text}]` : "";
  return `here stands ${kindText(node)}, but ${expectedText(expected)} is wanted${hint}${meaningText(context.schema)}`;
}

const unitFactors: Readonly<Record<string, number>> = {
  mm: 1,
  cm: 10,
  m: 1000,
  in: 25.4,
  '"': 25.4,
  "''": 25.4,
  ft: 304.8,
  "'": 304.8,
};

function textForNumber(node: LocatedScalar): string {
  const text = node.text.trim();
  const [, digits, unit] =
    /^([-+]?\d(?:[\d.,_]|'(?=\d))*|[-+]?\.\d+)\s*(mm|cm|m|in|ft|"|''|')?$/i.exec(text) ?? [];
  if (digits === undefined) {
    const inches = inchFraction(text);
    const right = inches === undefined ? "" : `; in millimetres: ${Number((inches * 25.4).toFixed(6))}`;
    return `"${text}" is a text, but a number is wanted${right}`;
  }
  const factor = unitFactors[unit?.toLowerCase() ?? "mm"] ?? 1;
  const values = readings(digits).map((plain) => Number((Number(plain) * factor).toFixed(6)));
  if (!values.every(Number.isFinite)) return `"${text}" is a text, but a number is wanted`;
  const why = unit === undefined ? "" : ", in millimetres without a unit";
  return `"${text}" is a text; write the number alone${why}: ${values.join(" or ")}`;
}

/** Inches as they are sold: 3/8", 1-1/2 in, 1 1/2; undefined where it is none. */
function inchFraction(text: string): number | undefined {
  const [, whole = "0", over, under, unit] = /^(?:(\d+)[- ])?(\d+)\/(\d+)\s*(in|"|'')?$/i.exec(text) ?? [];
  // Without a unit it may be of anything.
  if (unit === undefined) return undefined;
  if (over === undefined || under === undefined || Number(under) === 0) return undefined;
  return Number(whole) + Number(over) / Number(under);
}

/** What digits with commas can mean: one comma stands for a point, and before three digits also for thousands. */
function readings(digits: string): readonly string[] {
  const without = digits.replace(/[,_']/g, "");
  if (!/^[-+]?\d+,\d+$/.test(digits)) return [without];
  const decimal = digits.replace(",", ".");
  return /,\d{3}$/.test(digits) ? [decimal, without] : [decimal];
}

function wrongChoice(values: readonly unknown[], node: Located): string {
  const choices = values.map(String);
  const [only] = choices;
  if (choices.length === 1) return `${quoted(node)} must be ${only}`;
  const written = node.kind === "scalar" ? node.text : kindText(node);
  const nearest = node.kind === "scalar" ? didYouMean(written, choices) : "";
  return `"${written}" is not one of ${choices.join(", ")}${nearest}`;
}

function limitMessage(
  context: IssueContext,
  origin: string,
  limit: number,
  inclusive: boolean,
  side: "least" | "most",
): string {
  const { node } = context;
  if (origin === "string") {
    return side === "least" ? "is empty; give a text" : `is longer than ${limit} characters`;
  }
  if (origin === "array" || origin === "set") {
    const count = node.kind === "list" ? node.items.length : 0;
    if (side === "least" && count === 0)
      return `the list is empty; give at least ${limit}${meaningText(context.schema)}`;
    return `the list has ${count === 1 ? "1 entry" : `${count} entries`}, but at ${side} ${limit} are wanted${meaningText(context.schema)}`;
  }
  const bound =
    side === "least"
      ? inclusive
        ? `must be ${limit} or more`
        : `must be more than ${limit}`
      : inclusive
        ? `must be ${limit} or less`
        : `must be less than ${limit}`;
  return `${quoted(node)} ${bound}${meaningText(context.schema)}`;
}

function formatText(issue: z.core.$ZodIssueInvalidStringFormat): string {
  // A pattern with a message of its own says what is right; the library's default text is for programmers.
  return /^Invalid/.test(issue.message)
    ? `it must match ${issue.pattern ?? issue.format}`
    : `give ${issue.message}`;
}

function meaningText(schema: JsonSchema | undefined): string {
  return schema?.description === undefined ? "" : ` (${schema.description})`;
}

function quoted(node: Located): string {
  if (node.kind !== "scalar") return kindText(node);
  const text = node.text.length > 40 ? `${node.text.slice(0, 40)}...` : node.text;
  return typeof node.value === "string" ? `"${text}"` : text;
}

function kindText(node: Located): string {
  if (node.kind === "map") return "a map of keys";
  if (node.kind === "list") return "a list";
  return `${typeof node.value === "string" ? "the text" : `the ${typeof node.value}`} ${quoted(node)}`;
}

function expectedText(expected: string): string {
  if (expected === "object" || expected === "record") return "a map of keys (key: value)";
  if (expected === "array" || expected === "tuple") return "a list";
  return `a ${expected}`;
}
