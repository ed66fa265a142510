import { type INode, parseSync } from "svgson";
import { LARGEST_SVG } from "./read-file.js";

/** Elements in elements, deeper than any drawing; the XML parser overflows its stack far beyond. */
const DEEPEST_TAGS = 500;

/** A file that cannot be read at all. */
export class SvgFault extends Error {
  constructor(message: string) {
    super(message);
    this.name = "SvgFault";
  }
}

/**
 * The element tree of an SVG text.
 *
 * @throws SvgFault when it is too large, too deep, no well-formed XML, or its root is not one `svg` element.
 */
export function svgTree(text: string): INode {
  if (text.length > LARGEST_SVG) {
    throw new SvgFault(`the file has ${text.length} characters; at most ${LARGEST_SVG} are read`);
  }
  // svgson takes a comment for a tag that ends at the first ">", and reads the rest of it as drawn.
  const visible = text.replace(/<!--[\s\S]*?-->/g, "");
  checkTags(visible);
  let root: INode | readonly INode[];
  try {
    root = parseSync(visible);
  } catch {
    throw new SvgFault("the file is no well-formed XML");
  }
  if (Array.isArray(root)) throw new SvgFault("the file has more than one root element");
  const node = root as INode;
  if (node?.name !== "svg") throw new SvgFault(`the root element is "${node?.name ?? ""}", not "svg"`);
  return node;
}

/** Every element that opens must close, in order: svgson is lenient about both ends of a truncated file. */
function checkTags(text: string): void {
  const bare = text
    .replace(/<!\[CDATA\[[\s\S]*?\]\]>/g, "")
    .replace(/<\?[\s\S]*?\?>/g, "")
    .replace(/<!DOCTYPE[^>[]*(\[[\s\S]*?\]\s*)?>/i, "");
  const open: string[] = [];
  const tag = /<(\/?)([A-Za-z_][\w:.-]*)((?:[^<>"']|"[^"<]*"|'[^'<]*')*)>/g;
  let seen = 0;
  for (const match of bare.matchAll(tag)) {
    seen += 1;
    const name = match[2] ?? "";
    if (match[1] === "/") {
      const last = open.pop();
      if (last !== name)
        throw new SvgFault(`</${name}> closes ${last === undefined ? "nothing" : `<${last}>`}`);
    } else if (!(match[3] ?? "").trimEnd().endsWith("/")) open.push(name);
    if (open.length > DEEPEST_TAGS) throw new SvgFault(`elements are nested deeper than ${DEEPEST_TAGS}`);
  }
  if (seen === 0) throw new SvgFault("the file holds no element: it is no SVG file");
  if (open.length > 0) throw new SvgFault(`<${open.at(-1)}> is never closed: the file is cut short`);
  if ((bare.match(/</g) ?? []).length !== seen) throw new SvgFault("the file is no well-formed XML");
}
