import type { Machine } from "../../fit/machine.js";
import { PIPE_HOLES } from "../../plates/wrap.js";
import { clearanceHole, itTolerance } from "../../standards/index.js";
import type { Finding } from "../finding.js";
import { cutEdge, rodRadius } from "./sources.js";
import { about, between, jointFinding } from "./stack.js";

/** How far a hole marked through a paper wrap and drilled by hand is off, mm. Own choice: pencil and punch 0.3, drill 0.2. */
const MARKED = 0.3;
const DRILLED = 0.2;

/** Does a straight rod pass the cheek's hole and the pipe's, which is drilled by hand? */
export function rodThroughPipe({ layout, parameters }: Machine): readonly Finding[] {
  if (layout.runs.length === 0) return [];
  const edge = cutEdge(parameters.cutting);
  const rod = parameters.rods.thread;
  const cheekHole = clearanceHole(rod, "medium");
  const pipeHole = clearanceHole(rod, PIPE_HOLES);
  const byHand = "marking and drilling by hand: own choice";
  return [
    jointFinding({
      id: "fit.rod-through-pipe",
      place: "rods",
      what: `an ${rod} rod through the cheek's hole and a hole drilled by hand in the pipe has play`,
      cure: "drill the pipe's holes larger",
      why: "rods are straight, and cheek and pipe are drilled apart",
      contributions: [
        about(
          "half the hole in the cheek",
          cheekHole / 2,
          edge.deviation,
          1,
          `ISO 273 medium; ${edge.source}`,
        ),
        between(
          "half the hole in the pipe",
          pipeHole / 2,
          (pipeHole + itTolerance(pipeHole, "IT14")) / 2,
          1,
          `ISO 273 ${PIPE_HOLES}, H14`,
        ),
        rodRadius(rod, -2),
        about("place of the hole in the cheek", 0, edge.deviation, 1, edge.source),
        about("place of the mark on the pipe", 0, MARKED, 1, byHand),
        about("place of the drilled hole", 0, DRILLED, 1, byHand),
      ],
      gravest: "warning",
    }),
  ];
}
