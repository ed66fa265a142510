import { asCircle, isStraight, type Path, type Vertex } from "@keelcut/geometry";
import type { Drawing, Entity } from "../drawing.js";
import { defaultLayerOptions, type LayerOptions, layerNamer, svgColour, usedLayers } from "../layer-names.js";
import { plainDecimal } from "../plain-decimal.js";

export type SvgOptions = LayerOptions;

/** Thin enough that laser drivers take it for a cut line (common practice: at most 0.001 in = 0.0254 mm). */
const HAIRLINE = 0.025;
/** Sweeps above this are split: near a half circle an arc's centre hangs on the last digits of its radius. */
const LARGEST_SWEEP = (150 * Math.PI) / 180;

/**
 * The text of an SVG file: millimetres in width, height and viewBox, true arcs, no transforms, in cutting order.
 *
 * y is turned down in the coordinates themselves. Entities of one layer that follow each other share a group; a
 * layer that comes again later, because plates lie in openings, has a numbered group.
 *
 * @throws RangeError when a number is not finite or operations that must stay apart share a layer.
 */
export function writeSvg(drawing: Drawing, options: SvgOptions = defaultLayerOptions): string {
  const width = number(drawing.width);
  const height = number(drawing.height);
  return [
    `<?xml version="1.0" encoding="UTF-8"?>`,
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}">`,
    `<title>${escaped(drawing.title)}</title>`,
    `<desc>${escaped(drawing.note.join(" - "))}</desc>`,
    ...groups(drawing, options),
    "</svg>",
    "",
  ].join("\n");
}

function groups(drawing: Drawing, options: LayerOptions): string[] {
  const name = layerNamer(options);
  const colours = new Map(
    usedLayers(drawing, options).map((each) => [each.name, svgColour(options, each.layer)]),
  );
  const runs: { name: string; lines: string[] }[] = [];
  for (const entity of drawing.entities) {
    const layer = name(entity.layer);
    let run = runs.at(-1);
    if (run?.name !== layer) {
      run = { name: layer, lines: [] };
      runs.push(run);
    }
    run.lines.push(element(entity, drawing.height));
  }
  const ids = new Set<string>();
  return runs.flatMap((run) => {
    let id = run.name;
    for (let time = 2; ids.has(id); time++) id = `${run.name}-${time}`;
    ids.add(id);
    const style = `fill="none" stroke="${colours.get(run.name)}" stroke-width="${HAIRLINE}"`;
    return [`<g id="${escaped(id)}" ${style}>`, ...run.lines, "</g>"];
  });
}

function element(entity: Entity, height: number): string {
  if (entity.kind === "path") return pathElement(entity.path, height);
  const circle = asCircle(entity.contour);
  if (circle === undefined) return pathElement({ vertices: entity.contour, closed: true }, height);
  const { center, radius } = circle;
  return `<circle cx="${number(center.x)}" cy="${number(height - center.y)}" r="${number(radius)}"/>`;
}

function pathElement(path: Path, height: number): string {
  const [first, ...rest] = path.vertices;
  if (first === undefined || rest.length === 0) throw new RangeError("a path needs two vertices");
  const data = [`M${number(first.x)} ${number(height - first.y)}`];
  let from = first;
  for (const to of path.closed ? [...rest, first] : rest) {
    data.push(...step(from, to, height, path.closed && to === first));
    from = to;
  }
  return `<path d="${data.join("")}${path.closed ? "Z" : ""}"/>`;
}

/** One segment; the straight line back to the start is left to `Z`. */
function step(from: Vertex, to: Vertex, height: number, last: boolean): string[] {
  if (isStraight(from, to)) return last ? [] : [`L${number(to.x)} ${number(height - to.y)}`];
  const sweep = 4 * Math.atan(from.bulge);
  if (Math.abs(sweep) > LARGEST_SWEEP) {
    const middle = arcMiddle(from, to);
    return [...step(middle.first, middle.second, height, false), ...step(middle.second, to, height, false)];
  }
  const chord = Math.hypot(to.x - from.x, to.y - from.y);
  const radius = (chord * (1 + from.bulge * from.bulge)) / (4 * Math.abs(from.bulge));
  // y runs down: what turns counter-clockwise on paper turns against SVG's positive angle.
  const flag = from.bulge > 0 ? 0 : 1;
  const r = number(radius);
  return [`A${r} ${r} 0 0 ${flag} ${number(to.x)} ${number(height - to.y)}`];
}

/** The arc cut in two of half the sweep: tan(sweep/8) from b = tan(sweep/4). */
function arcMiddle(from: Vertex, to: Vertex): { first: Vertex; second: Vertex } {
  const b = from.bulge;
  const bulge = b / (1 + Math.sqrt(1 + b * b));
  const x = (from.x + to.x) / 2 + (b * (to.y - from.y)) / 2;
  const y = (from.y + to.y) / 2 - (b * (to.x - from.x)) / 2;
  return { first: { ...from, bulge }, second: { x, y, bulge } };
}

/**
 * An arc is given by its ends and radius: its middle strays by tan(sweep / 4) .. tan(sweep / 2) times what its ends are rounded by.
 * Nine decimals keep every point within a nanometre (1e-6 mm), which six would miss by half.
 */
function number(value: number): string {
  return plainDecimal(value, 9);
}

const ENTITIES: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" };

function escaped(text: string): string {
  return text.replace(/[&<>"]/g, (letter) => ENTITIES[letter] ?? letter).replace(/\p{Cc}/gu, " ");
}
