import { html, type Markup } from "./html.js";
import type { Caution } from "./model.js";

/** The dangers this job holds, each with what to do. */
export function cautionsSection(cautions: readonly Caution[]): Markup {
  return html`<section id="cautions" class="cautions" aria-labelledby="cautions-h"><h2 id="cautions-h">Cautions</h2>
<ul>${cautions.map(
    ({ title, text, source }) =>
      html`<li><h3>${title}</h3><p>${text}${source !== "" && html` <small>${source}.</small>`}</p></li>`,
  )}</ul></section>
`;
}
