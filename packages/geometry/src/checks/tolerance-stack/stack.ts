import type { Contribution, Finding } from "../finding.js";
import { numberText } from "../number-text.js";

/** What a chain of sizes leaves over, mm: negative where parts are in each other's way. */
export interface Stack {
  readonly nominal: number;
  /** Everything at its worst at once. */
  readonly worst: number;
  /** Everything at its loosest at once. */
  readonly most: number;
  /** Lower end of the root-sum-square range around the middle of all sizes. */
  readonly statistical: number;
}

/**
 * Adds a chain of sizes up, by worst case and by root-sum-square of independent deviations (Shigley's Mechanical
 * Engineering Design, chapter 1, dimensions and tolerances). Deviations that are not symmetric count around their middle.
 *
 * @throws RangeError on a deviation below 0 or a number that is none
 */
export function addUp(contributions: readonly Contribution[]): Stack {
  let [nominal, plus, minus, squares] = [0, 0, 0, 0];
  for (const one of contributions) {
    if (!(Number.isFinite(one.nominal) && one.plus >= 0 && one.minus >= 0 && one.plus + one.minus < 1e9)) {
      throw new RangeError(
        `${one.name}: ${one.nominal} +${one.plus} -${one.minus} is no size with deviations`,
      );
    }
    nominal += one.nominal;
    plus += one.plus;
    minus += one.minus;
    squares += ((one.plus + one.minus) / 2) ** 2;
  }
  return {
    nominal,
    worst: nominal - minus,
    most: nominal + plus,
    statistical: nominal + (plus - minus) / 2 - Math.sqrt(squares),
  };
}

/** A size between two limits, counted `times` (negative where it takes room away). */
export function between(
  name: string,
  least: number,
  most: number,
  times: number,
  source: string,
): Contribution {
  const half = (Math.abs(times) * (most - least)) / 2;
  return { name, nominal: (times * (least + most)) / 2, plus: half, minus: half, source };
}

/** A size with equal deviations both ways, counted `times`. */
export function about(
  name: string,
  size: number,
  deviation: number,
  times: number,
  source: string,
): Contribution {
  const each = Math.abs(times) * deviation;
  return { name, nominal: times * size, plus: each, minus: each, source };
}

/** What a joint has to say beside its numbers. */
export interface Joint {
  readonly id: string;
  readonly place: string;
  /** What the chain leaves over, as the message begins: `between rod and plates`. */
  readonly what: string;
  /** What to do when it does not fit. */
  readonly cure: string;
  /** Something worth knowing when it fits. */
  readonly remark?: string;
  readonly why: string;
  readonly contributions: readonly Contribution[];
  /** Least that must be left, mm; 0 when absent. */
  readonly least?: number;
  /** Worst severity: a tab can be filed, a carrier cannot be stretched. */
  readonly gravest: "error" | "warning";
}

/**
 * The finding about a joint: a note when it fits in the worst case, a warning when only chance makes it fit, and the
 * gravest severity of the joint when it does not even fit by root-sum-square.
 */
export function jointFinding(joint: Joint): Finding {
  const stack = addUp(joint.contributions);
  const least = joint.least ?? 0;
  const fits = stack.worst >= least - 1e-9;
  const numbers = `${numberText(stack.worst)} mm in the worst case, ${numberText(stack.statistical)} by root-sum-square, ${numberText(stack.nominal)} nominal`;
  const sources = [...new Set(joint.contributions.map(({ source }) => source))];
  return {
    id: joint.id,
    severity: fits ? "note" : stack.statistical >= least - 1e-9 ? "warning" : joint.gravest,
    place: joint.place,
    message: `${joint.what}: ${numbers}${least === 0 ? "" : ` (${numberText(least)} needed)`}${fits ? (joint.remark === undefined ? "" : `; ${joint.remark}`) : `; ${joint.cure}`}`,
    measured: stack.worst,
    limit: least,
    why: joint.why,
    source: sources.join("; "),
    contributions: joint.contributions,
  };
}
