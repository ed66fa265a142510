import type { CostEstimate } from "../../cost/cost-estimate.js";
import { html, type Markup } from "./html.js";
import type { PageModel } from "./model.js";
import { numberText } from "./number-text.js";
import { placeNames } from "./place-names.js";
import { table } from "./table.js";

type Use = { readonly place: string; readonly count: number; readonly why: string };

/** What is bought, and what is sawn from bar and pipe, with what each piece is for and which bar it comes from. */
export function hardwareSection({ frame, kits, estimate }: PageModel): Markup {
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
}${estimate !== undefined && sawing(estimate)}</section>
`;
}

/** How the bars are sawn; nothing when the stock list has none. */
function sawing({ lengths }: CostEstimate): Markup | false {
  const rows = lengths.flatMap(({ item, plan }) =>
    (plan?.bars ?? []).map(({ stock, times, cuts, rest }) => [
      item,
      numberText(times),
      numberText(plan?.use[stock]?.length ?? 0),
      cuts.map(({ length, count }) => `${numberText(count)} × ${numberText(length)}`).join(", "),
      numberText(rest, 1),
    ]),
  );
  if (rows.length === 0) return false;
  return table({
    caption: "Sawing, spares included; cuts take the saw's width",
    columns: [
      { heading: "Item" },
      { heading: "Bars", numeric: true },
      { heading: "Bar, mm", numeric: true },
      { heading: "Pieces of one bar, mm" },
      { heading: "Rest, mm", numeric: true },
    ],
    rows,
    stacks: true,
  });
}

function usesList(uses: readonly Use[]): Markup {
  const reasons = [...new Set(uses.map((use) => use.why))];
  return html`<ul class="uses">${reasons.map((why) => {
    const same = uses.filter((use) => use.why === why);
    const count = same.reduce((sum, use) => sum + use.count, 0);
    return html`<li><b>${numberText(count)}</b> at ${placeNames(same.map((use) => use.place))}: ${why}</li>`;
  })}</ul>`;
}
