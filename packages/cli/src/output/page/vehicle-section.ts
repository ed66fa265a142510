import type { Box, Frame } from "@keelcut/geometry";
import { type Canvas, dimensionAcross, dimensionUp, fitCanvas, inMillimetres, picture } from "./canvas.js";
import { html, type Markup } from "./html.js";
import { lengthText } from "./number-text.js";
import { coordinate } from "./path-data.js";
import { projectAxis } from "./project-axis.js";
import { projectPlate } from "./project-plate.js";
import { FRONT, type Projected, SIDE, TOP, type View, WHOLE } from "./view.js";

/** Units across both columns of the views together. */
const WIDTH = 1000;
const MARGINS = { left: 58, right: 22, top: 74, bottom: 20 };

/** The vehicle in three views, and the rule that sets their columns so that all three have one scale side by side. */
export interface VehicleSection {
  readonly section: Markup;
  readonly columns: string;
}

/** Three views and a picture of the whole machine from where its plates, pipes and rods sit; undefined when nothing is seated. */
export function vehicleSection(frame: Frame): VehicleSection | undefined {
  const side = drawnParts(frame, SIDE);
  const front = drawnParts(frame, FRONT);
  const profile = extent(side);
  const face = extent(front);
  if (profile === undefined || face === undefined) return undefined;

  const edges = MARGINS.left + MARGINS.right;
  const perMm = (WIDTH - 2 * edges) / (profile.maxX - profile.minX + (face.maxX - face.minX));
  const wide = Math.round(perMm * (profile.maxX - profile.minX) + edges);
  const narrow = WIDTH - wide;
  const top = drawnParts(frame, TOP);
  return {
    columns: `.views{grid-template-columns:${wide}fr ${narrow}fr}`,
    section: html`<section id="vehicle" aria-labelledby="vehicle-h"><h2 id="vehicle-h">The vehicle</h2>
<p>Third-angle projection (ISO 5456-2): the top view stands above the side view, the front view to its right. Plates and pipes are drawn see-through, so that carriers and rods show.</p>
<div class="views">
<figure class="view-top">${measuredView(TOP, top, extent(top) ?? profile, wide)}</figure>
<figure class="view-side">${measuredView(SIDE, side, profile, wide)}</figure>
<figure class="view-front">${measuredView(FRONT, front, face, narrow)}</figure>
<figure class="view-whole">${wholeView(drawnParts(frame, WHOLE), narrow)}</figure>
</div>
<ul class="legend" aria-label="Colours of the parts"><li><span class="swatch part-plate"></span>plate</li><li><span class="swatch part-pipe"></span>pipe</li><li><span class="swatch part-rod"></span>rod</li></ul>
</section>
`,
  };
}

interface DrawnPart {
  readonly kind: "plate" | "rod" | "pipe";
  readonly label: string;
  readonly projected: Projected;
}

function drawnParts(frame: Frame, view: View): readonly DrawnPart[] {
  const plates = frame.plates
    .filter((plate) => plate.made === "cut")
    .flatMap((plate) =>
      plate.seats.map(
        (seat): DrawnPart => ({
          kind: "plate",
          label: plate.name,
          projected: projectPlate(plate, seat, view),
        }),
      ),
    );
  const axes = frame.axes.map(
    (part): DrawnPart => ({ kind: part.kind, label: part.place, projected: projectAxis(part, view) }),
  );
  // What is nearer to the eye is drawn later; equal depths keep the frame's order.
  return [...plates, ...axes].sort((a, b) => a.projected.depth - b.projected.depth);
}

function extent(parts: readonly DrawnPart[]): Box | undefined {
  if (parts.length === 0) return undefined;
  const boxes = parts.map(({ projected }) => projected.box);
  return {
    minX: Math.min(...boxes.map((box) => box.minX)),
    minY: Math.min(...boxes.map((box) => box.minY)),
    maxX: Math.max(...boxes.map((box) => box.maxX)),
    maxY: Math.max(...boxes.map((box) => box.maxY)),
  };
}

function measuredView(view: View, parts: readonly DrawnPart[], box: Box, width: number): Markup {
  const canvas = fitCanvas(box, width, 5000, MARGINS);
  const across = lengthText(box.maxX - box.minX);
  const up = lengthText(box.maxY - box.minY);
  const [x0, x1, y0, y1] = [canvas.x(box.minX), canvas.x(box.maxX), canvas.y(box.minY), canvas.y(box.maxY)];
  return picture(
    canvas,
    {
      id: `view-${view.id}`,
      kind: "view",
      title: `${view.name} view`,
      description: `${parts.length} plates, pipes and rods; ${across} across, ${up} up.`,
    },
    html`<text class="view-name" x="${coordinate(x0)}" y="22">${view.name}</text>${inMillimetres(canvas, parts.map(partShape))}${pipeLabels(parts, canvas)}${dimensionAcross(x0, x1, y1, 54, across)}${dimensionUp(y0, y1, x0, x0 - 22, up)}`,
  );
}

/** The machine as the eye would meet it; not for measuring. */
function wholeView(parts: readonly DrawnPart[], width: number): Markup {
  const box = extent(parts) as Box;
  const canvas = fitCanvas(box, width, width * 1.1, { left: 30, right: 10, top: 44, bottom: 10 });
  return picture(
    canvas,
    {
      id: "view-whole",
      kind: "view",
      title: WHOLE.name,
      description: "The whole vehicle in parallel projection, not for measuring.",
    },
    html`<text class="view-name" x="30" y="22">${WHOLE.name}</text>${inMillimetres(canvas, parts.map(partShape))}`,
  );
}

/** Names of the pipes above their tops, where they hide nothing; pipes behind one another share a label. */
function pipeLabels(parts: readonly DrawnPart[], canvas: Canvas): Markup[] {
  const names = new Map<string, { x: number; y: number; labels: string[] }>();
  for (const { kind, label, projected } of parts) {
    if (kind !== "pipe") continue;
    const { minX, maxX, maxY } = projected.box;
    const x = canvas.x((minX + maxX) / 2);
    const y = canvas.y(maxY) - 8;
    const key = `${Math.round(x)} ${Math.round(y)}`;
    const same = names.get(key);
    if (same === undefined) names.set(key, { x, y, labels: [label] });
    else same.labels.push(label);
  }
  return [...names.values()].map(
    ({ x, y, labels }) =>
      html`<text class="part-label" x="${coordinate(x)}" y="${coordinate(y)}" text-anchor="middle">${labels.join(", ")}</text>`,
  );
}

function partShape({ kind, label, projected }: DrawnPart): Markup {
  const paths = projected.paths.map(
    ({ data, matrix, wall }) =>
      html`<path${wall && html` class="wall"`} d="${data}"${matrix !== undefined && html` transform="${matrix}"`}/>`,
  );
  const lines = projected.lines !== undefined && html`<path class="axis-line" d="${projected.lines}"/>`;
  return html`<g class="part part-${kind}"><title>${label}</title>${paths}${lines}</g>`;
}
