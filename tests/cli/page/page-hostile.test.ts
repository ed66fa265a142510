import { describe, expect, it } from "vitest";
import { renderPage } from "../../../packages/cli/src/output/page/index.js";
import { pictures, unbalancedTags, visibleText } from "./page-reader.js";
import { smallEstimate } from "./small-estimate.js";
import { smallJob } from "./small-job.js";

const ATTACK = `"><script>alert(1)</script><b onclick='x'>&amp;]]>--><!--`;

/** Words the types fix; every other string of a model may come from a file. */
const FIXED = new Set(
  (
    "cut printed any outline screw-hole rod-hole tab-slot tie-slot window relief hole slot line text error warning note screw nut " +
    "washer spacer tie motor propeller other rod pipe surge heave cross circle rectangle router laser waterjet shop file unlimited " +
    "too-large stock-used-up mm deg 1 g mm2 mm3 sheet cutting handling setup minimum hardware length packing freight tax deck cheek"
  ).split(" "),
);

/** The same data with the attack after every free string, names of records left alone. */
function poisoned<T>(value: T): T {
  if (typeof value === "string") return (FIXED.has(value) ? value : value + ATTACK) as T;
  if (Array.isArray(value)) return value.map(poisoned) as T;
  if (value !== null && typeof value === "object") {
    return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, poisoned(inner)])) as T;
  }
  return value;
}

describe("a page of hostile names", () => {
  const clean = smallJob({ estimate: smallEstimate(2), batches: [1, 10].map(smallEstimate) });
  const page = renderPage(
    poisoned({ ...clean, cautions: [{ title: "Mind", text: "this", source: "that" }] }),
  );

  it("shows them as text", () => {
    expect(page).not.toMatch(/<script|<b |<!--|onclick='|]]>/);
    const shown = visibleText(page);
    for (const name of [
      "Heron",
      "Bay router",
      "Cheek",
      "rods.1",
      "tie 3.6x200",
      "PE-HD",
      "Mind",
      "saves weight under port",
    ]) {
      expect(shown).toContain(`${name}${ATTACK}`);
    }
  });

  it("stays well-formed, and so does every picture", () => {
    expect(unbalancedTags(page)).toEqual([]);
    expect(pictures(page)).toHaveLength(13);
  });

  it("links only below its own folder", () => {
    const files = ["javascript:alert(1)", "//elsewhere/x", "../../etc/passwd", "a b/c?d#e.svg", "\uD800.svg"];
    const links = [...renderPage({ ...clean, files }).matchAll(/<ul class="files">.*?<\/ul>/gs)]
      .flatMap(([list]) => [...list.matchAll(/href="([^"]*)"/g)])
      .map((match) => match[1]);
    expect(links).toEqual([
      "./javascript%3Aalert(1)",
      "./elsewhere/x",
      "./etc/passwd",
      "./a%20b/c%3Fd%23e.svg",
      "./%EF%BF%BD.svg",
    ]);
  });

  it("makes controls, lone surrogates and direction marks visible instead of passing them on", () => {
    const frame = {
      ...clean.frame,
      parameters: { ...clean.frame.parameters, name: "a\u0000b\u202Ec\uD800d\u0085e😀" },
    };
    expect(renderPage({ ...clean, frame })).toContain("<h1>a\uFFFDb\uFFFDc\uFFFDd\uFFFDe😀</h1>");
  });

  it("refuses numbers that are not finite", () => {
    expect(() => renderPage({ ...clean, kits: Number.NaN })).toThrow(RangeError);
    expect(() => renderPage({ ...clean, kerf: Number.POSITIVE_INFINITY })).toThrow(RangeError);
  });
});
