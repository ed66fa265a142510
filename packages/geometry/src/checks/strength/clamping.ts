import type { Machine } from "../../fit/machine.js";
import { clearanceHole, plainWasher, roundSpacer, sheetMaterial, thread } from "../../standards/index.js";
import type { Finding } from "../finding.js";
import { numberText } from "../number-text.js";
import { CAUTION } from "./estimate.js";
import { tighteningTorque } from "./formulas/bolted-joint.js";

/** Lasting pressure under a washer over yield: plastics creep. Judgement; 0.3 to 0.5 is usual. */
const LASTING = 0.3;

/** How hard nuts may be tightened before washers and spacers sink into the plates. */
export function clamping({ parameters, ducts, layout }: Machine): readonly Finding[] {
  const { structure, carrier } = parameters.sheets;
  const rod =
    layout.runs.length === 0
      ? []
      : [{ screw: parameters.rods.thread, material: structure.material, area: 0 }];
  const screws = ducts.flatMap(({ duct }) => {
    const screw = duct.carrier.spacerScrew;
    const spacer = roundSpacer(screw).outside;
    return [
      { screw, material: carrier.material, area: ringArea(screw, spacer) },
      // A heave carrier's screws hold the deck as well, under a washer.
      ...(duct.axis === "heave" ? [{ screw, material: structure.material, area: 0 }] : []),
    ];
  });
  const limits = distinct([...rod, ...screws]).map(({ screw, material, area }) => ({
    screw,
    material,
    torque: torqueFor(screw, material, Math.min(area > 0 ? area : Infinity, washerArea(screw))),
  }));
  const least = limits.reduce((most, { torque }) => Math.min(most, torque), Number.POSITIVE_INFINITY);
  if (limits.length === 0) return [];
  return [
    {
      id: "strength.clamping",
      severity: "note",
      place: "nuts",
      message: `tighten by feel and lock the nuts: washers and spacers begin to sink in at ${limits.map(({ screw, material, torque }) => `${numberText(torque)} N m (${screw} on ${material})`).join(", ")}`,
      measured: least,
      unit: "N m",
      why: `plastic creeps under a washer; ${CAUTION}`,
      source: "pressure up to 0.3 of yield: judgement; T = 0.2 F d, Shigley, chapter 8; ISO 7089",
    },
  ];
}

/** N m at which the pressure under a plain washer reaches the lasting share of yield. */
export function largestTorque(screw: string, material: string): number {
  return torqueFor(screw, material, washerArea(screw));
}

function torqueFor(screw: string, material: string, area: number): number {
  return tighteningTorque(LASTING * sheetMaterial(material).yield * area, thread(screw).major);
}

function washerArea(screw: string): number {
  return ringArea(screw, plainWasher(screw).outside);
}

/** What presses on a plate around its clearance hole, mm2. */
function ringArea(screw: string, outside: number): number {
  return (Math.PI / 4) * (outside ** 2 - clearanceHole(screw, "medium") ** 2);
}

function distinct<T extends { readonly screw: string; readonly material: string }>(all: readonly T[]): T[] {
  return [...new Map(all.map((each) => [`${each.screw} ${each.material}`, each])).values()];
}
