import { rectangle } from "@keelcut/geometry";
import { describe, expect, it } from "vitest";
import { certificateLines, prove } from "../../packages/cli/src/prove/index.js";
import { writeJob } from "./prove-samples.js";

describe.each([
  { size: { state: "nominal" as const }, gap: 5 },
  { size: { state: "compensated" as const, kerf: 3.175 }, gap: 5 - 3.175 },
])("a good job, $size.state", ({ size, gap }) => {
  it.each(["R12", "R2000"] as const)("in %s is proved", (flavour) => {
    const { files, expectations } = writeJob(size, flavour);
    const certificate = prove(files, expectations);
    expect(certificate.findings).toEqual([]);
    expect(certificate.proved).toBe(true);
    expect(certificate).toMatchObject({ files: 10, layouts: 2, sheets: 4, copies: 21 });
    expect(certificate.contours).toBe(2 * (18 + 4 + 6 + 2 + 1));
    expect(certificate.leastGap).toBeCloseTo(gap, 5);
    expect(certificate.largestDeviation).toBeLessThan(3e-6);
    expect(certificateLines(certificate).at(-1)).toBe("proved");
  });
});

describe("a keep-out", () => {
  it("may lie in an opening, clear of its edge", () => {
    const { files, expectations } = writeJob({ state: "nominal" });
    const around = (size: number) => {
      // In the second ring, whose opening of 32 mm holds no plate.
      const keepOut = rectangle(500.12 - size / 2, 300 - size / 2, size, size);
      const [first, ...others] = expectations.sheets;
      if (first === undefined) throw new Error("no sheet");
      const sheets = [{ ...first, keepOuts: [keepOut] }, ...others];
      return prove(files, { ...expectations, sheets }).findings.filter(({ id }) => id === "prove.keep-out");
    };
    expect(around(10)).toEqual([]);
    expect(around(20)).not.toEqual([]);
    expect(around(40)).not.toEqual([]);
  });
});
