import { type AssemblyStep, assemblySteps, type StepPart } from "./assembly-steps.js";
import { html, type Markup } from "./html.js";
import type { HoldingBridges, PageModel } from "./model.js";
import { countText, lengthText, numberText } from "./number-text.js";
import { placeNames } from "./place-names.js";
import { table } from "./table.js";

/** How to put one kit together: numbered steps with the parts each one takes. */
export function assemblySection({ frame, bridges }: Pick<PageModel, "frame" | "bridges">): Markup {
  const built = assemblySteps(frame);
  const steps = bridges === undefined ? built : [freeing(bridges), ...built];
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

function freeing({ width, perKit }: HoldingBridges): AssemblyStep {
  return {
    title: "Free the plates",
    text: `${countText(perKit, "bridge")} of ${lengthText(width)} hold the plates of one kit in their sheets. Clamp the sheet, saw the bridges through and file the stubs flush; hold what comes out of large openings. A knife slips in plastic: use a saw.`,
    parts: [],
  };
}

function partItem({ what, count, places, why }: StepPart): Markup {
  const at = places.length > 0 && html` at ${placeNames(places)}`;
  return html`<li><b>${numberText(count)}</b> × ${what}${at}${why !== undefined && html`<small> ${why}</small>`}</li>`;
}
