import type { Finding } from "@keelcut/geometry";
import { counted } from "../screen/number-text.js";
import type { ExpectedSize } from "./expectations.js";

/** What a proof found. */
export interface Certificate {
  /** True when nothing is off: no finding is an error. */
  readonly proved: boolean;
  readonly size: ExpectedSize;
  /** Drawings read. */
  readonly files: number;
  /** Distinct sheets, and sheets cut. */
  readonly layouts: number;
  readonly sheets: number;
  /** Plates the sheets give. */
  readonly copies: number;
  /** Closed cut lines read, and true arcs among their segments. */
  readonly contours: number;
  readonly arcs: number;
  /** Bridges that interrupt those lines. */
  readonly bridges: number;
  /** Least distance between the cut lines of two plates, and to the stock's outline, mm; absent without any. */
  readonly leastGap?: number;
  readonly leastMargin?: number;
  /** Largest distance of a written line from where it should be, mm. */
  readonly largestDeviation: number;
  readonly findings: readonly Finding[];
}

/** The certificate for people: a few lines. */
export function certificateLines(certificate: Certificate): string[] {
  const { size, leastGap, leastMargin, findings } = certificate;
  const bridges = certificate.bridges === 0 ? "" : ` held by ${counted(certificate.bridges, "bridge")}`;
  const lines = [
    `${counted(certificate.files, "drawing")} read back: ${counted(certificate.layouts, "layout")}, ${counted(certificate.sheets, "sheet")}, ${counted(certificate.copies, "plate")}`,
    `${certificate.contours} closed contours${bridges}, ${certificate.arcs} true arcs, largest deviation ${millimetres(certificate.largestDeviation, 6)}`,
    size.state === "nominal"
      ? "nominal size, not compensated"
      : `compensated: every line half of kerf ${size.kerf} mm off its nominal contour`,
  ];
  if (leastGap !== undefined)
    lines.push(`least distance between cut lines of two plates ${millimetres(leastGap, 3)}`);
  if (leastMargin !== undefined)
    lines.push(`least distance from the stock's edge ${millimetres(leastMargin, 3)}`);
  for (const { severity, place, message } of findings) {
    lines.push(`${severity === "error" ? "" : `${severity}: `}${place}: ${message}`);
  }
  const errors = findings.filter((finding) => finding.severity === "error").length;
  lines.push(certificate.proved ? "proved" : `not proved: ${counted(errors, "error")}`);
  return lines;
}

function millimetres(value: number, decimals: number): string {
  return `${value.toFixed(decimals)} mm`;
}
