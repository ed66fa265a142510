import type { Finding } from "../checks/finding.js";
import type { Machine } from "../fit/machine.js";
import type { AxisPart } from "../frame/frame.js";
import type { HardwareUse, LengthUse } from "../hardware/uses.js";
import type { Cut, PlateDraft } from "./compose.js";

/** What one template adds to the frame. Deck and cheeks are drawn last, with the cuts that all others asked for. */
export interface Contribution {
  readonly plates?: readonly PlateDraft[];
  /** Cuts in the deck, seen from above: x forward, y to port. */
  readonly deckCuts?: readonly Cut[];
  /** Cuts in both cheeks: x forward, y up from the top of the deck. */
  readonly cheekCuts?: readonly Cut[];
  /** Cuts in a plate that another template draws, by the id of its draft and in its own plane. */
  readonly plateCuts?: readonly { readonly plate: string; readonly cut: Cut }[];
  /** Tabs that the cheeks' feet put down through a skid. */
  readonly footTabs?: readonly FootTab[];
  readonly hardware?: readonly HardwareUse[];
  readonly lengths?: readonly LengthUse[];
  readonly axes?: readonly AxisPart[];
  readonly findings?: readonly Finding[];
}

/**
 * A plate template: a pure function of the fitted machine. A new one is a file beside this one and a line in
 * `frame/templates.ts`; it throws RangeError where the sizes leave no shape, which becomes a finding.
 */
export interface PlateTemplate {
  /** Name in findings, for example `bulkhead`. */
  readonly name: string;
  readonly contribute: (machine: Machine) => Contribution;
}

/** A tab of a foot; mm. */
export interface FootTab {
  /** Along x. */
  readonly middle: number;
  readonly length: number;
  /** Down from the foot. */
  readonly reach: number;
  /** In the middle of its lower edge a notch with rounded corners, in which a cable tie passes under the skid. */
  readonly notch: { readonly width: number; readonly depth: number; readonly radius: number };
}
