import type { Box } from "@keelcut/geometry";
import { html, type Markup } from "./html.js";
import { coordinate } from "./path-data.js";

/**
 * A drawing area. All pictures of one kind are the same number of units wide whatever they show, so that the
 * style sheet can set one readable letter size for each kind of screen; geometry is scaled into it.
 */
export interface Canvas {
  readonly width: number;
  readonly height: number;
  /** Units per millimetre. */
  readonly scale: number;
  /** Millimetres to units. */
  readonly x: (mm: number) => number;
  readonly y: (mm: number) => number;
}

export interface Margins {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Fits a box of millimetres into a canvas `width` units wide and at most `maxHeight` high, centred. */
export function fitCanvas(box: Box, width: number, maxHeight: number, margins: Margins): Canvas {
  const boxWidth = box.maxX - box.minX;
  const boxHeight = box.maxY - box.minY;
  const roomX = width - margins.left - margins.right;
  const roomY = maxHeight - margins.top - margins.bottom;
  const scale = Math.min(roomX / boxWidth, roomY / boxHeight);
  if (!(scale > 0) || !Number.isFinite(scale)) throw new RangeError("nothing to draw: a box without size");
  const left = margins.left + (roomX - boxWidth * scale) / 2;
  return {
    width,
    height: Math.ceil(margins.top + boxHeight * scale + margins.bottom),
    scale,
    x: (mm) => left + (mm - box.minX) * scale,
    y: (mm) => margins.top + (box.maxY - mm) * scale,
  };
}

/** Opens the coordinates of the plate or sheet (millimetres, y negated) for the shapes inside. */
export function inMillimetres(canvas: Canvas, shapes: Markup | readonly Markup[]): Markup {
  const at = `translate(${coordinate(canvas.x(0))} ${coordinate(canvas.y(0))})`;
  return html`<g transform="${at} scale(${Number(canvas.scale.toPrecision(7))})">${shapes}</g>`;
}

/** An SVG element with a name and a description that a screen reader says. `id` must be ours, never a name from a file. */
export function picture(
  canvas: { readonly width: number; readonly height: number },
  options: {
    readonly id: string;
    readonly kind: string;
    readonly title: string;
    readonly description: string;
    /** Part of the column's width the picture takes, when not all of it. */
    readonly share?: number;
  },
  content: Markup | readonly Markup[],
): Markup {
  const share = options.share !== undefined && html`width="${coordinate(options.share * 100)}%" `;
  const size = `0 0 ${coordinate(canvas.width)} ${coordinate(canvas.height)}`;
  return html`<svg xmlns="http://www.w3.org/2000/svg" class="picture ${options.kind}" ${share}viewBox="${size}" role="img" aria-labelledby="${options.id}-t ${options.id}-d"><title id="${options.id}-t">${options.title}</title><desc id="${options.id}-d">${options.description}</desc>${content}</svg>
`;
}

/** A dimension line below a drawing between two x positions, in canvas units. */
export function dimensionAcross(fromX: number, toX: number, edgeY: number, y: number, text: string): Markup {
  const [a, b, e, h] = [fromX, toX, edgeY, y].map(coordinate) as [string, string, string, string];
  const tipY = coordinate(y + 6);
  return html`<path class="dimension" d="M${a} ${e}V${tipY}M${b} ${e}V${tipY}M${a} ${h}H${b}"/><path class="arrow" d="${arrow(fromX, y, 1, 0)}${arrow(toX, y, -1, 0)}"/><text class="size" x="${coordinate((fromX + toX) / 2)}" y="${coordinate(y - 6)}" text-anchor="middle">${text}</text>`;
}

/** A dimension line to the left of a drawing between two y positions; its text reads from the right, as drawings do (ISO 129-1). */
export function dimensionUp(fromY: number, toY: number, edgeX: number, x: number, text: string): Markup {
  const [a, b, e, h] = [fromY, toY, edgeX, x].map(coordinate) as [string, string, string, string];
  const tipX = coordinate(x - 6);
  const middle = (fromY + toY) / 2;
  const high = Math.min(fromY, toY);
  const low = Math.max(fromY, toY);
  return html`<path class="dimension" d="M${e} ${a}H${tipX}M${e} ${b}H${tipX}M${h} ${a}V${b}"/><path class="arrow" d="${arrow(x, high, 0, 1)}${arrow(x, low, 0, -1)}"/><text class="size" transform="translate(${coordinate(x - 6)} ${coordinate(middle)}) rotate(-90)" text-anchor="middle">${text}</text>`;
}

/** A bar of a round length that tells the drawing's scale wherever it is printed. */
export function scaleBar(canvas: Canvas, x: number, y: number): Markup {
  const length = roundLength((canvas.width * 0.22) / canvas.scale);
  const from = coordinate(x);
  const half = coordinate(x + (length * canvas.scale) / 2);
  const to = coordinate(x + length * canvas.scale);
  const top = coordinate(y - 5);
  const bottom = coordinate(y);
  return html`<path class="bar-full" d="M${from} ${top}H${half}V${bottom}H${from}Z"/><path class="bar-empty" d="M${half} ${top}H${to}V${bottom}H${half}Z"/><text class="size" x="${coordinate(x + length * canvas.scale + 10)}" y="${coordinate(y + 2)}">${length} mm</text>`;
}

/** The largest of 1, 2, 5 x 10^n not above `most`. */
function roundLength(most: number): number {
  const power = 10 ** Math.floor(Math.log10(most));
  const steps = most / power;
  const length = (steps >= 5 ? 5 : steps >= 2 ? 2 : 1) * power;
  return Number(length.toPrecision(1));
}

/** A slim arrow head with its tip at (x, y), its body towards (dx, dy). */
function arrow(x: number, y: number, dx: number, dy: number): string {
  const length = 11;
  const half = 2.6;
  const bx = x + dx * length;
  const by = y + dy * length;
  return `M${coordinate(x)} ${coordinate(y)}L${coordinate(bx - dy * half)} ${coordinate(by + dx * half)}L${coordinate(bx + dy * half)} ${coordinate(by - dx * half)}Z`;
}
