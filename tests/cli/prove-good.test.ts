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
