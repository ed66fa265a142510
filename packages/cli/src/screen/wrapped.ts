/** The text broken into lines of at most `width` characters at blanks, every line after the first indented. */
export function wrapped(text: string, width: number, indent: string): string {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(/\s+/)) {
    const room = width - (lines.length === 0 ? 0 : indent.length);
    if (line !== "" && line.length + 1 + word.length > room) {
      lines.push(line);
      line = word;
    } else {
      line = line === "" ? word : `${line} ${word}`;
    }
  }
  lines.push(line);
  return lines.join(`\n${indent}`);
}
