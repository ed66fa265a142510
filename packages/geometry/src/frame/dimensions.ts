import { regionBounds } from "../contour/bounds.js";
import { regionArea } from "../contour/measure.js";
import type { Layout } from "../fit/layout.js";
import type { Machine } from "../fit/machine.js";
import type { FittedDuct } from "../fit/rod-runs.js";
import { rodLength } from "../hardware/screw-length.js";
import { openFraction } from "../plates/carrier.js";
import { measuredThickness } from "../plates/measured-thickness.js";
import type { Plate } from "../plates/plate.js";
import { sheetDensity } from "../plates/sheet-facts.js";
import { overCheeks } from "./axes.js";
import type { Dimension } from "./frame.js";
import type { FrameParameters } from "./parameters.js";

/** The derived sizes a designer compares between two frames, each with its way from the parameters. */
export function frameDimensions(machine: Machine, plates: readonly Plate[]): readonly Dimension[] {
  const { parameters, layout, ducts, windowsOf } = machine;
  return [
    ...ducts.flatMap((fitted) => ductDimensions(fitted, windowsOf)),
    ...structureDimensions(parameters, layout),
    ...plates.flatMap((plate) => plateDimensions(plate)),
  ];
}

function ductDimensions(fitted: FittedDuct, windowsOf: Machine["windowsOf"]): readonly Dimension[] {
  const { duct, pipe, fit, middle } = fitted;
  const mm = (name: string, value: number, from: string): Dimension => ({
    name: `${duct.id}.${name}`,
    value,
    unit: "mm",
    from,
  });
  const open: readonly Dimension[] = fitted.sound
    ? [
        {
          name: `${duct.id}.carrier.openFraction`,
          value: openFraction(windowsOf(fitted), pipe.boreMin),
          unit: "1",
          from: "free area of the windows over that of the smallest bore",
        },
      ]
    : [];
  const common = [
    mm("pipe.outsideWorst", pipe.outsideWorst, `${pipe.designation}, ${pipe.source}`),
    mm(
      "pipe.boreMin",
      pipe.boreMin,
      `thinnest outside ${text(pipe.outsideMin)} - 2 x thickest wall ${text(pipe.wallMax)} - half the ovality ${text(pipe.ovality)}`,
    ),
    mm("pipe.boreMax", pipe.boreMax, "thickest outside, thinnest wall, wide side of the oval"),
    mm("axis.z", middle.z, duct.at.z === undefined ? "rests above the deck" : "given"),
    mm("carrier.rimDiameter", 2 * fit.rimRadius, `smallest bore - 2 x fit gap ${text(duct.carrier.fitGap)}`),
    mm("carrier.hubDiameter", 2 * fit.hubRadius, "motor body, or its screw heads + 2 mm"),
    mm(
      "carrier.gap",
      fit.gap,
      `spacer ${text(fit.spacerLength)} + ${fit.spacerWashers} washers; needed ${text(fit.gapNeeded)}`,
    ),
    ...open,
  ];
  if (duct.axis === "heave") return common;
  return [
    ...common,
    mm(
      "carrier.rodPitch",
      fit.rodPitch,
      duct.carrier.rodPitch === undefined
        ? `the widest that fits (${text(fit.widestPitch)}), at most 0.6 x outside diameter, whole mm`
        : "given",
    ),
    mm("carrier.spacerOffset", fit.pinOffset, "rod radius + spacer radius + 0.25 mm play"),
  ];
}

function structureDimensions(parameters: FrameParameters, layout: Layout): readonly Dimension[] {
  const rods: Dimension[] = layout.runs.flatMap((run, index) => [
    {
      name: `rods.${index + 1}.length`,
      value: rodLength(parameters.rods.thread, overCheeks(layout), parameters.nuts),
      unit: "mm",
      from: "over the cheeks, washer, nut and two threads at each end, rounded up to 1 mm",
    },
    { name: `rods.${index + 1}.lowerZ`, value: run.z[0], unit: "mm", from: "duct axis - half the rod pitch" },
    { name: `rods.${index + 1}.upperZ`, value: run.z[1], unit: "mm", from: "duct axis + half the rod pitch" },
  ]);
  return [
    {
      name: "cheeks.innerWidth",
      value: layout.innerWidth,
      unit: "mm",
      from:
        parameters.deck.width === undefined
          ? "outermost duct, its pipe nut, the cheek's nut and washer, 2 mm to turn them"
          : "given",
    },
    ...rods,
  ];
}

function plateDimensions(plate: Plate): readonly Dimension[] {
  const box = regionBounds(plate.region);
  const net = regionArea(plate.region);
  const dimensions: Dimension[] = [
    { name: `${plate.id}.length`, value: box.maxX - box.minX, unit: "mm", from: "outline" },
    { name: `${plate.id}.width`, value: box.maxY - box.minY, unit: "mm", from: "outline" },
    { name: `${plate.id}.area`, value: net, unit: "mm2", from: "outline - openings" },
  ];
  if (plate.made === "printed") return dimensions;
  const { density } = sheetDensity(plate.sheet);
  const thickness = measuredThickness(plate.sheet);
  return [
    ...dimensions,
    {
      name: `${plate.id}.mass`,
      value: (net * thickness * density) / 1e6,
      unit: "g",
      from: `area x ${text(thickness)} mm x ${text(density)} kg/m3`,
    },
  ];
}

function text(value: number): string {
  return String(Math.round(value * 1000) / 1000);
}
