import type { Dimension } from "@keelcut/geometry";
import { html, type Markup } from "./html.js";
import { numberText } from "./number-text.js";
import { table } from "./table.js";

/** Every derived dimension by name, with how it follows from the parameters. */
export function dimensionsSection(dimensions: readonly Dimension[]): Markup {
  return html`<section id="dimensions" aria-labelledby="dimensions-h"><h2 id="dimensions-h">Derived dimensions</h2>
${
  dimensions.length === 0
    ? html`<p>Nothing was derived.</p>`
    : table({
        caption: "Name, value and where it comes from",
        columns: [{ heading: "Name" }, { heading: "Value", numeric: true }, { heading: "From" }],
        rows: dimensions.map(({ name, value, unit, from }) => [
          html`<code>${name}</code>`,
          `${numberText(value, DECIMALS[unit])}${UNITS[unit]}`,
          from,
        ]),
        stacks: true,
      })
}</section>
`;
}

const UNITS: Readonly<Record<Dimension["unit"], string>> = {
  mm: "\u00A0mm",
  deg: "°",
  "1": "",
  g: "\u00A0g",
  mm2: "\u00A0mm²",
  mm3: "\u00A0mm³",
};

const DECIMALS: Readonly<Record<Dimension["unit"], number>> = { mm: 3, deg: 3, "1": 4, g: 1, mm2: 1, mm3: 0 };
