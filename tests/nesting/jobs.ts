import { type Contour, type Region, rectangle } from "@keelcut/geometry";
import type { NestJob, NestPart, PlacedPart, Stock } from "@keelcut/nesting";

/** A job with everything at rest: no plates, no stock, no spacing. */
export function job(over: Partial<NestJob> = {}): NestJob {
  return {
    parts: [],
    stock: [],
    clearance: 0,
    edgeMargin: 0,
    chordError: 0.1,
    seed: 1,
    effort: { steps: 200 },
    ...over,
  };
}

export function part(id: string, region: Region, over: Partial<NestPart> = {}): NestPart {
  return { id, region, demand: 1, rotations: [0], mirrorable: false, ...over };
}

export function stock(id: string, outline: Contour, over: Partial<Stock> = {}): Stock {
  return { id, outline, keepOuts: [], available: "unlimited", cost: 1, ...over };
}

export function solid(outer: Contour): Region {
  return { outer, openings: [] };
}

export function block(width: number, height: number): Region {
  return solid(rectangle(0, 0, width, height));
}

export function placed(id: string, x: number, y: number, rotation = 0, mirrored = false): PlacedPart {
  return { part: id, x, y, rotation, mirrored };
}
