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
  const rod = layout.runs.length === 0 ? [] : [washerOn(parameters.rods.thread, structure.material)];
  const screws = ducts.flatMap(({ duct }) => {
    const screw = duct.carrier.spacerScrew;
    const spacer = { screw, material: carrier.material, area: ringArea(screw, roundSpacer(screw).outside) };
    return [
      spacer,
      washerOn(screw, carrier.material),
      // A heave carrier's screws hold the deck as well, under a washer.
      ...(duct.axis === "heave" ? [washerOn(screw, structure.material)] : []),
    ];
  });
  const limits = weakest([...rod, ...screws]).map((contact) => ({ ...contact, torque: torqueFor(contact) }));
  const least = limits.reduce((most, { torque }) => Math.min(most, torque), Number.POSITIVE_INFINITY);
  if (limits.length === 0) return [];
  return [
    {
      id: "strength.clamping",
      severity: "note",
      place: "nuts",
      message: `tighten by feel${parameters.nuts === "lock" ? "" : " and lock the nuts (`nuts: lock` in the frame takes nuts with a plastic ring)"}: washers and spacers begin to sink in at ${limits.map(({ screw, material, torque }) => `${numberText(torque)} N m (${screw} on ${material})`).join(", ")}`,
      measured: least,
      unit: "N m",
      why: `plastic creeps under a washer; ${CAUTION}`,
      source: "pressure up to 0.3 of yield: judgement; T = 0.2 F d, Shigley, chapter 8; ISO 7089",
    },
  ];
}

/** What presses on a plate around a screw's clearance hole, mm2. */
interface Contact {
  readonly screw: string;
  readonly material: string;
  readonly area: number;
}

function washerOn(screw: string, material: string): Contact {
  return { screw, material, area: ringArea(screw, plainWasher(screw).outside) };
}

function ringArea(screw: string, outside: number): number {
  return (Math.PI / 4) * (outside ** 2 - clearanceHole(screw, "medium") ** 2);
}

/** Of each screw on each material the smallest contact. */
function weakest(contacts: readonly Contact[]): Contact[] {
  const least = new Map<string, Contact>();
  for (const contact of contacts) {
    const key = `${contact.screw} ${contact.material}`;
    const before = least.get(key);
    if (before === undefined || contact.area < before.area) least.set(key, contact);
  }
  return [...least.values()];
}

/** N m at which the pressure under a plain washer reaches the lasting share of yield. */
export function largestTorque(screw: string, material: string): number {
  return torqueFor(washerOn(screw, material));
}

function torqueFor({ screw, material, area }: Contact): number {
  return tighteningTorque(LASTING * sheetMaterial(material).yield * area, thread(screw).major);
}
