import { contourDistance, contourFaults, contoursCross, type Finding } from "@keelcut/geometry";
import type { ReadShape } from "../input/import/read-file.js";
import { sameCurve, WRITTEN } from "./compare-contours.js";
import type { FoundCut } from "./match-cuts.js";
import { proofFinding, shownPoint } from "./prove-finding.js";

/** Lines a cutter would trip over, whatever the job's record says: open, doubled, crossing, touching, not simple. */
export function cutLineFaults(
  file: string,
  shapes: readonly ReadShape[],
  cuts: readonly FoundCut[],
): Finding[] {
  const findings: Finding[] = [];
  for (const shape of shapes) {
    if (shape.closed) continue;
    const [from, to] = [shape.vertices[0], shape.vertices.at(-1)];
    const gap = from === undefined || to === undefined ? 0 : Math.hypot(from.x - to.x, from.y - to.y);
    const message = `${shape.source} on a cutting layer is open; its ends are ${gap.toFixed(4)} mm apart`;
    findings.push(proofFinding("open", `${file}, ${shape.place}`, message, gap, 0));
  }
  for (const { shape, contour } of cuts) {
    for (const fault of contourFaults(contour)) {
      const message = `the contour is not simple: ${fault.what.replaceAll("-", " ")} at ${shownPoint(fault.at)}`;
      findings.push(proofFinding("contour", `${file}, ${shape.place}`, message));
    }
  }
  if (findings.length === 0) findings.push(...meetings(file, cuts));
  return findings;
}

function meetings(file: string, cuts: readonly FoundCut[]): Finding[] {
  const findings: Finding[] = [];
  cuts.forEach((a, index) => {
    for (const b of cuts.slice(index + 1)) {
      if (!near(a, b) || contourDistance(a.contour, b.contour) > WRITTEN) continue;
      const place = `${file}, ${b.shape.place}`;
      if (sameCurve(a.contour, b.contour).distance <= 100 * WRITTEN) {
        findings.push(
          proofFinding("double", place, `the same line as ${a.shape.place}: it would be cut twice`),
        );
      } else {
        const what = contoursCross(a.contour, b.contour) ? "crosses" : "touches or overlaps";
        findings.push(proofFinding("crossing", place, `it ${what} ${a.shape.place}`));
      }
    }
  });
  return findings;
}

function near(a: FoundCut, b: FoundCut): boolean {
  const [p, q] = [a.box, b.box];
  return (
    p.minX <= q.maxX + WRITTEN &&
    q.minX <= p.maxX + WRITTEN &&
    p.minY <= q.maxY + WRITTEN &&
    q.minY <= p.maxY + WRITTEN
  );
}

/** Strokes drawn twice: engraved twice as deep. */
export function doubledStrokes(file: string, strokes: readonly ReadShape[]): Finding[] {
  const seen = new Map<string, ReadShape>();
  const findings: Finding[] = [];
  for (const stroke of strokes) {
    const forward = stroke.vertices.map(key);
    const name = [forward.join(" "), [...forward].reverse().join(" ")].sort()[0] ?? "";
    const first = seen.get(name);
    if (first === undefined) seen.set(name, stroke);
    else {
      const message = `the same line as ${first.place}: it would be drawn twice`;
      findings.push(proofFinding("double", `${file}, ${stroke.place}`, message));
    }
  }
  return findings;
}

function key(point: { readonly x: number; readonly y: number }): string {
  return `${point.x.toFixed(4)},${point.y.toFixed(4)}`;
}
