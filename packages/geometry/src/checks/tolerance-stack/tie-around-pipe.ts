import { strapPlace } from "../../features/strap-slots.js";
import type { Machine, StandingDuct } from "../../fit/machine.js";
import type { FittedDuct } from "../../fit/rod-runs.js";
import type { FrameParameters } from "../../frame/parameters.js";
import { measuredThickness } from "../../plates/measured-thickness.js";
import { cableTie, sheetMaterial, thread } from "../../standards/index.js";
import type { Contribution, Finding } from "../finding.js";
import { numberText } from "../number-text.js";
import { boreRadius, cutEdge } from "./sources.js";
import { about, addUp, between, jointFinding } from "./stack.js";

/** Thickness and length of bought ties, plus or minus mm. Own choice. */
const TIE_THICKNESS = 0.1;
const TIE_LENGTH = 2;

/** Do cable ties pass beside the pipes they hold, and are those that are sold long enough? */
export function tieAroundPipe(machine: Machine): readonly Finding[] {
  const { parameters, ducts, standing } = machine;
  return [
    ...standing.flatMap((duct) => [besidePipe(duct, parameters), ...lengthFor(duct, machine)]),
    ...ducts.filter(({ duct }) => duct.axis === "sway").flatMap((fitted) => lengthAround(fitted, machine)),
  ];
}

/** The tie comes up between the pipe's wall and the slot's outer side, wherever the carrier's play lets the pipe stand. */
function besidePipe({ fitted, ties }: StandingDuct, { ties: { width }, cutting }: FrameParameters): Finding {
  const { duct, pipe, fit } = fitted;
  const edge = cutEdge(cutting);
  const play = addUp([
    ...boreRadius(pipe),
    about("half the rim", fit.rimRadius, edge.deviation, -1, edge.source),
  ]).most;
  const screwPlay = (fit.pinHole - thread(duct.carrier.spacerScrew).majorMin) / 2;
  return jointFinding({
    id: "fit.tie-beside-pipe",
    place: `${duct.id}.ties`,
    what: `a ${numberText(width)} mm tie passes between the pipe and its slot's outer side with room of`,
    cure: "measure the pipe, or file the slots outwards",
    why: "the tie comes up through the deck outside the pipe",
    contributions: [
      about("outer side of the slot from the duct's axis", ties.outerSide, edge.deviation, 1, edge.source),
      between("half the pipe's outside", pipe.outsideMin / 2, pipe.outsideMax / 2, -1, pipe.source),
      about("out of round", 0, pipe.ovality / 4, 1, pipe.source),
      about("play of the pipe on its carrier", 0, play, 1, pipe.source),
      about("play of the carrier's screws in the deck", 0, screwPlay, 1, "ISO 273 medium; ISO 965-2, 6g"),
      about("tie", cableTie(width).thickness, TIE_THICKNESS, -1, "cable ties: common practice"),
    ],
    gravest: "error",
  });
}

function lengthFor({ fitted, ties }: StandingDuct, machine: Machine): readonly Finding[] {
  const { width } = machine.parameters.ties;
  const needed = ties.tieLengthNeeded;
  const length = cableTie(width).lengths.find((candidate) => candidate >= needed);
  return length === undefined ? [] : [lengthFinding(`${fitted.duct.id}.ties`, needed, length, machine)];
}

function lengthAround({ duct, pipe, middle }: FittedDuct, machine: Machine): readonly Finding[] {
  const { sheets, ties, cutting } = machine.parameters;
  try {
    const { needed, tieLength } = strapPlace(
      middle,
      "y",
      pipe.outsideWorst,
      measuredThickness(sheets.structure),
      ties,
      cutting,
    );
    return [lengthFinding(`${duct.id}.ties`, needed, tieLength, machine)];
  } catch (error) {
    // No tie is long enough: derivation has said so.
    if (error instanceof RangeError) return [];
    throw error;
  }
}

function lengthFinding(place: string, needed: number, length: number, machine: Machine): Finding {
  const { parameters, layout } = machine;
  const { width } = parameters.ties;
  const { material, measured } = parameters.sheets.structure;
  const thickness = measuredThickness(parameters.sheets.structure);
  const contributions: readonly Contribution[] = [
    about(`tie ${numberText(width)}x${length}`, length, TIE_LENGTH, 1, "cable ties: common practice"),
    between(
      "twice through the deck",
      layout.structure.min,
      layout.structure.max,
      -2,
      measured === undefined ? sheetMaterial(material).thicknessSource : "measured by the designer",
    ),
    about(
      "rest of the way, head and tail to pull",
      needed - 2 * thickness,
      0,
      -1,
      "geometry; common practice",
    ),
  ];
  return jointFinding({
    id: "fit.tie-around-pipe",
    place,
    what: `a tie ${numberText(width)}x${length} that needs ${numberText(needed)} mm has to spare`,
    cure: "use the next longer or a wider tie",
    why: "the head must close and the tail must be long enough to pull",
    contributions,
    gravest: "warning",
  });
}
