import type { Path, Point } from "@keelcut/geometry";
import { POINTS, tracePath } from "../pdf-pen.js";

/** A page that is drawn on in millimetres from its lower-left corner. */
export interface PagePen {
  readonly lines: (
    paths: readonly Path[],
    width: number,
    map?: (point: Point) => Point,
    colour?: string,
  ) => void;
  readonly line: (from: Point, to: Point, width?: number) => void;
  /** Text with its base line at `at`; `size` is the height of a capital in mm. */
  readonly text: (text: string, at: Point, size: number, how?: TextStyle) => void;
  /** Length of a text, mm. */
  readonly length: (text: string, size: number) => number;
}

interface TextStyle {
  readonly align?: "left" | "middle" | "right";
  readonly bold?: boolean;
  /** Upwards along the page. */
  readonly upright?: boolean;
}

/** Height of a capital of Helvetica in parts of its size (its font metrics). */
const CAPITAL = 0.718;

export function pagePen(document: PDFKit.PDFDocument, width: number, height: number): PagePen {
  document.addPage({ size: [width * POINTS, height * POINTS], margin: 0 });
  const onPage = ({ x, y }: Point): Point => ({ x: x * POINTS, y: (height - y) * POINTS });
  const lines: PagePen["lines"] = (paths, stroke, map = (point) => point, colour = "#000000") => {
    if (paths.length === 0) return;
    document.lineWidth(stroke * POINTS).strokeColor(colour);
    for (const path of paths) tracePath(document, path, (point) => onPage(map(point)));
    document.stroke();
  };
  const font = (size: number, bold: boolean): PDFKit.PDFDocument =>
    document.font(bold ? "Helvetica-Bold" : "Helvetica").fontSize((size * POINTS) / CAPITAL);
  const length: PagePen["length"] = (text, size) => font(size, false).widthOfString(latin(text)) / POINTS;
  return {
    lines,
    line: (from, to, stroke = 0.15) => lines([openPath(from, to)], stroke),
    length,
    text: (words, at, size, { align = "left", bold = false, upright = false } = {}) => {
      const shown = latin(words);
      const long = font(size, bold).widthOfString(shown);
      const back = align === "left" ? 0 : align === "middle" ? long / 2 : long;
      const { x, y } = onPage(at);
      document.save();
      if (upright) document.rotate(-90, { origin: [x, y] });
      document.fillColor("#000000").text(shown, x - back, y, { lineBreak: false, baseline: "alphabetic" });
      document.restore();
    },
  };
}

export function openPath(...points: readonly Point[]): Path {
  return { vertices: points.map(({ x, y }) => ({ x, y, bulge: 0 })), closed: false };
}

/** What the built-in fonts can show; the rest becomes a question mark instead of another sign. */
function latin(text: string): string {
  return text.normalize("NFC").replace(/[^\x20-\x7e\xa0-\xff]/gu, "?");
}
