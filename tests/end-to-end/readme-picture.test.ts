import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";
import { command, remove, scratch } from "../cli/command-run.js";

const root = fileURLToPath(new URL("../..", import.meta.url));

/**
 * The README's picture is made of the page's own drawings of the example. When the example or the drawings change on
 * purpose, `npx vitest run tests/end-to-end/readme-picture.test.ts -u` writes it anew: look at it before committing.
 */
it("shows in the README what make draws for the example today", async () => {
  const folder = await scratch({});
  try {
    const out = join(folder, "teal");
    const ran = await command(["make", "examples/teal/frame.yaml", "--out", out], root);
    expect(ran.code, ran.err).toBe(0);
    const page = await readFile(join(out, "page.html"), "utf8");
    const drawings = [
      { svg: drawing(page, '<figure class="view-whole">'), x: 0, y: 10, width: 440, height: 400 },
      { svg: drawing(page, `id="${fullestSheet(page)}"`), x: 440, y: 30, width: 560, height: 360 },
    ];
    expect(page.match(/id="sheet-\d+"/g)?.length).toBeGreaterThan(2);
    await expect(picture(page, drawings)).toMatchFileSnapshot(join(root, "examples/teal/picture.svg"));
  } finally {
    await remove(folder);
  }
}, 120_000);

interface Placed {
  readonly svg: string;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

function picture(page: string, drawings: readonly Placed[]): string {
  const sheet = /<style>([\s\S]*?)<\/style>/.exec(page)?.[1];
  if (sheet === undefined) throw new Error("the page has no style sheet");
  const style = withoutVariables(sheet.replace(/@media[^{]*\{(?:[^{}]*\{[^{}]*\})*[^{}]*\}/g, ""));
  const nested = drawings.map(({ svg, x, y, width, height }) =>
    svg.replace(/^<svg[^>]*?( viewBox="[^"]*")[^>]*>/, (_, box) => {
      return `<svg class="view sheet"${box} x="${x}" y="${y}" width="${width}" height="${height}">`;
    }),
  );
  return `<svg xmlns="http://www.w3.org/2000/svg" width="1000" height="420" viewBox="0 0 1000 420" role="img">
<title>The example sled and one of its sheets, as drawn by the tool</title>
<style>${style}</style>
<rect width="1000" height="420" fill="#fbfbf8"/>
${nested.join("\n")}
</svg>
`;
}

/** Some viewers of SVG know no custom properties: each is replaced by its value. */
function withoutVariables(style: string): string {
  const values = new Map([...style.matchAll(/(--[\w-]+):([^;}]+)/g)].map((found) => [found[1], found[2]]));
  return style.replace(/var\((--[\w-]+)\)/g, (whole, name) => values.get(name) ?? whole);
}

/** The first drawing after a mark in the page. */
function drawing(page: string, mark: string): string {
  const start = page.indexOf("<svg", page.indexOf(mark));
  const end = page.indexOf("</svg>", start);
  if (page.indexOf(mark) < 0 || start < 0 || end < 0) throw new Error(`no drawing after ${mark}`);
  return page.slice(start, end + "</svg>".length);
}

function fullestSheet(page: string): string {
  const found = [...page.matchAll(/id="(sheet-\d+)-drawing-d">[^<]*?([\d.]+)\s%/g)];
  const best = found.sort((a, b) => Number(b[2]) - Number(a[2]))[0]?.[1];
  if (best === undefined) throw new Error("no sheet in the page");
  return best;
}
