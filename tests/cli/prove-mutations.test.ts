import { describe, expect, it } from "vitest";
import { prove } from "../../packages/cli/src/prove/index.js";
import { cutDamage } from "./prove-cut-damage.js";
import { compensated, type Damage, good } from "./prove-damaged-job.js";
import { jobDamage } from "./prove-job-damage.js";
import { otherDamage } from "./prove-other-damage.js";

const cases: Damage = [...cutDamage, ...otherDamage, ...jobDamage];

describe("damage done to good files", () => {
  it("starts from files that are proved", () => {
    expect(prove(good.files, good.expectations).findings).toEqual([]);
    expect(prove(compensated.files, compensated.expectations).findings).toEqual([]);
    expect(new Set(cases.map(([name]) => name)).size).toBe(cases.length);
    expect(cases.length).toBeGreaterThanOrEqual(50);
  });
  it.each(cases)("%s", (_, damaged, id) => {
    const job = damaged();
    expect(job).not.toEqual(good);
    const certificate = prove(job.files, job.expectations);
    expect(certificate.proved).toBe(false);
    expect(certificate.findings.map((finding) => finding.id)).toContain(id);
    expect(certificate.findings.every((finding) => finding.place !== "" && finding.message !== "")).toBe(
      true,
    );
  });
});
