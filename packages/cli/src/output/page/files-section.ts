import { html, type Markup, visibleText } from "./html.js";

/** The written files, each a link beside the page. */
export function filesSection(files: readonly string[]): Markup {
  return html`<section id="files" aria-labelledby="files-h"><h2 id="files-h">Files</h2>
${
  files.length === 0
    ? html`<p>No file was written beside this page.</p>`
    : html`<ul class="files">${files.map((name) => html`<li><a href="${besideThePage(name)}">${name}</a></li>`)}</ul>`
}</section>
`;
}

/** A link that can only lead below the page's own folder: every part is encoded and `./` forbids another scheme. */
function besideThePage(name: string): string {
  const parts = name.split("/").filter((part) => part !== "" && part !== "." && part !== "..");
  return `./${parts.map((part) => encodeURIComponent(visibleText(part))).join("/")}`;
}
