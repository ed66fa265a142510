import type {
  BoltPattern,
  CuttingParameters,
  DrawnOutline,
  DuctParameters,
  FrameParameters,
  MotorParameters,
} from "@keelcut/geometry";
import type { FrameFile } from "./frame-file.js";
import { given } from "./given.js";
import { ownPlateParameters } from "./own-plates.js";
import type { ShopProfile } from "./shop-profile.js";

/** What the cutting section of a frame file or a shop profile settles. */
export type CuttingChoice = FrameFile["cutting"];

/** The frame with every default filled in: what the frame file does not say about cutting, the shop profile says. */
export function frameParameters(
  file: FrameFile,
  cutting: CuttingParameters,
  drawn: ReadonlyMap<string, DrawnOutline> = new Map(),
): FrameParameters {
  return {
    name: file.name,
    revision: file.revision,
    sheets: given({
      structure: given(file.sheets.structure),
      carrier: given(file.sheets.carrier),
      float: file.sheets.float === undefined ? undefined : given(file.sheets.float),
    }),
    ducts: file.ducts.map(ductParameters),
    motors: Object.fromEntries(
      Object.entries(file.motors).map(([name, motor]) => [name, motorParameters(motor)]),
    ),
    rods: file.rods,
    nuts: file.nuts,
    deck: given(file.deck),
    cheek: given(file.cheek),
    ties: file.ties,
    ...attachments(file),
    plates: ownPlateParameters(file, drawn),
    cutting,
  };
}

/** Everything that may be on a frame and need not. */
function attachments(file: FrameFile): Partial<FrameParameters> {
  return given({
    bulkheads: file.bulkheads.map(given),
    skids: file.skids,
    handles: file.handles,
    floats: file.floats.map((float) => ({
      ...float,
      from: point(float.from),
      to: point(float.to),
      rods: float.rods.map(point),
    })),
    pods: file.pods.map((pod) => ({ ...given(pod), at: point(pod.at), pattern: boltPattern(pod.pattern) })),
    ballast: file.ballast.map((row) => ({ ...given(row), at: point(row.at) })),
    straps: file.straps.map((strap) => ({ ...given(strap), at: point(strap.at) })),
    water: file.water,
    handling: file.handling,
  });
}

function point([x = 0, y = 0]: readonly number[]): { readonly x: number; readonly y: number } {
  return { x, y };
}

/**
 * Cutting parameters of a frame: its own values first, then the shop's. A frame that cuts with another kerf than the
 * shop's usual one keeps the shop's safety gap: clearance = kerf + safety gap.
 *
 * Without a shop profile the usual router gap and margin of the shop profile's own defaults hold; method and kerf are
 * never guessed: `undefined` when neither says.
 */
export function cuttingParameters(
  choice: CuttingChoice,
  shop: ShopProfile | undefined,
): CuttingParameters | undefined {
  const method = choice.method ?? shop?.cutting.method;
  const kerf = choice.kerf ?? shop?.cutting.kerf;
  if (method === undefined || kerf === undefined) return undefined;
  const accuracy = choice.accuracy ?? shop?.cutting.accuracy;
  return {
    ...(accuracy === undefined ? {} : { accuracy }),
    method,
    kerf,
    clearance: choice.clearance ?? rounded(kerf + (shop?.cutting.safetyGap ?? 2)),
    edgeMargin: choice.edgeMargin ?? shop?.cutting.edgeMargin ?? 15,
    compensation: choice.compensation ?? shop?.cutting.compensation ?? "shop",
  };
}

function ductParameters(duct: FrameFile["ducts"][number]): DuctParameters {
  const [x = 0, y = 0, z] = duct.at;
  const { size, ...pipe } = duct.pipe;
  const { propeller, ...rest } = duct;
  return {
    ...rest,
    ...given({ propeller }),
    at: given({ x, y, z }),
    pipe: given({ ...pipe, size: size === undefined ? undefined : String(size) }),
    carrier: given(duct.carrier),
  };
}

function motorParameters(motor: FrameFile["motors"][string]): MotorParameters {
  return { ...given(motor), pattern: boltPattern(motor.pattern) };
}

function boltPattern(pattern: FrameFile["motors"][string]["pattern"]): BoltPattern {
  if ("circle" in pattern) return { kind: "circle", diameter: pattern.circle, holes: pattern.holes };
  if ("cross" in pattern) {
    const [first = 0, second = 0] = pattern.cross;
    return { kind: "cross", diameters: [first, second] };
  }
  const [width = 0, height = 0] = pattern.rectangle;
  return { kind: "rectangle", width, height };
}

/** Sums of decimal inputs without the dust of binary fractions: 3.175 + 2 is 5.175. */
function rounded(value: number): number {
  return Math.round(value * 1e6) / 1e6;
}
