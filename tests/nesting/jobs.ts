import { type Contour, type Region, rectangle } from "@keelcut/geometry";
import {
  type NestJob,
  type NestPart,
  type NestResult,
  nest,
  type PlacedPart,
  type Stock,
  verify,
} from "@keelcut/nesting";
import { expect } from "vitest";
import { independentFaults } from "./independent-check.js";

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

/** All copies on all sheets. */
export function copies(result: NestResult): number {
  return result.sheets.reduce((sum, sheet) => sum + sheet.times * sheet.placements.length, 0);
}

/** The result of a job, found sound by `verify` and by an independent library. */
export async function packed(of: NestJob): Promise<NestResult> {
  const result = await nest(of);
  expect(verify(of, result)).toEqual([]);
  expect(independentFaults(of, result)).toEqual([]);
  return result;
}
