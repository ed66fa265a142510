import { describe, expect, it } from "vitest";
import { stableJson } from "../../packages/cli/src/output/stable-json.js";
import { numberText } from "../../packages/cli/src/screen/number-text.js";
import { problemsText } from "../../packages/cli/src/screen/problems-text.js";
import { screenOf } from "../../packages/cli/src/screen/screen.js";
import { table } from "../../packages/cli/src/screen/table.js";
import { wrapped } from "../../packages/cli/src/screen/wrapped.js";

const stream = (isTTY: boolean) => ({ isTTY, columns: 80, write: () => true });
const signal = new AbortController().signal;

describe("colour", () => {
  it.each([
    [true, {}, true],
    [false, {}, false],
    [true, { NO_COLOR: "1" }, false],
    [true, { NO_COLOR: "" }, true],
    [true, { TERM: "dumb" }, false],
  ])("on a terminal %s with %o is %s", (isTTY, env, colour) => {
    const sides = { cwd: "/", env, stdout: stream(isTTY), stderr: stream(isTTY), signal };
    expect(screenOf(sides).colour).toBe(colour);
  });

  it("and progress go by their own stream: progress shows when only stdout is a pipe", () => {
    const screen = screenOf({ cwd: "/", env: {}, stdout: stream(false), stderr: stream(true), signal });
    expect([screen.colour, screen.watched]).toEqual([false, true]);
  });
});

describe("a table", () => {
  it("aligns columns, numbers on the right, without blanks at the end", () => {
    const text = table(
      [{ title: "plate" }, { title: "count", right: true }, { title: "note" }],
      [
        ["deck", "1", ""],
        ["carrier-front-port", "12", "x"],
      ],
    );
    expect(text).toBe(
      "plate               count  note\ndeck                    1\ncarrier-front-port     12  x",
    );
  });
});

describe("problems", () => {
  it("are cut off after eight", () => {
    const problems = Array.from({ length: 11 }, (_, index) => ({ where: `f:${index}:1`, message: "bad" }));
    const lines = problemsText(problems).split("\n");
    expect(lines).toHaveLength(9);
    expect(lines[8]).toBe("and 3 more problems");
  });
});

describe("text", () => {
  it.each([
    [1.5, "1.5"],
    [100, "100"],
    [-0.001, "0"],
    [1 / 3, "0.33"],
  ])("of %d is %s", (value, text) => expect(numberText(value)).toBe(text));

  it("wraps at blanks", () => {
    expect(wrapped("one two three four", 9, "  ")).toBe("one two\n  three\n  four");
  });
});

describe("stable JSON", () => {
  it("parses back to the same data, rounded to nine decimals", () => {
    const data = {
      b: [0.1 + 0.2, -0, 1e-12, 123456.7],
      a: { text: 'say "x"', none: undefined, nothing: null },
    };
    expect(JSON.parse(stableJson(data))).toEqual({
      b: [0.3, 0, 0, 123456.7],
      a: { text: 'say "x"', nothing: null },
    });
  });

  it("keeps short lists on one line and breaks long ones", () => {
    expect(stableJson({ x: 1, y: 2 })).toBe('{"x": 1, "y": 2}');
    const long = stableJson(Array.from({ length: 40 }, (_, index) => ({ x: index, y: 2 })));
    expect(long.split("\n")).toHaveLength(42);
    expect(Math.max(...long.split("\n").map((line) => line.length))).toBeLessThan(120);
  });

  it("refuses what JSON cannot hold", () => {
    expect(() => stableJson({ area: Number.NaN })).toThrow("area is NaN");
    expect(() => stableJson([Number.POSITIVE_INFINITY])).toThrow(RangeError);
  });
});
