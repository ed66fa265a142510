import type { Finding } from "@keelcut/geometry";
import type { INode } from "svgson";
import { type Affine, compose, composeAll, shift, stretch } from "./affine.js";
import {
  defaultReadOptions,
  importFinding,
  isAskedFor,
  MOST_SHAPES,
  otherUnit,
  type ReadFile,
  type ReadOptions,
  type ReadShape,
} from "./read-file.js";
import { parseLength, parseNumbers, unitMillimetres } from "./svg-numbers.js";
import { drawn, readElement } from "./svg-shapes.js";
import { parseTransform } from "./svg-transform.js";
import { SvgFault, svgTree } from "./svg-tree.js";

/**
 * Reads an SVG file: basic shapes and paths under nested transforms, arcs kept, other curves replaced by arcs;
 * millimetres by width, height and viewBox, y turned up. Everything else is a finding. Never throws on bad input.
 */
export function readSvg(text: string, options: ReadOptions = defaultReadOptions): ReadFile {
  const findings: Finding[] = [];
  try {
    const root = svgTree(text);
    const page = pageIn(options.unit, root, findings);
    refuseMovedRoot(root);
    const shapes: ReadShape[] = [];
    const leftOut: string[] = [];
    const named: string[] = [];
    walk(root, {
      leftOut,
      named,
      map: page.map,
      layer: "",
      within: [],
      place: "svg",
      options,
      shapes,
      findings,
    });
    return {
      format: "svg",
      scale: page.scale,
      unitStated: page.unitStated,
      shapes,
      leftOut,
      named,
      findings,
      ...(page.unitStated ? { stated: { minX: 0, minY: 0, maxX: page.width, maxY: page.height } } : {}),
    };
  } catch (fault) {
    if (!(fault instanceof SvgFault)) throw fault;
    findings.push(importFinding("unreadable", "error", "file", fault.message));
    return { format: "svg", scale: 1, unitStated: false, shapes: [], leftOut: [], named: [], findings };
  }
}

/** What moves or hides the whole drawing is a browser's business, and nobody draws plates so. */
function refuseMovedRoot(root: INode): void {
  if (isInvisible(root)) throw new SvgFault("the drawing is not displayed: its svg element says so");
  const moved = root.attributes["transform"] !== undefined || changesGeometry(root);
  if (moved)
    throw new SvgFault(
      "the svg element itself is moved or scaled, which is not understood: move a group in it",
    );
}

interface Page {
  /** From user units to millimetres, y up from the page's lower edge. */
  readonly map: Affine;
  readonly scale: number;
  readonly unitStated: boolean;
  readonly width: number;
  readonly height: number;
}

/** The page in the unit that was asked for, whatever it says itself; in its own where none was. */
function pageIn(unit: number | undefined, root: INode, findings: Finding[]): Page {
  if (unit === undefined) return pageOf(root, findings);
  const said: Finding[] = [];
  const page = pageOf(root, said);
  findings.push(...said.filter(({ id }) => id !== "import.unit"));
  const factor = unit / page.scale;
  if (page.unitStated && Math.abs(factor - 1) > 1e-9) findings.push(otherUnit(page.scale, unit, "svg"));
  return {
    map: compose(stretch(factor, factor), page.map),
    scale: unit,
    unitStated: true,
    width: factor * page.width,
    height: factor * page.height,
  };
}

/** SVG 1.1, sections 7.7 and 7.8: the viewBox is fitted into width x height. */
function pageOf(root: INode, findings: Finding[]): Page {
  const box = root.attributes["viewBox"];
  const view = box === undefined ? undefined : parseNumbers(box);
  if (box !== undefined && (view?.length !== 4 || !((view[2] ?? 0) > 0 && (view[3] ?? 0) > 0))) {
    throw new SvgFault(`viewBox="${box}" is not four numbers with a size`);
  }
  const [minX = 0, minY = 0, viewWidth = 0, viewHeight = 0] = view ?? [];
  const stated = { width: sizeOf(root, "width"), height: sizeOf(root, "height") };
  // One of the two with a viewBox tells the other.
  const width = stated.width ?? sizeBy(stated.height, viewWidth / viewHeight);
  const height = stated.height ?? sizeBy(stated.width, viewHeight / viewWidth);
  const px = unitMillimetres["px"] ?? 1;
  if (width === undefined || height === undefined) {
    findings.push(
      importFinding(
        "unit",
        "warning",
        "svg",
        "width and height do not both give a size: one user unit is taken as 1 px of 25.4/96 mm",
      ),
    );
    const map = composeAll(shift(0, viewHeight * px), stretch(px, -px), shift(-minX, -minY));
    return { map, scale: px, unitStated: false, width: viewWidth * px, height: viewHeight * px };
  }
  const flip = compose(shift(0, height.mm), stretch(1, -1));
  const unitStated = width.stated && height.stated;
  if (!unitStated) {
    findings.push(
      importFinding("unit", "warning", "svg", "width and height have no unit: px of 25.4/96 mm are taken"),
    );
  }
  const rest = { unitStated, width: width.mm, height: height.mm };
  if (view === undefined) return { map: compose(flip, stretch(px, px)), scale: px, ...rest };
  const [sx, sy] = [width.mm / viewWidth, height.mm / viewHeight];
  const fit = fitView(root, sx, sy, findings);
  const left = (width.mm - viewWidth * fit.x) / 2;
  const top = (height.mm - viewHeight * fit.y) / 2;
  return {
    map: composeAll(flip, shift(left, top), stretch(fit.x, fit.y), shift(-minX, -minY)),
    scale: fit.x,
    ...rest,
  };
}

type Size = { readonly mm: number; readonly stated: boolean };

function sizeBy(other: Size | undefined, ratio: number): Size | undefined {
  return other !== undefined && ratio > 0 ? { ...other, mm: other.mm * ratio } : undefined;
}

function sizeOf(root: INode, name: string): Size | undefined {
  const text = root.attributes[name];
  if (text === undefined || text === "auto" || /%\s*$/.test(text)) return undefined;
  const length = parseLength(text);
  if (length === undefined || !(length.value > 0)) throw new SvgFault(`${name}="${text}" is no size`);
  return {
    mm: length.value * (unitMillimetres[length.unit] ?? 1),
    stated: length.unit !== "" && length.unit !== "px",
  };
}

function fitView(root: INode, sx: number, sy: number, findings: Finding[]): { x: number; y: number } {
  if (Math.abs(sx - sy) <= 1e-9 * sx) return { x: sx, y: sx };
  const rule = (root.attributes["preserveAspectRatio"] ?? "xMidYMid meet").trim();
  if (rule === "none") return { x: sx, y: sy };
  if (!/^xMidYMid(\s+meet)?$/.test(rule)) {
    throw new SvgFault(
      `preserveAspectRatio="${rule}" is not understood when width, height and viewBox disagree`,
    );
  }
  findings.push(
    importFinding(
      "aspect",
      "warning",
      "svg",
      "width, height and viewBox differ in shape: the drawing is centred",
    ),
  );
  const least = Math.min(sx, sy);
  return { x: least, y: least };
}

interface Walk {
  readonly map: Affine;
  readonly layer: string;
  readonly within: readonly string[];
  readonly place: string;
  readonly options: ReadOptions;
  readonly shapes: ReadShape[];
  readonly leftOut: string[];
  readonly named: string[];
  readonly findings: Finding[];
}

/** Elements that say nothing about lines. */
const silent = ["title", "desc", "metadata", "sodipodi:namedview", "defs"];

function walk(parent: INode, context: Walk): void {
  const counts = new Map<string, number>();
  for (const node of parent.children) {
    if (node.type !== "element") continue;
    const count = (counts.get(node.name) ?? 0) + 1;
    counts.set(node.name, count);
    const id = node.attributes["id"];
    const place = `${context.place}/${node.name}[${count}]${id === undefined ? "" : `#${decoded(id)}`}`;
    visit(node, { ...context, place });
  }
}

function visit(node: INode, context: Walk): void {
  const { findings, place } = context;
  if (node.name === "defs" && node.children.some((child) => child.type === "element")) {
    const names = [...new Set(node.children.map((child) => child.name).filter((name) => name !== ""))];
    findings.push(
      importFinding(
        "not-drawn",
        "note",
        place,
        `definitions are not drawn by themselves: ${names.join(", ")}`,
      ),
    );
  }
  if (silent.includes(node.name)) return;
  const isGroup = node.name === "g" || node.name === "a";
  if (!isGroup && !isAskedFor([context.layer, ...context.within], context.options)) {
    context.leftOut.push(context.layer);
    return;
  }
  if (!isGroup && !drawn.includes(node.name)) {
    const cure = node.name === "use" ? "; turn the copy into an object of its own" : "";
    const message = `<${node.name}> is not read: only groups, paths and basic shapes are${cure}`;
    // A copy or a drawing in the drawing may be a hole; a text or a picture is none.
    const lost = node.name === "use" || node.name === "svg" || node.name === "switch";
    findings.push(importFinding("not-understood", lost ? "error" : "warning", place, message));
    return;
  }
  if (isInvisible(node)) {
    findings.push(
      importFinding("hidden", "warning", place, `<${node.name}> is not read: it is not displayed`),
    );
    return;
  }
  const map = mapOf(node, context);
  if (map === undefined) return;
  if (isGroup) {
    const id = node.attributes["id"];
    if (id !== undefined) context.named.push(decoded(id));
    const around = context.layer === "" ? [] : [context.layer, ...context.within];
    walk(
      node,
      id === undefined ? { ...context, map } : { ...context, map, layer: decoded(id), within: around },
    );
    return;
  }
  const paths = readElement(node, map, context.options.fitError);
  if (typeof paths === "string") {
    findings.push(importFinding("not-understood", "error", place, `<${node.name}> cannot be read: ${paths}`));
    return;
  }
  if (paths.length === 0)
    findings.push(importFinding("empty", "note", place, `<${node.name}> draws nothing`));
  paths.forEach((path, index) => {
    if (context.shapes.length >= MOST_SHAPES) throw new SvgFault(`more than ${MOST_SHAPES} shapes`);
    context.shapes.push({
      layer: context.layer,
      ...(context.within.length > 0 && { within: context.within }),
      place: paths.length === 1 ? place : `${place}, part ${index + 1}`,
      source: node.name,
      vertices: path.vertices,
      closed: path.closed,
      ...(path.fitted ? { fitError: context.options.fitError } : {}),
    });
  });
}

/** The element's map, or undefined, with a finding, when something that moves or cuts it is not understood. */
function mapOf(node: INode, context: Walk): Affine | undefined {
  const style = node.attributes["style"] ?? "";
  for (const name of ["clip-path", "mask", "filter"]) {
    if (node.attributes[name] !== undefined || new RegExp(`(^|;)\\s*${name}\\s*:`).test(style)) {
      const message = `${name} is not applied: the whole line is read`;
      context.findings.push(importFinding("not-understood", "warning", context.place, message));
    }
  }
  if (changesGeometry(node) || node.attributes["transform-origin"] !== undefined) {
    const message = "its style changes geometry, which is not understood";
    context.findings.push(importFinding("not-understood", "error", context.place, message));
    return undefined;
  }
  const text = node.attributes["transform"];
  if (text === undefined) return context.map;
  const own = parseTransform(text);
  if (own === undefined || own.some((value) => !Number.isFinite(value))) {
    const message = `transform="${text.slice(0, 60)}" is not understood`;
    context.findings.push(importFinding("not-understood", "error", context.place, message));
    return undefined;
  }
  return compose(context.map, own);
}

/** CSS properties that draw another shape, or elsewhere (SVG 2; CSS Transforms 1 and 2; Motion Path). */
function changesGeometry(node: INode): boolean {
  const style = node.attributes["style"] ?? "";
  const own = node.name === "svg" ? "" : "|width|height";
  const names = `transform|transform-origin|transform-box|translate|rotate|scale|zoom|offset-path|d|x|y|cx|cy|r|rx|ry${own}`;
  return new RegExp(`(^|;)\\s*(${names})\\s*:`).test(style);
}

function isInvisible(node: INode): boolean {
  const style = node.attributes["style"] ?? "";
  return (
    node.attributes["display"] === "none" ||
    node.attributes["visibility"] === "hidden" ||
    /(^|;)\s*(display\s*:\s*none|visibility\s*:\s*hidden)/.test(style)
  );
}

/** svgson leaves entities as they stand. */
function decoded(text: string): string {
  const named: Readonly<Record<string, string>> = { amp: "&", lt: "<", gt: ">", quot: '"', apos: "'" };
  return text.replace(/&(#x[\da-f]+|#\d+|[a-z]+);/gi, (whole, name: string) => {
    if (!name.startsWith("#")) return named[name] ?? whole;
    const code = name[1]?.toLowerCase() === "x" ? Number.parseInt(name.slice(2), 16) : Number(name.slice(1));
    return code > 0 && code <= 0x10ffff ? String.fromCodePoint(code) : whole;
  });
}
