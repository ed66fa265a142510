import type { Finding } from "../finding.js";
import { numberText } from "../number-text.js";

/** Yield over what is allowed. Own choice; short loads on plastics at room temperature. */
export const DESIGN_FACTOR = 2;

/** Shear yield over tensile yield, by distortion energy (Shigley, chapter 5). */
export const SHEAR_SHARE = 0.577;

export const CAUTION = "first-order estimate on nominal sizes; qualified people decide";

/** One part under one load: what it bears and what is allowed, MPa. */
export interface Estimate {
  readonly id: string;
  readonly place: string;
  /** What bends or shears under what, with its numbers: `the web of 16 mm above a grip, lifted with 62 N`. */
  readonly what: string;
  readonly stress: number;
  readonly allowed: number;
  /** mm; absent where nothing bends. */
  readonly deflection?: number;
  readonly cure: string;
  readonly source: string;
}

/** Below this share of what is allowed a part needs nobody's eye. Own choice. */
const LIGHT = 1 / 3;

/**
 * Findings about estimates: parts that bear little share one note, others have their own, and what bears more than is allowed is
 * a warning.
 *
 * @param mass known mass, g, that the loads were made from: they grow in proportion
 */
export function estimateFindings(estimates: readonly Estimate[], mass: number): readonly Finding[] {
  const light = estimates.filter((one) => one.stress <= LIGHT * one.allowed);
  const heavy = estimates.filter((one) => one.stress > LIGHT * one.allowed);
  return [...heavy.map((one) => single(one, mass)), ...together(light, mass)];
}

function single(one: Estimate, mass: number): Finding {
  const over = one.stress > one.allowed;
  return {
    id: one.id,
    severity: over ? "warning" : "note",
    place: one.place,
    message: `${text(one)}; ${over ? one.cure : carries(one, mass)}`,
    measured: one.stress,
    limit: one.allowed,
    unit: "MPa",
    why: `${CAUTION}; allowed is yield over ${DESIGN_FACTOR}`,
    source: one.source,
  };
}

function together(light: readonly Estimate[], mass: number): readonly Finding[] {
  const [first, ...rest] = light;
  if (first === undefined) return [];
  const worst = rest.reduce((a, b) => (b.stress / b.allowed > a.stress / a.allowed ? b : a), first);
  const once = [...new Map(light.map((one) => [one.what, one])).values()];
  return [
    {
      id: "strength.estimates",
      severity: "note",
      place: [...new Set(light.map(({ place }) => place))].join(", "),
      message: `no part bears more than ${numberText((100 * worst.stress) / worst.allowed)} % of what is allowed: ${once.map(text).join("; ")}; ${carries(worst, mass)}`,
      measured: worst.stress,
      limit: worst.allowed,
      unit: "MPa",
      why: `${CAUTION}; allowed is yield over ${DESIGN_FACTOR}`,
      source: [...new Set(light.flatMap(({ source }) => source.split("; ")))].join("; "),
      contributions: once.map(({ what, stress, source }) => ({
        name: what,
        nominal: stress,
        plus: 0,
        minus: 0,
        source,
      })),
    },
  ];
}

function text({ what, stress, allowed, deflection }: Estimate): string {
  const sag = deflection === undefined ? "" : `, giving ${numberText(deflection)} mm`;
  return `${what}: ${numberText(stress)} of ${numberText(allowed)} MPa${sag}`;
}

function carries({ stress, allowed }: Estimate, mass: number): string {
  const most = (mass * allowed) / stress / 1000;
  return `loads are of the known ${numberText(mass / 1000)} kg, and the estimate holds up to ${most < 10 ? numberText(most) : Math.floor(most)} kg`;
}
