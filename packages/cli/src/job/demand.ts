import type { Plate } from "@keelcut/geometry";
import { raised } from "../cost/index.js";

/** How many kits, and how many spare plates beside. */
export interface Quantity {
  readonly kits: number;
  /** Percent of the plates of all kits, rounded up for each plate. */
  readonly sparesPercent: number;
}

/** Copies of a plate for all kits and spares. */
export function demandOf(plate: Pick<Plate, "count">, quantity: Quantity): number {
  return raised(plate.count * quantity.kits, quantity.sparesPercent);
}
