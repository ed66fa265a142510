/** RFC 4180 by the letter: fields, quotes, doubled quotes, CRLF. */
export function parseCsv(text: string): string[][] {
  const rows: string[][] = [[]];
  let cell = "";
  let quoted = false;
  for (let i = 0; i < text.length; i++) {
    const c = text[i] ?? "";
    if (quoted && c === '"' && text[i + 1] === '"') cell += text[++i];
    else if (c === '"') quoted = !quoted;
    else if (!quoted && (c === "," || (c === "\r" && text[i + 1] === "\n"))) {
      rows.at(-1)?.push(cell);
      cell = "";
      if (c === "\r") {
        i++;
        if (i < text.length - 1) rows.push([]);
      }
    } else cell += c;
  }
  return rows;
}
