import { capScrew, itTolerance, plainWasher, thread } from "../standards/index.js";
import { type EndNuts, endNut } from "./end-nut.js";

/**
 * Threads that must stand out of a nut. Two is the common preference (US Naval Ships' Technical Manual ch. 075 asks for
 * one at least and names two as usual).
 */
export const THREADS_BEYOND_NUT = 2;

/** A screw chosen from the standard lengths, or the reason why none serves. */
export type ScrewChoice =
  | { readonly ok: true; readonly length: number; readonly needed: number }
  | { readonly ok: false; readonly needed: number; readonly longest: number };

/** What is clamped plus two washers, a nut and the threads beyond it, rounded up to the next standard length (ISO 4762). */
export function throughScrew(screw: string, clamped: number, nuts?: EndNuts): ScrewChoice {
  const needed =
    clamped +
    2 * plainWasher(screw).thicknessMax +
    endNut(screw, nuts).heightMax +
    THREADS_BEYOND_NUT * thread(screw).pitch;
  const { lengths } = capScrew(screw);
  const length = lengths.find((candidate) => candidate >= needed - 1e-9);
  return length === undefined
    ? { ok: false, needed, longest: lengths.at(-1) ?? 0 }
    : { ok: true, length, needed };
}

/** A screw into a blind thread: the longest standard length that never reaches the thread's end. */
export type BlindScrewChoice =
  | {
      readonly ok: true;
      readonly length: number;
      /** Thread engaged at the thickest and the thinnest plate, mm. */
      readonly engaged: { readonly min: number; readonly max: number };
    }
  | { readonly ok: false; readonly longestAllowed: number; readonly shortest: number };

/**
 * @param plate thickness range of the plate under the head, mm
 * @param threadDepth usable depth of the thread, mm; past it a screw cuts into the motor's windings
 */
export function blindScrew(
  screw: string,
  plate: { readonly min: number; readonly max: number },
  threadDepth: number,
): BlindScrewChoice {
  const longestAllowed = plate.min + threadDepth;
  const { lengths } = capScrew(screw);
  // A screw may be longer than its name: js15 (ISO 4762, product grade A of ISO 4759-1).
  const length = lengths.findLast(
    (candidate) => candidate + itTolerance(candidate, "IT15") / 2 <= longestAllowed + 1e-9,
  );
  if (length === undefined || length - plate.max <= 0) {
    return { ok: false, longestAllowed, shortest: lengths[0] ?? 0 };
  }
  return { ok: true, length, engaged: { min: length - plate.max, max: length - plate.min } };
}

/** Length of a rod through both cheeks: washers, nuts and two threads beyond each outer nut, rounded up to 1 mm. */
export function rodLength(threadName: string, overCheeks: number, nuts?: EndNuts): number {
  const end =
    plainWasher(threadName).thicknessMax +
    endNut(threadName, nuts).heightMax +
    THREADS_BEYOND_NUT * thread(threadName).pitch;
  return Math.ceil(overCheeks + 2 * end - 1e-9);
}
