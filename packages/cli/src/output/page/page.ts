import { createHash } from "node:crypto";
import { assemblySection } from "./assembly-section.js";
import { chooseCautions } from "./cautions.js";
import { cautionsSection } from "./cautions-section.js";
import { costFigures, costSection } from "./cost-section.js";
import { dimensionsSection } from "./dimensions-section.js";
import { filesSection } from "./files-section.js";
import { findingsSection, notesSection } from "./findings-section.js";
import { hardwareSection } from "./hardware-section.js";
import { headerSection } from "./header-section.js";
import { html, type Markup, trusted } from "./html.js";
import type { PageModel } from "./model.js";
import { numberPlates, numberSheets } from "./numbering.js";
import { planSection } from "./plan-section.js";
import { platesSection } from "./plates-section.js";
import { sheetsSection } from "./sheets-section.js";
import { STYLESHEET } from "./stylesheet.js";
import { vehicleSection } from "./vehicle-section.js";

/**
 * The page of a job: one HTML file that needs nothing beside itself, holds no script, and reads on a phone, on a
 * desk and on A4 paper. The same model gives the same bytes.
 *
 * Its content security policy allows only the page's own style sheet, by its SHA-256 (CSP Level 3, section 2.3.1),
 * so that a name that got past the escaping could still load and run nothing.
 */
export function renderPage(model: PageModel): string {
  const plates = numberPlates(model.plates);
  const sheets = numberSheets(model);
  const vehicle = vehicleSection(model.frame);
  const notes = notesSection(model.findings);
  const plan = planSection(model, plates);
  const { estimate } = model;
  const style = STYLESHEET + (vehicle?.columns ?? "");
  const hash = createHash("sha256").update(style, "utf8").digest("base64");
  const name = model.frame.parameters.name;

  const sections: readonly (Section | undefined)[] = [
    { id: "findings", title: "Findings", content: findingsSection(model.findings) },
    vehicle && { id: "vehicle", title: "Vehicle", content: vehicle.section },
    plan && { id: "plan", title: "Plan", content: plan },
    { id: "sheets", title: "Sheets", content: sheetsSection(model, sheets, plates) },
    { id: "plates", title: "Plates", content: platesSection(plates, sheets, model.kits) },
    { id: "assembly", title: "Assembly", content: assemblySection(model) },
    { id: "hardware", title: "Hardware", content: hardwareSection(model) },
    estimate && { id: "cost", title: "Cost", content: costSection(estimate, model.batches ?? []) },
    { id: "cautions", title: "Cautions", content: cautionsSection(model.cautions ?? chooseCautions(model)) },
    notes && { id: "notes", title: "Notes", content: notes },
    { id: "dimensions", title: "Dimensions", content: dimensionsSection(model.frame.dimensions) },
    { id: "files", title: "Files", content: filesSection(model.files) },
  ];
  const shown = sections.filter((section) => section !== undefined);

  return html`<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'sha256-${trusted(hash)}'; base-uri 'none'; form-action 'none'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<meta name="referrer" content="no-referrer">
<title>${name}: cut files and cost</title>
<style>${trusted(style)}</style>
</head>
<body>
<a class="skip" href="#content">Skip to the content</a>
${headerSection(model, sheets, plates, estimate ? costFigures(estimate) : [])}<nav aria-label="Contents"><ul>${shown.map(({ id, title }) => html`<li><a href="#${id}">${title}</a></li>`)}</ul></nav>
<main id="content">
${shown.map(({ content }) => content)}</main>
<footer><p>All lengths in millimetres unless a unit says otherwise. Drawn from the true contours; measure on the plate, not on the paper.</p></footer>
</body>
</html>
`.markup;
}

interface Section {
  readonly id: string;
  readonly title: string;
  readonly content: Markup;
}
