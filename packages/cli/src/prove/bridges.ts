import { type Finding, type Point, signedArea } from "@keelcut/geometry";
import { WRITTEN } from "./compare-contours.js";
import type { ExpectedCut } from "./expected-cuts.js";
import { cutName, type FoundCut } from "./match-cuts.js";
import { proofFinding, shownPoint } from "./prove-finding.js";

/**
 * Every bridge of the record interrupts its line, in its place, and nothing else does; and the open lines that bridges leave
 * of nominal lines run with the plate on their left, for only that tells a shop on which side the cutter goes.
 */
export function bridgeFaults(file: string, pairs: ReadonlyMap<ExpectedCut, FoundCut>): Finding[] {
  const findings: Finding[] = [];
  for (const [cut, found] of pairs) {
    const free = new Set(found.gaps);
    const runs = Math.sign(signedArea(found.contour)) === Math.sign(signedArea(cut.cut));
    if (found.gaps.length > 0 && cut.offset === 0 && !(found.oneWay && runs)) {
      const message = `${cutName(cut)} has open lines that run with the plate on their right`;
      findings.push(proofFinding("direction", `${file}, ${found.shape.place}`, message));
    }
    for (const at of cut.bridges) {
      const match = [...free].find((gap) => isAt(gap, at, Math.abs(cut.offset)));
      if (match !== undefined) free.delete(match);
      else {
        const message = `${cutName(cut)} has no bridge at ${shownPoint(at)}`;
        findings.push(proofFinding("bridge", `${file}, ${found.shape.place}`, message));
      }
    }
    for (const gap of free) {
      const message = `${cutName(cut)} is interrupted at ${shownPoint(gap)}, where no bridge belongs`;
      findings.push(proofFinding("bridge", `${file}, ${found.shape.place}`, message));
    }
  }
  return findings;
}

/** A gap of a compensated line lies half a kerf beside the nominal contour. */
function isAt(gap: Point, at: Point, offset: number): boolean {
  return Math.abs(Math.hypot(gap.x - at.x, gap.y - at.y) - offset) <= 10 * WRITTEN;
}
