import { nest, verify } from "@keelcut/nesting";
import { describe, expect, it } from "vitest";
import { independentFaults } from "./independent-check.js";
import { randomJob } from "./random-jobs.js";

/** Eight groups of 25 jobs, each with its own seeds. */
const GROUPS = [0, 25, 50, 75, 100, 125, 150, 175];

describe("nest on random jobs", () => {
  it.each(GROUPS)(
    "gives layouts that verify and an independent library accept, seeds from %i",
    async (from) => {
      let plates = 0;
      let wanted = 0;
      for (let seed = from + 1; seed <= from + 25; seed++) {
        const job = randomJob(seed);
        const result = await nest(job);
        expect({ seed, found: verify(job, result) }).toEqual({ seed, found: [] });
        expect({ seed, found: independentFaults(job, result) }).toEqual({ seed, found: [] });
        plates += result.sheets.reduce((sum, sheet) => sum + sheet.times * sheet.placements.length, 0);
        wanted += job.parts.reduce((sum, part) => sum + part.demand, 0);
      }
      // The jobs are worth something: most plates find a place.
      expect(plates).toBeGreaterThan(0.7 * wanted);
    },
  );
});
