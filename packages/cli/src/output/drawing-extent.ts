import { bounds, type Contour } from "@keelcut/geometry";
import type { Entity } from "./drawing.js";

/** The box around everything drawn, arcs included, mm. */
export interface Extent {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/** Box around the entities; a box of size 0 at the origin when there are none. */
export function drawingExtent(entities: readonly Entity[]): Extent {
  let minX = Number.POSITIVE_INFINITY;
  let minY = Number.POSITIVE_INFINITY;
  let maxX = Number.NEGATIVE_INFINITY;
  let maxY = Number.NEGATIVE_INFINITY;
  for (const entity of entities) {
    const box = entityBounds(entity);
    minX = Math.min(minX, box.minX);
    minY = Math.min(minY, box.minY);
    maxX = Math.max(maxX, box.maxX);
    maxY = Math.max(maxY, box.maxY);
  }
  return minX <= maxX ? { minX, minY, maxX, maxY } : { minX: 0, minY: 0, maxX: 0, maxY: 0 };
}

function entityBounds(entity: Entity): Extent {
  if (entity.kind === "contour") return bounds(entity.contour);
  return bounds(entity.path.closed ? entity.path.vertices : closedBack(entity.path.vertices));
}

/** An open path closed by a straight line has the same box as the path. */
function closedBack(vertices: Contour): Contour {
  return vertices.map((vertex, index) => (index === vertices.length - 1 ? { ...vertex, bulge: 0 } : vertex));
}
