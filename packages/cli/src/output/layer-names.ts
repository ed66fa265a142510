import { type Drawing, type Layer, layers } from "./drawing.js";

/** How operations are told apart in a file. */
export interface LayerOptions {
  /** `single`: outlines and openings share the outline's layer; marks and stock, when drawn, keep their own. */
  readonly layers: "by-operation" | "single";
  readonly layerNames: Readonly<Record<Layer, string>>;
  /** Colours the shop tells operations apart by, where it does. */
  readonly layerColours?: { readonly [layer in Layer]?: LayerColour | undefined } | undefined;
}

/** Each replaces the usual one. */
export interface LayerColour {
  /** `#rrggbb` in SVG files. */
  readonly svg?: string | undefined;
  /** Number in the 255-colour index of DXF files. */
  readonly dxf?: number | undefined;
}

export const defaultLayerOptions: LayerOptions = {
  layers: "by-operation",
  layerNames: { outline: "outline", opening: "opening", mark: "mark", stock: "stock" },
};

/** Colour-blind-safe colours: the palette of Okabe and Ito, "Color Universal Design" (2008), and a middle grey. */
export const layerColours: Readonly<Record<Layer, string>> = {
  outline: "#d55e00",
  opening: "#0072b2",
  mark: "#009e73",
  stock: "#808080",
};

/**
 * The colours of the 255-colour index of DXF files that lie nearest to {@link layerColours} (least sum of squared
 * RGB differences).
 */
const layerColourIndex: Readonly<Record<Layer, number>> = {
  outline: 32,
  opening: 142,
  mark: 122,
  stock: 8,
};

/** `#rrggbb` of a layer in SVG files. */
export function svgColour({ layerColours: asked }: LayerOptions, layer: Layer): string {
  return asked?.[layer]?.svg ?? layerColours[layer];
}

/** Number of a layer's colour in DXF files. */
export function dxfColour({ layerColours: asked }: LayerOptions, layer: Layer): number {
  return asked?.[layer]?.dxf ?? layerColourIndex[layer];
}

/** One layer of a file and what is drawn on it. */
export interface FileLayer {
  readonly name: string;
  readonly layer: Layer;
}

/**
 * The name of the layer each kind of entity goes to.
 *
 * @throws RangeError when two operations that must stay apart share a name: a stock edge on a cutting layer is cut.
 */
export function layerNamer(options: LayerOptions): (layer: Layer) => string {
  const name = (layer: Layer): string =>
    options.layerNames[options.layers === "single" && layer === "opening" ? "outline" : layer];
  const cut = [name("outline"), name("opening")].map(folded);
  for (const apart of ["mark", "stock"] as const) {
    if (cut.includes(folded(name(apart)))) {
      throw new RangeError(
        `layer "${name(apart)}" of ${apart} is also a cutting layer: give it another name`,
      );
    }
  }
  if (folded(name("mark")) === folded(name("stock"))) {
    throw new RangeError(`marks and stock share the layer "${name("mark")}": give them different names`);
  }
  if (options.layers === "by-operation" && cut[0] === cut[1]) {
    throw new RangeError(
      `outlines and openings share the layer "${name("outline")}": use one layer for all cuts, or two names`,
    );
  }
  return name;
}

/** What is drawn beside the cuts. */
interface Drawn {
  readonly marks: boolean;
  readonly stockOutline: boolean;
}

/** Why these colours will not do: whoever goes by them must not cut a stock edge for an outline. */
export function colourFault(options: LayerOptions & Drawn): string | undefined {
  if (options.layerColours === undefined) return undefined;
  const cuts = options.layers === "single" ? (["outline"] as const) : (["outline", "opening"] as const);
  const beside = [
    ...(options.marks ? (["mark"] as const) : []),
    ...(options.stockOutline ? (["stock"] as const) : []),
  ];
  for (const colour of [svgColour, dxfColour]) {
    const cut = cuts.map((layer) => String(colour(options, layer)).toLowerCase());
    const clash = beside.find((layer) => cut.includes(String(colour(options, layer)).toLowerCase()));
    if (clash !== undefined) {
      return `${clash} has the colour ${colour(options, clash)} of a cutting layer: give it another one`;
    }
  }
  return undefined;
}

/** What a shop does with each layer of the files, in a sentence or two: a stock edge that is cut costs a sheet and a clamp. */
export function layerOrder(options: LayerOptions & Drawn): string {
  const named = layerNamer(options);
  const name = (layer: Layer): string => `"${named(layer)}"${coloursText(options, layer)}`;
  const { marks, stockOutline } = options;
  const cut = [...new Set([name(options.layers === "single" ? "outline" : "opening"), name("outline")])];
  // By layer would free the core of an opening before a plate that lies in it is cut.
  const order = `Cut the ${cut.length > 1 ? "layers" : "layer"} ${cut.join(" and ")}, line by line in the order of the file`;
  const drawn = [
    ...(marks ? [`scribe or engrave ${name("mark")} or leave it out`] : []),
    ...(stockOutline ? [`never cut ${name("stock")}, which shows the sheet's edge, clamps and notes`] : []),
  ];
  return `${[order, ...drawn].join("; ")}.`;
}

/** ` (#d55e00, colour 32 in DXF)` where the shop goes by colours. */
function coloursText(options: LayerOptions, layer: Layer): string {
  if (options.layerColours === undefined) return "";
  return ` (${svgColour(options, layer)}, colour ${dxfColour(options, layer)} in DXF)`;
}

/** The layers a drawing uses, each name once, in a fixed order. */
export function usedLayers(drawing: Drawing, options: LayerOptions): FileLayer[] {
  const namer = layerNamer(options);
  const used = new Set(drawing.entities.map((entity) => namer(entity.layer)));
  const found = new Map<string, FileLayer>();
  for (const layer of layers) {
    const name = namer(layer);
    const shown = options.layers === "single" && layer === "opening" ? "outline" : layer;
    if (used.has(name) && !found.has(name)) found.set(name, { name, layer: shown });
  }
  return [...found.values()];
}

/** Layer names are compared without regard to case by most readers. */
function folded(name: string): string {
  return name.toLowerCase();
}
