import { circle } from "../contour/build.js";
import { rotate, translate } from "../contour/transform.js";
import { boltCentres } from "../features/bolt-pattern.js";
import type { Machine } from "../fit/machine.js";
import type { PodParameters } from "../frame/parameters.js";
import { endNut } from "../hardware/end-nut.js";
import { throughScrew } from "../hardware/screw-length.js";
import { clearanceHole } from "../standards/index.js";
import type { Cut } from "./compose.js";
import type { Contribution, PlateTemplate } from "./template.js";

/** Boxes and other bought parts on the deck, each by its own bolt pattern. */
export const pods: PlateTemplate = {
  name: "pod",
  contribute: (machine) => {
    const parts = (machine.parameters.pods ?? []).map((pod) => drillPod(pod, machine));
    return {
      deckCuts: parts.flatMap((part) => part.deckCuts ?? []),
      hardware: parts.flatMap((part) => part.hardware ?? []),
    };
  },
};

function drillPod(pod: PodParameters, machine: Machine): Contribution {
  const hole = circle({ x: 0, y: 0 }, clearanceHole(pod.screw, "medium") / 2);
  const centres = boltCentres(pod.pattern);
  const { nuts } = machine.parameters;
  const clamped = pod.foot + machine.layout.structure.max;
  const choice = throughScrew(pod.screw, clamped, nuts);
  if (!choice.ok) {
    throw new RangeError(
      `pod ${pod.id}: its screws need ${choice.needed.toFixed(1)} mm, ${pod.screw} is standard only up to ${choice.longest} mm`,
    );
  }
  const place = `pods.${pod.id}`;
  const count = centres.length;
  return {
    deckCuts: centres.map(
      (centre): Cut => ({
        contour: translate(rotate(translate(hole, centre.x, centre.y), pod.rotation), pod.at.x, pod.at.y),
        kind: "screw-hole",
        name: "pod screw hole",
        why: `${pod.screw} screw of ${pod.id} (ISO 273 medium)`,
      }),
    ),
    hardware: [
      {
        item: `part ${pod.id}`,
        kind: "part",
        place,
        count: 1,
        why: "screwed to the deck",
        ...(pod.body && { mass: pod.body.mass }),
      },
      {
        item: `screw ISO 4762 ${pod.screw}x${choice.length}`,
        kind: "screw",
        place,
        count,
        why: `foot ${pod.foot} and deck, washers, nut and two threads need ${choice.needed.toFixed(1)} mm`,
      },
      { item: endNut(pod.screw, nuts).item, kind: "nut", place, count, why: "under the deck" },
      {
        item: `washer ISO 7089 ${pod.screw}`,
        kind: "washer",
        place,
        count: 2 * count,
        why: "under head and nut",
      },
    ],
  };
}
