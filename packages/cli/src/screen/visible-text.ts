/** The text with characters that would steer a terminal, or turn its writing direction, written out: `\u{1b}`. */
export function visibleText(text: string): string {
  return text.replace(
    /[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/gu,
    (sign) => `\\u{${(sign.codePointAt(0) ?? 0).toString(16)}}`,
  );
}
