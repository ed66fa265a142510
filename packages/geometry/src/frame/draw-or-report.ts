import type { Finding } from "../checks/finding.js";

/** Runs a drawing; what the kernel cannot draw becomes a finding instead of a broken plate. */
export function drawOrReport<Result>(
  findings: Finding[],
  place: string,
  draw: () => readonly Result[],
): readonly Result[] {
  try {
    return draw();
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    findings.push({
      id: "plate.cannot-be-drawn",
      severity: "error",
      place,
      message: error.message,
      why: "the sizes leave no closed shape",
      source: "geometry",
    });
    return [];
  }
}
