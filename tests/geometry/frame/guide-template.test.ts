import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { checkFrame, deriveFrame } from "@keelcut/geometry";
import { describe, expect, it } from "vitest";
import { templates } from "../../../packages/geometry/src/frame/templates.js";
import type { PlateTemplate } from "../../../packages/geometry/src/plates/template.js";
import { tealParameters } from "./teal.js";

const root = fileURLToPath(new URL("../../../", import.meta.url));

/** The template of the contributors' guide, as it stands there. */
async function guideTemplate(): Promise<PlateTemplate> {
  const guide = await readFile(join(root, "DEVELOPERS.md"), "utf8");
  const [, code = ""] = /```ts\n([\s\S]*?)```/.exec(guide) ?? [];
  const folder = await mkdtemp(join(tmpdir(), "keelcut-test-"));
  const file = join(folder, "stern-bar.ts");
  await writeFile(
    file,
    code
      .replaceAll('from "../', `from "${root}packages/geometry/src/`)
      .replaceAll('from "./', `from "${root}packages/geometry/src/plates/`),
  );
  try {
    const { sternBars } = (await import(file)) as { sternBars: PlateTemplate };
    return sternBars;
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

describe("the template in the contributors' guide", () => {
  it("needs nothing but its file and its line", async () => {
    const list = templates as PlateTemplate[];
    list.push(await guideTemplate());
    try {
      const frame = deriveFrame(tealParameters());
      const deck = frame.plates.find(({ id }) => id === "deck");
      expect(frame.plates.find(({ id }) => id === "stern-bar")).toMatchObject({ count: 1 });
      expect(deck?.features.filter(({ name }) => name === "stern bar hole")).toHaveLength(2);
      expect(frame.hardware).toContainEqual(expect.objectContaining({ item: "screw ISO 4762 M5x30" }));
      expect(checkFrame(frame).filter(({ severity }) => severity === "error")).toEqual([]);
    } finally {
      list.pop();
    }
  });
});
