import { html, type Markup } from "./html.js";

/** Places as the checks name them, once each, in their order: `port.carrier, heave.carrier`. */
export function placeNames(places: readonly string[]): Markup {
  const distinct = [...new Set(places)];
  return html`${distinct.map((place, i) => html`${i > 0 && ", "}<code>${place}</code>`)}`;
}
