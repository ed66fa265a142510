import type { Effort } from "../job.js";
import { hullOf } from "../nofit/hull.js";
import { extentOf, type Polygon, type Turn, turnedPolygon } from "../nofit/polygon.js";
import { compileInstance, type Instance, turnsWithin } from "../search/instance.js";
import type { Strip, StripItem } from "./strip.js";

/** A strip compiled for an engine; for both, with the same shapes, when it is not known which will do better. */
export interface CompiledStrip {
  readonly height: number;
  readonly instance: Instance;
  /** The instance of the other engine, when the two are to race (see `race.ts`). */
  readonly rival: Instance | undefined;
  /** The turns of each item, by which the shapes are numbered. */
  readonly turns: readonly (readonly Turn[])[];
}

/**
 * Compiles a strip. Without items that may lie at any angle no-fit regions serve it; with such items outlines are
 * compared, and when the tables of their quarter turns take a small part of the effort the engines race. Outlines are
 * compared too where the tables of items in set turns would take most of the seconds allowed.
 *
 * RangeError for an item that fits the strip in none of its turns.
 */
export function compileStrip(strip: Strip, effort: Required<Effort> = ENDLESS): CompiledStrip {
  const free = strip.items.some(({ rotations }) => rotations === "any");
  const racing = free && tableSeconds(strip) < TABLES * Math.min(effort.seconds, effort.steps * STEP_SECONDS);
  const turns = strip.items.map((item) => {
    const usual = racing ? QUARTERS : UPRIGHT;
    const fit = turnsWithin(item.polygon, turnsOf(item, usual), { height: strip.height }) > 0;
    return turnsOf(item, fit ? usual : [...usual, flattest(item.polygon)]);
  });
  const compiled = (anyAngle: boolean): Instance =>
    compileInstance(
      strip.items.map((item, k) => ({
        polygon: item.polygon,
        demand: item.demand,
        turns: turns[k],
        anyAngle: anyAngle && item.rotations === "any",
      })),
      [],
      { height: strip.height },
      MOST_TABLES * effort.seconds,
    );
  const { height } = strip;
  if (racing) return { height, instance: compiled(false), rival: compiled(true), turns };
  return { height, instance: compiled(free), rival: undefined, turns };
}

const ENDLESS = { steps: Number.POSITIVE_INFINITY, seconds: Number.POSITIVE_INFINITY };

const QUARTERS = [0, 90, 180, 270];

/** Where an item at any angle starts from; one of the two fits almost every strip. */
const UPRIGHT = [0, 90];

/** The angle, of those at which an edge of its hull lies level, at which a polygon is lowest: none is lower. */
function flattest(polygon: Polygon): number {
  const outer = hullOf(polygon.outer);
  let best = { angle: 0, height: Number.POSITIVE_INFINITY };
  for (let i = 0; i < outer.length; i += 2) {
    const j = (i + 2) % outer.length;
    const angle = (-Math.atan2(outer[j + 1] - outer[i + 1], outer[j] - outer[i]) * 180) / Math.PI;
    const turned = turnedPolygon({ outer, openings: [] }, { rotation: angle, mirrored: false });
    const { minY, maxY } = extentOf(turned.outer);
    if (maxY - minY < best.height) best = { angle, height: maxY - minY };
  }
  return best.angle;
}

function turnsOf({ rotations, mirrorable }: StripItem, free: readonly number[]): Turn[] {
  const angles = rotations === "any" ? free : rotations;
  const turns = angles.map((rotation) => ({ rotation, mirrored: false }));
  return mirrorable ? [...turns, ...angles.map((rotation) => ({ rotation, mirrored: true }))] : turns;
}

/** Most of the effort that the tables of quarter turns may take. */
const TABLES = 0.1;

/** With items in set turns tables are dear to do without: they may take up to this part of the seconds. */
const MOST_TABLES = 0.4;

/** What a placement search takes, roughly, s. */
const STEP_SECONDS = 5e-5;

/** What the no-fit regions of all pairs of shapes take, roughly: so much a pair and so much for two corners, s. */
const PAIR_SECONDS = 2e-4;
const CORNERS_SECONDS = 1e-6;

function tableSeconds(strip: Strip): number {
  let shapes = 0;
  let corners = 0;
  for (const item of strip.items) {
    const turns = turnsOf(item, QUARTERS).length;
    const rings = [item.polygon.outer, ...item.polygon.openings];
    shapes += turns;
    corners += turns * rings.reduce((sum, ring) => sum + ring.length / 2, 0);
  }
  return PAIR_SECONDS * shapes ** 2 + CORNERS_SECONDS * corners ** 2;
}
