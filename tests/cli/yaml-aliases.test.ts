import { expect, it } from "vitest";
import { plainValue } from "../../packages/cli/src/input/located.js";
import { parseYaml } from "../../packages/cli/src/input/yaml-text.js";

const read = (text: string): unknown => plainValue(parseYaml(text, { shown: "frame.yaml", folder: "." }));

// YAML 1.2.2, section 7.1: an alias means the most recent node before it that has its anchor.
it("an alias means the latest anchor before it, also within what another alias repeats", () => {
  expect(read("a: &x 1\nb: &y [*x, *x]\nc: &x 2\nd: *y\ne: *x\n")).toEqual({
    a: 1,
    b: [1, 1],
    c: 2,
    d: [1, 1],
    e: 2,
  });
});

it("many aliases of one anchor are read in a moment", () => {
  const many = `x: &a 1\nlist:\n${"  - *a\n".repeat(40_000)}`;
  const { list } = read(many) as { list: readonly number[] };
  expect(list).toHaveLength(40_000);
});
