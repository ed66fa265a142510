import type { Path, Point } from "@keelcut/geometry";
import { openPath, type PagePen } from "./page-pen.js";

/** Distance of the dimension lines from the plate, mm on paper. */
const AWAY = 9;
const ARROW = { length: 2.6, half: 0.45 };

/** Overall width below and overall height at the left, with extension lines, and the corner all coordinates count from. */
export function dimensionLines(
  pen: PagePen,
  corner: Point,
  size: Point,
  width: string,
  height: string,
): void {
  const below = corner.y - AWAY;
  const left = corner.x - AWAY;
  const right = corner.x + size.x;
  const top = corner.y + size.y;
  const thin: Path[] = [
    openPath({ x: corner.x, y: corner.y - 1 }, { x: corner.x, y: below - 2 }),
    openPath({ x: right, y: corner.y - 1 }, { x: right, y: below - 2 }),
    openPath({ x: corner.x - 1, y: corner.y }, { x: left - 2, y: corner.y }),
    openPath({ x: corner.x - 1, y: top }, { x: left - 2, y: top }),
    openPath({ x: corner.x, y: below }, { x: right, y: below }),
    openPath({ x: left, y: corner.y }, { x: left, y: top }),
    ...arrow({ x: corner.x, y: below }, { x: 1, y: 0 }),
    ...arrow({ x: right, y: below }, { x: -1, y: 0 }),
    ...arrow({ x: left, y: corner.y }, { x: 0, y: 1 }),
    ...arrow({ x: left, y: top }, { x: 0, y: -1 }),
  ];
  pen.lines(thin, 0.15);
  pen.text(width, { x: corner.x + size.x / 2, y: below + 1 }, 2.6, { align: "middle" });
  pen.text(height, { x: left - 1, y: corner.y + size.y / 2 }, 2.6, { align: "middle", upright: true });
  pen.text("0, 0", { x: corner.x - 1.2, y: corner.y - 3.2 }, 1.8, { align: "right" });
}

/** An open arrow head at `tip`; `into` points from the tip along the dimension line. */
function arrow(tip: Point, into: Point): Path[] {
  const side = (sign: number): Point => ({
    x: tip.x + into.x * ARROW.length - sign * into.y * ARROW.half,
    y: tip.y + into.y * ARROW.length + sign * into.x * ARROW.half,
  });
  return [openPath(side(1), tip, side(-1))];
}
