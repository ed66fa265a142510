import { ballastRows } from "../plates/ballast-row.js";
import { bulkheads } from "../plates/bulkhead.js";
import { carriers } from "../plates/carrier.js";
import { floats } from "../plates/float.js";
import { handles } from "../plates/handle.js";
import { ownPlates } from "../plates/own-plate.js";
import { pods } from "../plates/pod.js";
import { skids } from "../plates/skid.js";
import { straps } from "../plates/strap.js";
import { swayDucts } from "../plates/sway-duct.js";
import type { PlateTemplate } from "../plates/template.js";
import { wraps } from "../plates/wrap.js";

/** Every template but deck and cheek, which are drawn last because they take the cuts of all others. */
export const templates: readonly PlateTemplate[] = [
  carriers,
  wraps,
  bulkheads,
  skids,
  handles,
  floats,
  pods,
  ballastRows,
  straps,
  swayDucts,
  ownPlates,
];
