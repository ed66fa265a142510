import type { Frame } from "@keelcut/geometry";
import { html, type Markup } from "./html.js";
import { numberText } from "./number-text.js";
import { placeNames } from "./place-names.js";
import { table } from "./table.js";

type Use = { readonly place: string; readonly count: number; readonly why: string };

/** What is bought, and what is sawn from bar and pipe, with what each piece is for. */
export function hardwareSection(frame: Frame, kits: number): Markup {
  return html`<section id="hardware" aria-labelledby="hardware-h"><h2 id="hardware-h">Hardware and lengths</h2>
${
  frame.hardware.length > 0 &&
  table({
    caption: "Hardware, before spares and packs",
    columns: [
      { heading: "Item" },
      { heading: "A kit", numeric: true },
      { heading: `For ${kits}`, numeric: true },
      { heading: "What for" },
    ],
    rows: frame.hardware.map(({ item, count, uses }) => [
      item,
      numberText(count),
      numberText(count * kits),
      usesList(uses),
    ]),
    stacks: true,
  })
}${
  frame.lengths.length > 0 &&
  table({
    caption: "Pieces sawn to length",
    columns: [
      { heading: "Item" },
      { heading: "Length, mm", numeric: true },
      { heading: "A kit", numeric: true },
      { heading: `For ${kits}`, numeric: true },
      { heading: "What for" },
    ],
    rows: frame.lengths.map(({ item, length, count, uses }) => [
      item,
      numberText(length),
      numberText(count),
      numberText(count * kits),
      usesList(uses),
    ]),
    stacks: true,
  })
}</section>
`;
}

function usesList(uses: readonly Use[]): Markup {
  const reasons = [...new Set(uses.map((use) => use.why))];
  return html`<ul class="uses">${reasons.map((why) => {
    const same = uses.filter((use) => use.why === why);
    const count = same.reduce((sum, use) => sum + use.count, 0);
    return html`<li><b>${numberText(count)}</b> at ${placeNames(same.map((use) => use.place))}: ${why}</li>`;
  })}</ul>`;
}
