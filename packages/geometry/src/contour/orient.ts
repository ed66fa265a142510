import { rememberedFor } from "../remember.js";
import type { Contour, Vertex } from "./contour.js";
import { signedArea } from "./measure.js";

/** The same closed curve run the other way; it starts at the same vertex. */
export const reversed: (contour: Contour) => Contour = rememberedFor(runBack);

function runBack(contour: Contour): Contour {
  const count = contour.length;
  const result: Vertex[] = [];
  for (let step = 0; step < count; step++) {
    const vertex = contour[(count - step) % count];
    const before = contour[count - 1 - step];
    if (vertex === undefined || before === undefined) continue;
    result.push({ x: vertex.x, y: vertex.y, bulge: before.bulge === 0 ? 0 : -before.bulge });
  }
  return result;
}

/** The contour run so that its inside lies on the left: the rule for outer contours. */
export function counterClockwise(contour: Contour): Contour {
  return signedArea(contour) < 0 ? reversed(contour) : contour;
}

/** The contour run so that its inside lies on the right: the rule for openings. */
export function clockwise(contour: Contour): Contour {
  return signedArea(contour) > 0 ? reversed(contour) : contour;
}
