import GeometryFactory from "jsts/org/locationtech/jts/geom/GeometryFactory.js";
import GeoJSONReader from "jsts/org/locationtech/jts/io/GeoJSONReader.js";
import SnapIfNeededOverlayOp from "jsts/org/locationtech/jts/operation/overlay/snap/SnapIfNeededOverlayOp.js";

/** A polygon placed on a strip, as the benchmark file draws it. */
export interface PlacedPolygon {
  readonly polygon: readonly (readonly [number, number])[];
  readonly x: number;
  readonly y: number;
  readonly rotation: number;
  readonly mirrored: boolean;
}

/** What an independent look at a layout found. */
export interface LayoutCheck {
  /** Largest overlap of two items over the area of the smaller. */
  readonly worstOverlap: number;
  /** How far anything reaches out of the strip, over its height. */
  readonly worstOverhang: number;
}

const reader = new GeoJSONReader(new GeometryFactory());

/**
 * Judges a layout with jsts, from the file's own polygons and the placements alone: nothing of the packing engine is
 * used. Angles are turned here afresh.
 */
export function checkLayout(items: readonly PlacedPolygon[], height: number, length: number): LayoutCheck {
  const rings = items.map(placedRing);
  const boxes = rings.map((ring) => ({
    minX: Math.min(...ring.map(([x]) => x)),
    maxX: Math.max(...ring.map(([x]) => x)),
    minY: Math.min(...ring.map(([, y]) => y)),
    maxY: Math.max(...ring.map(([, y]) => y)),
  }));
  const shapes = rings.map((ring) =>
    reader.read({ type: "Polygon", coordinates: [[...ring, ring[0] as [number, number]]] }),
  );
  let worstOverlap = 0;
  let worstOverhang = 0;
  for (const [i, box] of boxes.entries()) {
    worstOverhang = Math.max(worstOverhang, -box.minX, -box.minY, box.maxX - length, box.maxY - height);
    for (const [j, other] of boxes.slice(0, i).entries()) {
      if (box.maxX <= other.minX || other.maxX <= box.minX) continue;
      if (box.maxY <= other.minY || other.maxY <= box.minY) continue;
      const common: number = SnapIfNeededOverlayOp.intersection(shapes[i], shapes[j]).getArea();
      worstOverlap = Math.max(worstOverlap, common / Math.min(shapes[i].getArea(), shapes[j].getArea()));
    }
  }
  return { worstOverlap, worstOverhang: worstOverhang / height };
}

/** Corners where the placement puts them: mirrored (x -> -x), rotated, moved. */
export function placedRing({ polygon, x, y, rotation, mirrored }: PlacedPolygon): [number, number][] {
  const quarter = rotation % 90 === 0 ? (((rotation / 90) % 4) + 4) % 4 : undefined;
  const cos = quarter === undefined ? Math.cos((rotation * Math.PI) / 180) : ([1, 0, -1, 0][quarter] ?? 1);
  const sin = quarter === undefined ? Math.sin((rotation * Math.PI) / 180) : ([0, 1, 0, -1][quarter] ?? 0);
  return polygon.map(([px, py]) => {
    const mx = mirrored ? -px : px;
    return [cos * mx - sin * py + x, sin * mx + cos * py + y];
  });
}
