import type { Machine } from "../../fit/machine.js";
import { clearanceHole, plainWasher, sheetMaterial, thread } from "../../standards/index.js";
import type { Finding } from "../finding.js";
import { numberText } from "../number-text.js";
import { CAUTION } from "./estimate.js";
import { tighteningTorque } from "./formulas/bolted-joint.js";

/** Lasting pressure under a washer over yield: plastics creep. Judgement; 0.3 to 0.5 is usual. */
const LASTING = 0.3;

/** How hard nuts may be tightened before the washers sink into the plates. */
export function clamping({ parameters, ducts, layout }: Machine): readonly Finding[] {
  const { structure, carrier } = parameters.sheets;
  const rod =
    layout.runs.length === 0 ? [] : [{ screw: parameters.rods.thread, material: structure.material }];
  const screws = [...new Set(ducts.map(({ duct }) => duct.carrier.spacerScrew))].map((screw) => ({
    screw,
    material: carrier.material,
  }));
  const limits = [...rod, ...screws].map(({ screw, material }) => ({
    screw,
    material,
    torque: largestTorque(screw, material),
  }));
  const least = limits.reduce((most, { torque }) => Math.min(most, torque), Number.POSITIVE_INFINITY);
  if (limits.length === 0) return [];
  return [
    {
      id: "strength.clamping",
      severity: "note",
      place: "nuts",
      message: `tighten by feel and lock the nuts: washers begin to sink in at ${limits.map(({ screw, material, torque }) => `${numberText(torque)} N m (${screw} on ${material})`).join(", ")}`,
      measured: least,
      unit: "N m",
      why: `plastic creeps under a washer; ${CAUTION}`,
      source: "pressure up to 0.3 of yield: judgement; T = 0.2 F d, Shigley, chapter 8; ISO 7089",
    },
  ];
}

/** N m at which the pressure under a plain washer reaches the lasting share of yield. */
export function largestTorque(screw: string, material: string): number {
  const { outside } = plainWasher(screw);
  const hole = clearanceHole(screw, "medium");
  const area = (Math.PI / 4) * (outside ** 2 - hole ** 2);
  return tighteningTorque(LASTING * sheetMaterial(material).yield * area, thread(screw).major);
}
