import { type Contour, type Placement, type Point, placePoint, type Region } from "@keelcut/geometry";
import type { Bridge, BridgeOptions } from "../bridges/bridge-places.js";
import { bridgedPaths } from "../bridges/bridged-paths.js";
import type { Entity } from "./drawing.js";

/** One contour to cut where it lies in the drawing. */
export interface CutLine {
  readonly layer: "outline" | "opening";
  readonly contour: Contour;
  /** Middles of its bridges; none for most. */
  readonly bridges: readonly Point[];
}

/** The outline and the openings of a placed region, with the bridges of its plate. */
export function cutLinesOf(
  region: Region,
  bridges: readonly Bridge[],
  placement: Placement,
): { readonly outline: CutLine; readonly openings: readonly CutLine[] } {
  const placed = (part: Bridge["part"]): Point[] =>
    bridges.filter((bridge) => bridge.part === part).map((bridge) => placePoint(bridge.at, placement));
  return {
    outline: { layer: "outline", contour: region.outer, bridges: placed("outline") },
    openings: region.openings.map((contour, index) => ({
      layer: "opening",
      contour,
      bridges: placed(index),
    })),
  };
}

/** A closed contour, or what its bridges leave of it. */
export function cutEntities({ layer, contour, bridges }: CutLine, options?: BridgeOptions): Entity[] {
  if (bridges.length === 0 || options === undefined) return [{ kind: "contour", layer, contour }];
  return bridgedPaths(contour, bridges, options.gap).map((path) => ({ kind: "path", layer, path }));
}
