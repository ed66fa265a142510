/**
 * Text that may stand in the page as it is. Only `html` and `trusted` make it, so a string that came from a
 * file can reach the page by no other way than through `escapeText`.
 */
export interface Markup {
  readonly markup: string;
}

type Piece = Markup | string | number | undefined | false | readonly Piece[];

/** Template tag: the literal parts are ours and stay, every inserted string or number is escaped. */
export function html(literals: TemplateStringsArray, ...pieces: readonly Piece[]): Markup {
  let text = literals[0] ?? "";
  pieces.forEach((piece, i) => {
    text += render(piece) + (literals[i + 1] ?? "");
  });
  return { markup: text };
}

/** Marks text this package wrote itself (the style sheet, a whole number of an attribute) as safe. */
export function trusted(markup: string): Markup {
  return { markup };
}

/**
 * Escapes for text and for quoted attributes, in HTML and in XML alike.
 *
 * Characters XML 1.0 forbids (section 2.2) and the controls that reorder the text around them (Unicode
 * UAX #9) become U+FFFD, so a hostile name stays visible and harmless.
 */
function escapeText(text: string): string {
  return visibleText(text).replace(/[&<>"']/g, (character) => ENTITIES[character] ?? character);
}

/** Replaces what no page may hold: controls, lone surrogates, non-characters, marks that turn the writing direction. */
export function visibleText(text: string): string {
  return text.replace(FORBIDDEN, "\uFFFD");
}

const ENTITIES: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

const FORBIDDEN = /[^\P{Cc}\t\n\r]|[\p{Cs}\u202A-\u202E\u2066-\u2069\uFFFE\uFFFF]/gu;

function render(piece: Piece): string {
  if (piece === undefined || piece === false) return "";
  if (typeof piece === "string") return escapeText(piece);
  if (typeof piece === "number") {
    if (!Number.isFinite(piece)) throw new RangeError(`the page was given the number ${piece}`);
    return String(piece === 0 ? 0 : piece);
  }
  if ("markup" in piece) return piece.markup;
  return piece.map(render).join("");
}
