import type { Frame } from "@keelcut/geometry";
import { assemblySteps, type StepPart } from "./assembly-steps.js";
import { html, type Markup } from "./html.js";
import { numberText } from "./number-text.js";
import { placeNames } from "./place-names.js";
import { table } from "./table.js";

/** How to put one kit together: numbered steps with the parts each one takes. */
export function assemblySection(frame: Frame): Markup {
  const steps = assemblySteps(frame);
  return html`<section id="assembly" aria-labelledby="assembly-h"><h2 id="assembly-h">Assembly</h2>
${
  steps.length === 0
    ? html`<p>There is nothing to put together.</p>`
    : table({
        caption: "Steps for one kit, with the parts each takes",
        columns: [{ heading: "Step", numeric: true }, { heading: "Do" }, { heading: "Parts", wide: true }],
        rows: steps.map((step, i) => [
          numberText(i + 1),
          html`<strong>${step.title}.</strong> ${step.text}`,
          html`<ul class="uses">${step.parts.map(partItem)}</ul>`,
        ]),
        stacks: true,
      })
}</section>
`;
}

function partItem({ what, count, places, why }: StepPart): Markup {
  const at = places.length > 0 && html` at ${placeNames(places)}`;
  return html`<li><b>${numberText(count)}</b> × ${what}${at}${why !== undefined && html`<small> ${why}</small>`}</li>`;
}
