import type { Machine } from "../../fit/machine.js";
import type { FittedDuct } from "../../fit/rod-runs.js";
import type { FrameParameters } from "../../frame/parameters.js";
import { capScrew, plainWasher, thread } from "../../standards/index.js";
import type { Contribution, Finding } from "../finding.js";
import { cutEdge, rodRadius } from "./sources.js";
import { about, between, jointFinding } from "./stack.js";

/** Length and outside of bought spacers, plus or minus mm: common practice of their sellers. */
const SPACER_LENGTH = 0.13;
const SPACER_OUTSIDE = 0.1;

/** Has each rod, or each screw head, its room between the two plates of the carrier and between the spacers? */
export function rodInCarrier({ ducts, parameters }: Machine): readonly Finding[] {
  return ducts.flatMap((fitted) =>
    fitted.duct.axis === "heave"
      ? [headsInGap(fitted, parameters)]
      : [rodInGap(fitted, parameters), rodBetweenSpacers(fitted, parameters)],
  );
}

function rodInGap(fitted: FittedDuct, { rods }: FrameParameters): Finding {
  const { majorMin, majorMax } = thread(rods.thread);
  return jointFinding({
    id: "fit.rod-in-gap",
    place: `${fitted.duct.id}.carrier`,
    what: `an ${rods.thread} rod between the plates of a carrier has play`,
    cure: "raise rods.gapAllowance",
    why: "rods go in by hand after the carrier is put together",
    contributions: [
      ...plateGap(fitted),
      between(`${rods.thread} thread`, majorMin, majorMax, -1, "ISO 965-2, 6g"),
    ],
    gravest: "error",
  });
}

function headsInGap(fitted: FittedDuct, { motors }: FrameParameters): Finding {
  const screw = motors[fitted.duct.motor]?.screw ?? "M3";
  const { headHeightMin, headHeightMax } = capScrew(screw);
  return jointFinding({
    id: "fit.heads-in-gap",
    place: `${fitted.duct.id}.carrier`,
    what: `the ${screw} heads between the plates of a carrier have room`,
    cure: "use a longer spacer",
    why: "the motor screws' heads lie between the plates of a carrier without rods",
    contributions: [
      ...plateGap(fitted),
      between(`${screw} head`, headHeightMin, headHeightMax, -1, "ISO 4762"),
    ],
    gravest: "error",
  });
}

/** From plate to plate over a spacer and its washers. */
function plateGap({ duct, fit }: FittedDuct): readonly Contribution[] {
  const screw = duct.carrier.spacerScrew;
  const { thickness, thicknessMax } = plainWasher(screw);
  const spacer = about(
    `spacer ${screw}x${fit.spacerLength}`,
    fit.spacerLength,
    SPACER_LENGTH,
    1,
    "spacer lengths: common practice",
  );
  if (fit.spacerWashers === 0) return [spacer];
  return [
    spacer,
    about(
      `${fit.spacerWashers} x ${screw} washer`,
      thickness,
      thicknessMax - thickness,
      fit.spacerWashers,
      "ISO 7089",
    ),
  ];
}

/** A side. The screws' play in their holes is not counted: they are tightened with the rod in place. */
function rodBetweenSpacers({ duct, fit }: FittedDuct, { rods, cutting }: FrameParameters): Finding {
  const edge = cutEdge(cutting);
  return jointFinding({
    id: "fit.rod-between-spacers",
    place: `${duct.id}.carrier`,
    what: `an ${rods.thread} rod between its two spacers has play a side`,
    cure: "drill one spacer hole larger, or have the carriers cut more exactly",
    why: "a spacer on both sides keeps the rod from walking, and must let it in",
    contributions: [
      about("from rod to spacer hole", fit.pinOffset, edge.deviation, 1, edge.source),
      about("half the spacer", fit.spacerOutside / 2, SPACER_OUTSIDE / 2, -1, "spacers: common practice"),
      rodRadius(rods.thread, -1),
    ],
    gravest: "warning",
  });
}
