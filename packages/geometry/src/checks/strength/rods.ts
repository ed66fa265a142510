import { pointDistance } from "../../contour/distance.js";
import { asCircle } from "../../contour/segment.js";
import type { Machine } from "../../fit/machine.js";
import type { FittedDuct } from "../../fit/rod-runs.js";
import { featureContour, type Plate } from "../../plates/plate.js";
import { thread } from "../../standards/index.js";
import type { Finding } from "../finding.js";
import { numberText } from "../number-text.js";
import type { KnownBodies } from "../trim/body.js";
import { CAUTION, DESIGN_FACTOR, type Estimate, SHEAR_SHARE } from "./estimate.js";
import { type BeamBending, round, simpleSeveral } from "./formulas/beam.js";
import { bearing, boltShear, edgeShear } from "./formulas/bolted-joint.js";
import { allowedStress, type Loads, newtons } from "./loads.js";

/** Rods of stainless steel A2-50: 0.2 % proof stress and modulus, MPa (ISO 3506-1; modulus from memory). */
const ROD = { proof: 210, E: 193000 };

/** Rods bend between the cheeks under the ducts they carry, and press on the walls of their holes. */
export function rods(
  machine: Machine,
  plates: readonly Plate[],
  known: KnownBodies,
  loads: Loads,
): readonly Estimate[] {
  const bent = hardestBent(machine, known, loads);
  if (bent === undefined) return [];
  const rod = machine.parameters.rods.thread;
  const { factors } = loads;
  return [
    {
      id: "strength.rod",
      place: "rods",
      what: `an ${rod} rod over ${numberText(machine.layout.innerWidth)} mm between the cheeks under ${numberText(bent.load)} N of ducts (${numberText(factors.landingFactor)} x their weight)`,
      stress: bent.stress,
      deflection: bent.deflection,
      allowed: ROD.proof / DESIGN_FACTOR,
      cure: "use a thicker rod, or add a bulkhead",
      source: "Shigley, table A-9, superposed; ISO 724 root diameter; ISO 3506-1 A2-50",
    },
    {
      id: "strength.rod-shear",
      place: "rods",
      what: `an ${rod} rod in shear at its cheek under ${numberText(bent.reaction)} N`,
      stress: boltShear(bent.reaction, 1, (Math.PI / 4) * thread(rod).rootDiameter ** 2),
      allowed: (SHEAR_SHARE * ROD.proof) / DESIGN_FACTOR,
      cure: "use a thicker rod",
      source: "Shigley, chapter 8, bolts in shear; ISO 724 root diameter; ISO 3506-1 A2-50",
    },
    ...rodHoles(machine, plates, bent.reaction),
  ];
}

interface BentRod extends BeamBending {
  readonly load: number;
  /** At the cheek that bears more, N. */
  readonly reaction: number;
}

/** Every duct's known mass hangs on the rods of its runs in equal parts; two supports, nuts left out. */
function hardestBent({ layout, parameters }: Machine, known: KnownBodies, loads: Loads): BentRod | undefined {
  const L = layout.innerWidth;
  const section = round(thread(parameters.rods.thread).rootDiameter, ROD.E);
  const bent = layout.runs.map((run): BentRod => {
    const forces = run.ducts.map((fitted) => {
      const half = fitted.duct.length / 2;
      const reach = fitted.pipe.outsideWorst / 2;
      const { middle } = fitted;
      // What lies within the pipe belongs to the duct: the pipe itself, carriers, motors.
      const mass = known.bodies
        .filter(
          ({ at: [x, y, z] }) =>
            Math.abs(x - middle.x) <= half && Math.hypot(y - middle.y, z - middle.z) < reach / 2,
        )
        .reduce((sum, body) => sum + body.mass, 0);
      const rodsOfDuct = run.z.length * fitted.stations.length;
      return {
        F: (loads.factors.landingFactor * newtons(mass)) / rodsOfDuct,
        at: Math.min(L, Math.max(0, middle.y + L / 2)),
      };
    });
    const { stress, deflection, reactions } = simpleSeveral(section, forces, L);
    return {
      stress,
      deflection,
      load: forces.reduce((sum, { F }) => sum + F, 0),
      reaction: Math.max(...reactions),
    };
  });
  return bent.sort((a, b) => b.stress - a.stress)[0];
}

/** Bearing on the wall of a rod's hole in the cheek, and shear of the plate out to the nearest edge. */
function rodHoles({ parameters }: Machine, plates: readonly Plate[], reaction: number): readonly Estimate[] {
  const d = thread(parameters.rods.thread).major;
  return plates.flatMap((plate): readonly Estimate[] => {
    const edge = nearestEdge(plate);
    if (edge === undefined) return [];
    const { material, thickness } = plate.sheet;
    const common = {
      place: plate.id,
      cure: "use a thicker rod, or a thicker or stronger sheet",
      source: "Shigley, chapter 8, joints loaded in shear: F/(d t), F/(2 a t)",
    };
    return [
      {
        id: "strength.bearing",
        what: `the wall of a rod hole in ${plate.id} under ${numberText(reaction)} N`,
        stress: bearing(reaction, d, thickness),
        allowed: allowedStress(material),
        ...common,
      },
      {
        id: "strength.edge-shear",
        what: `${numberText(edge)} mm of ${plate.id} from a rod hole's middle to the nearest edge under ${numberText(reaction)} N`,
        stress: edgeShear(reaction, edge, thickness),
        allowed: SHEAR_SHARE * allowedStress(material),
        ...common,
      },
    ];
  });
}

/** Least distance of a cheek's rod holes from any other edge, from their middle, mm. */
function nearestEdge(plate: Plate): number | undefined {
  if (plate.template !== "cheek") return undefined;
  const { outer, openings } = plate.region;
  const distances = plate.features
    .filter(({ kind }) => kind === "rod-hole")
    .flatMap((feature) => {
      const hole = featureContour(plate, feature);
      const round = asCircle(hole);
      if (round === undefined) return [];
      return [outer, ...openings]
        .filter((other) => other !== hole)
        .map((other) => pointDistance(other, round.center));
    });
  return distances.length === 0 ? undefined : Math.min(...distances);
}

/** Diameters of plate from a loaded hole's middle to the edge: 4 in plywood, 2.5 in brittle plastics, 2 otherwise. */
function wantedEdge(material: string): number {
  if (material.includes("plywood")) return 4;
  return /PMMA|PC/.test(material) ? 2.5 : 2;
}

/** A loaded hole too near an edge breaks out whatever the formulas say: creep, notches, chips. */
export function edgeDistance(machine: Machine, plates: readonly Plate[]): readonly Finding[] {
  return [
    ...rodHoleEdges(machine, plates),
    ...machine.ducts.flatMap((fitted) => spacerEdge(fitted, machine)),
  ];
}

/** Sheets that crack or split beside a screw near the edge, even one that carries little. */
const CRACKS = /PMMA|plywood/;

/** Spacer screws clamp and carry little: in tough plastics the 1.5 d that the fit keeps to the rim serve. */
function spacerEdge({ duct, fit, sound }: FittedDuct, { parameters }: Machine): readonly Finding[] {
  const { material } = parameters.sheets.carrier;
  const d = thread(duct.carrier.spacerScrew).major;
  const wanted = wantedEdge(material) * d;
  const edge = fit.rimRadius - Math.max(...fit.pins.map(({ x, y }) => Math.hypot(x, y)));
  if (!sound || !CRACKS.test(material) || edge >= wanted - 1e-6) return [];
  return [
    {
      id: "strength.edge-distance",
      severity: "warning",
      place: `${duct.id}.carrier`,
      message: `the spacer screws stand ${numberText(edge)} mm from the rim, from their middle; ${material} wants ${numberText(wanted)} mm (${numberText(wanted / d)} d): take a tougher sheet or a thinner spacerScrew, or, where the motor leaves room, give carrier.rodPitch of ${numberText(Math.floor(fit.rodPitch - 2 * (wanted - edge)))} at most (it is ${numberText(fit.rodPitch)})`,
      measured: edge,
      limit: wanted,
      why: CAUTION,
      source: "edge distance by material: common practice, from memory",
    },
  ];
}

function rodHoleEdges({ parameters }: Machine, plates: readonly Plate[]): readonly Finding[] {
  const d = thread(parameters.rods.thread).major;
  return plates.flatMap((plate): readonly Finding[] => {
    const edge = nearestEdge(plate);
    const wanted = wantedEdge(plate.sheet.material) * d;
    if (edge === undefined || edge >= wanted - 1e-6) return [];
    return [
      {
        id: "strength.edge-distance",
        severity: "warning",
        place: plate.id,
        message: `a rod hole stands ${numberText(edge)} mm from the nearest edge, from its middle; ${plate.sheet.material} wants ${numberText(wanted)} mm (${numberText(wanted / d)} d): move it, or use a thinner rod`,
        measured: edge,
        limit: wanted,
        why: CAUTION,
        source: "edge distance by material: common practice, from memory",
      },
    ];
  });
}
