import { z } from "zod";
import { sheet } from "./frame-sheet.js";
import { coordinate, identifier, length, lengthOrZero, place, thread, words } from "./frame-words.js";

const degrees = z.number().min(-360).max(360);
const why = words.optional().describe("Why it is there, for the page");

const shape = z.union([
  z.strictObject({
    rectangle: z.array(length).length(2).describe("Width along x and height along y, mm"),
    radius: lengthOrZero.default(0).describe("Radius of its corners, mm"),
    at: place.default([0, 0]).describe("Its middle: [x, y], mm"),
  }),
  z.strictObject({
    round: length.describe("Diameter, mm"),
    at: place.default([0, 0]).describe("Its middle: [x, y], mm"),
  }),
  z.strictObject({
    polygon: z
      .array(z.array(coordinate).min(2).max(3))
      .min(3)
      .max(400)
      .describe("Corners in order: [x, y], or [x, y, radius] for one with a radius of its own, mm"),
    radius: lengthOrZero.default(0).describe("Radius of the corners that have none of their own, mm"),
  }),
  z.strictObject({
    hull: z
      .array(
        z.strictObject({
          at: place.describe("Middle of the circle: [x, y], mm"),
          diameter: length.describe("mm"),
        }),
      )
      .min(1)
      .max(100)
      .describe("Circles around which the outline is laid like a rubber band"),
  }),
]);

const holes = z.strictObject({
  at: place.default([0, 0]).describe("Middle of the hole or of the pattern: [x, y], mm"),
  diameter: length.optional().describe("Diameter of each hole, mm; or give screw"),
  screw: thread
    .optional()
    .describe(
      "Screw that goes through: its clearance hole by ISO 273; list the screw itself, nuts and washers under hardware",
    ),
  fit: z
    .enum(["fine", "medium", "coarse"])
    .default("medium")
    .describe("Class of the clearance hole by ISO 273"),
  row: z
    .strictObject({
      count: z.int().min(2).max(200).describe("Holes in the row"),
      pitch: length.describe("Distance between two holes, mm"),
    })
    .optional()
    .describe("Holes in a line along x"),
  grid: z
    .strictObject({
      columns: z.int().min(1).max(200).describe("Holes along x"),
      rows: z.int().min(1).max(200).describe("Holes along y"),
      pitch: z.array(length).length(2).describe("Distances between two holes along x and along y, mm"),
    })
    .optional()
    .describe("Holes in rows and columns"),
  ring: z
    .strictObject({
      diameter: length.describe("Diameter of the circle through the hole centres, mm"),
      count: z.int().min(2).max(200).describe("Holes on it, the first on the x axis"),
    })
    .optional()
    .describe("Holes on a circle"),
  cross: z
    .array(length)
    .length(2)
    .optional()
    .describe("Two holes on each of two circles at 90 degrees: both diameters, mm"),
  rotation: degrees.default(0).describe("Degrees counter-clockwise about at"),
  why,
});

const slot = z.strictObject({
  from: place.describe("Middle of one round end: [x, y], mm"),
  to: place.describe("Middle of the other: [x, y], mm"),
  width: length.describe("mm"),
  why,
});

const tab = z.strictObject({
  into: identifier.describe("Plate that gets the slot: deck, cheek, the id of a bulkhead or of an own plate"),
  at: place.describe("Middle of the tab, on a straight side of the outline: [x, y], mm"),
  length: length.describe("Length along the side, mm"),
});

const mark = z.union([
  z.strictObject({
    text: words.describe("Text in single strokes"),
    at: place.describe("Start of its base line: [x, y], mm"),
    height: length.default(5).describe("Height of a capital letter, mm"),
    rotation: degrees.default(0).describe("Degrees counter-clockwise"),
  }),
  z.strictObject({
    line: z.array(place).min(2).max(400).describe("Points of a line: [x, y] each, mm"),
  }),
]);

const seat = z.strictObject({
  at: z
    .array(coordinate)
    .length(3)
    .describe(
      "Where the plate's origin goes: [x, y, z] in the vehicle, mm; material fills up, forwards or to port",
    ),
  lies: z
    .enum(["flat", "across", "along"])
    .default("flat")
    .describe(
      "flat: its x forward and y to port, like the deck; across: x to port and y up, like a bulkhead; along: x forward and y up, like a cheek",
    ),
  turn: degrees.default(0).describe("Degrees counter-clockwise in its own plane before it is put there"),
  mirrored: z.boolean().default(false).describe("True for the mirror image, left for right"),
});

const file = z.string().min(1).max(250);

/** A plate of the designer's own, described by features or drawn in another program. */
export const ownPlate = z.strictObject({
  id: identifier.describe("Name of the plate, for example camera-mount"),
  name: words.optional().describe("Name on the page; made from the id when absent"),
  sheet: z
    .union([z.enum(["structure", "carrier", "float"]), sheet])
    .default("structure")
    .describe("What it is cut from: one of the names under sheets, or a material of its own"),
  grain: z
    .boolean()
    .optional()
    .describe("True when every copy must lie along the sheet's grain; as the sheet says when absent"),
  outline: shape.optional().describe("Its outline by a shape; or give import"),
  import: z
    .union([
      file,
      z.strictObject({
        file: file.describe("DXF or SVG file, relative to this file"),
        layers: z
          .array(words)
          .min(1)
          .max(20)
          .optional()
          .describe("Only these layers (DXF) or groups with these ids (SVG); all when absent"),
        unit: z
          .enum(["mm", "cm", "m", "in", "ft"])
          .optional()
          .describe("Unit the file is drawn in, where the file says none or a wrong one"),
      }),
    ])
    .optional()
    .describe(
      "Outline and openings from a DXF or SVG file, relative to this file; tabs, holes and seats count from the drawing's own (0, 0), in an SVG file the lower left corner of the page",
    ),
  windows: z.array(shape).max(100).default([]).describe("Openings by their shapes"),
  holes: z.array(holes).max(100).default([]).describe("Round holes, single or in patterns"),
  slots: z.array(slot).max(100).default([]).describe("Slots with round ends"),
  tabs: z.array(tab).max(40).default([]).describe("Tabs that go into other plates, which get the slots"),
  laps: z
    .array(identifier)
    .max(20)
    .default([])
    .describe(
      "Own plates it crosses at right angles: half-lap joints; this one is slotted from above, in front or port",
    ),
  marks: z.array(mark).max(100).default([]).describe("Texts and lines that are drawn and not cut through"),
  hardware: z
    .array(
      z.strictObject({
        item: words.describe("As price lists call it, for example screw ISO 4762 M4x20"),
        count: z.int().min(1).max(10_000).default(1).describe("Pieces for one copy of the plate"),
      }),
    )
    .max(40)
    .default([])
    .describe("Bought parts of each copy"),
  mirrorable: z
    .boolean()
    .default(true)
    .describe("False when one face must stay up on the sheet: film, printing, a grain on one side"),
  seats: z
    .array(seat)
    .max(200)
    .default([])
    .describe("Where each copy sits in the vehicle; needed for tabs and laps"),
  count: z
    .int()
    .min(1)
    .max(1000)
    .optional()
    .describe("Copies in one kit; one for each seat, or 1 without seats, when absent"),
});

export type OwnPlateFile = z.infer<typeof ownPlate>;
