import { createRequire } from "node:module";

/** An element of an SVG as the independent reader (svgson) gives it. */
export interface SvgNode {
  readonly name: string;
  readonly type: string;
  readonly value: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly SvgNode[];
}

const fromCli = createRequire(new URL("../../../packages/cli/package.json", import.meta.url));
const { parseSync } = fromCli("svgson") as { parseSync: (text: string) => SvgNode };

/** Every inline SVG of a page, parsed; throws when one is not well-formed XML. */
export function pictures(page: string): readonly SvgNode[] {
  return [...page.matchAll(/<svg .*?<\/svg>/gs)].map(([text]) => parseSync(text));
}

/** All elements of a name below a node. */
export function below(node: SvgNode, name: string): readonly SvgNode[] {
  const own = node.name === name ? [node] : [];
  return [...own, ...node.children.flatMap((child) => below(child, name))];
}

/** The page's text as a reader sees it, without tags and style; entities decoded, spaces joined. */
export function visibleText(page: string): string {
  return decoded(
    page
      .replace(/<style>.*?<\/style>/gs, "")
      .replace(/<(desc|title)[ >].*?<\/\1>/gs, " ")
      .replace(/<[^>]*>/g, " "),
  ).replace(/\s+/g, " ");
}

/** The inside of the element with this id, by counting its tag name. */
export function elementById(page: string, id: string): string {
  const start = page.search(new RegExp(`<[a-z]+[^>]* id="${id}"`));
  if (start < 0) throw new Error(`the page has no element ${id}`);
  const tag = /^<([a-z]+)/.exec(page.slice(start))?.[1] ?? "";
  let depth = 0;
  for (const match of page.slice(start).matchAll(new RegExp(`<(/?)${tag}[ >]`, "g"))) {
    depth += match[1] === "" ? 1 : -1;
    if (depth === 0) return page.slice(start, start + match.index);
  }
  throw new Error(`element ${id} is not closed`);
}

/** Tags that are opened and not closed in order, `[]` for a well-formed page. */
export function unbalancedTags(page: string): readonly string[] {
  const open: string[] = [];
  const wrong: string[] = [];
  for (const [, close, name = "", attributes = ""] of page.matchAll(
    /<(\/?)([a-zA-Z0-9]+)((?:[^<>"]|"[^"]*")*)>/g,
  )) {
    if (close === "/") {
      const last = open.pop();
      if (last !== name) wrong.push(`${last} closed by ${name}`);
    } else if (!VOID.has(name) && !attributes.endsWith("/")) {
      open.push(name);
    }
  }
  return [...wrong, ...open];
}

const VOID = new Set(["meta", "link", "br", "img", "input", "hr"]);

function decoded(text: string): string {
  return text
    .replaceAll("&lt;", "<")
    .replaceAll("&gt;", ">")
    .replaceAll("&quot;", '"')
    .replaceAll("&#39;", "'")
    .replaceAll("&#160;", "\u00A0")
    .replaceAll("&#8239;", "\u202F")
    .replaceAll("&amp;", "&");
}
