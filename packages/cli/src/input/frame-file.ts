import { z } from "zod";
import { ballast, bulkhead, float, handle, handling, pod, skids, strap, water } from "./frame-attachments.js";
import { ownPlate } from "./frame-own-plates.js";
import { pattern } from "./frame-pattern.js";
import { floatSheet, sheet } from "./frame-sheet.js";
import { coordinate, identifier, largest, length, lengthOrZero, thread, words } from "./frame-words.js";

const pipe = z.strictObject({
  standard: words.optional().describe("Name in the pipe tables, for example EN 1329-1 (keelcut catalog)"),
  size: z
    .union([z.number().positive().max(largest), words])
    .optional()
    .describe("Size as the standard names it: 75, 1-1/2"),
  series: words.optional().describe("Pressure or wall series where the standard has several: PN10"),
  outside: length.optional().describe("Outside diameter, measured or explicit, mm; replaces the table's"),
  wall: length.optional().describe("Wall thickness, measured or explicit, mm; replaces the table's"),
  outsideTolerance: lengthOrZero
    .optional()
    .describe("Plus or minus on outside from pipe to pipe, mm; none when absent"),
  wallTolerance: lengthOrZero
    .optional()
    .describe("Plus or minus on wall from pipe to pipe, mm; none when absent"),
  ovality: lengthOrZero
    .optional()
    .describe("Largest minus smallest outside diameter of the cut pipe, mm; replaces the table's"),
});

const carrier = z.strictObject({
  rodPitch: length
    .optional()
    .describe("Distance between the two rods that lock the carrier, mm; the widest that fits when absent"),
  fitGap: lengthOrZero.default(0.3).describe("Radial gap between rim and the smallest bore, mm"),
  spokes: z.int().min(2).max(12).default(4).describe("Spokes between hub and rim"),
  spokeWidth: length
    .optional()
    .describe("Width of one spoke, mm; the spacer screw's hole with 3.3 mm on both sides when absent"),
  rimWidth: length.default(4.5).describe("Width of the rim, mm"),
  spacerScrew: thread.default("M4").describe("Screw that holds the two plates on their spacers"),
  stations: z
    .array(coordinate)
    .min(1)
    .max(4)
    .default([0])
    .describe(
      "Rod planes along the duct from its middle, mm: towards the front in a surge duct, to port in a sway duct; one carrier and motor at each; a heave duct has one, in its middle",
    ),
});

const duct = z.strictObject({
  id: identifier.describe("Name of the duct, for example port"),
  axis: z.enum(["surge", "heave", "sway"]).describe("surge pushes forward, heave up, sway to the side"),
  at: z
    .array(coordinate)
    .min(2)
    .max(3)
    .describe("Middle of the duct: [x, y] or [x, y, z], mm; x forward, y to port, z up from the deck"),
  pipe: pipe.describe("The pipe around motor and propeller"),
  length: length.describe("Length of the pipe, mm"),
  motor: identifier.describe("One of the names under motors"),
  propeller: z
    .strictObject({
      diameter: length.describe("Tip to tip, mm"),
      height: length.describe("Along the shaft, mm"),
    })
    .optional()
    .describe("The propeller, for the checks of what turns"),
  carrier: carrier.prefault({}).describe("The two plates that hold the motor"),
});

const motor = z.strictObject({
  pattern,
  screw: thread.describe("Screw into the motor, for example M3"),
  body: z
    .strictObject({ diameter: length.describe("mm"), length: length.describe("mm") })
    .describe("Motor without its shaft"),
  threadDepth: length.describe(
    "Thread in the motor that a screw may use, mm; a longer screw hits the winding",
  ),
  shaftHole: lengthOrZero
    .default(8)
    .describe("Hole in the front plate for shaft end and clip, mm; 0 for none"),
  mass: z
    .number()
    .positive()
    .max(1e6)
    .optional()
    .describe("Motor and propeller together, g; the trim estimate leaves them out when absent"),
});

const deck = z.strictObject({
  length: length.describe("Length of the deck, mm"),
  width: length
    .optional()
    .describe("Distance between the inner faces of the cheeks, mm; follows from the ducts when absent"),
  cornerRadius: lengthOrZero.default(8).describe("mm"),
  tabLength: length.default(40).describe("Length of one tab into a cheek, mm"),
  tabsPerSide: z.int().min(1).max(20).default(3).describe("Tabs into each cheek"),
  ductGap: lengthOrZero.default(6).describe("Air between deck and a surge duct above it, mm"),
});

const cheek = z.strictObject({
  below: lengthOrZero.default(70).describe("How far a cheek reaches below the top of the deck, mm"),
  above: lengthOrZero
    .optional()
    .describe("Material above the highest duct, mm; 66 with a handle and 20 without when absent"),
  footLength: length.default(70).describe("Length of one foot, mm"),
  cornerRadius: lengthOrZero.default(15).describe("mm"),
  handle: z.boolean().default(true).describe("True for a grip opening in each cheek"),
});

const cutting = z.strictObject({
  method: z
    .enum(["router", "laser", "waterjet"])
    .optional()
    .describe("Taken from the shop profile when absent"),
  kerf: length
    .optional()
    .describe(
      "Width the cut removes, mm, for a router the cutter's diameter; from the shop profile when absent",
    ),
  clearance: length
    .optional()
    .describe("Least distance between two plates on a sheet, mm; from the shop profile when absent"),
  edgeMargin: lengthOrZero
    .optional()
    .describe("Strip along the sheet's edge that stays free, mm; from the shop profile when absent"),
  compensation: z
    .enum(["shop", "file"])
    .optional()
    .describe("Who moves contours by half a kerf; from the shop profile when absent"),
  accuracy: lengthOrZero
    .optional()
    .describe(
      "How far a cut edge may lie from its drawn place, mm; from the shop profile, or 0.1, when absent",
    ),
});

/** A frame as its designer writes it. All lengths mm. `extends` is resolved before this schema looks. */
export const frameFileSchema = z.strictObject({
  keelcut: z.literal(1).describe("Version of this file format"),
  extends: words
    .optional()
    .describe(
      "Another frame file, relative to this one: its values hold where this file says nothing. Entries of its lists that have an id are changed by naming them; those not named stay, and a list set to null is dropped",
    ),
  name: words.describe("Name of the frame"),
  revision: words.default("A").describe("Goes onto the drawings and into the job record"),
  stock: words.optional().describe("Stock list, relative to this file: sheets, hardware and prices"),
  shop: words.optional().describe("Shop profile, relative to this file: how it is cut and what that costs"),
  sheets: z
    .strictObject({
      structure: sheet.describe("Cheeks and deck"),
      carrier: sheet.describe("Carrier plates"),
      float: floatSheet.optional().describe("Foam of the floats, when there are floats"),
    })
    .describe("Sheet materials"),
  ducts: z.array(duct).min(1).max(40).describe("Pipes with a motor inside"),
  motors: z.record(identifier, motor).describe("Motors by a name of your own"),
  rods: z
    .strictObject({
      thread: thread.default("M6").describe("Thread of the rods across the frame"),
      gapAllowance: lengthOrZero
        .default(0.3)
        .describe("Least play of a rod between the two plates of a carrier, mm"),
    })
    .prefault({})
    .describe("Threaded rods"),
  nuts: z
    .enum(["plain", "lock"])
    .default("plain")
    .describe(
      "Nuts at the ends of rods and screws: plain (ISO 4032) or lock nuts with a plastic ring (ISO 7040); nuts along a rod are plain",
    ),
  deck: deck.describe("Horizontal plate between the cheeks"),
  cheek: cheek.prefault({}).describe("Side plates"),
  ties: z
    .strictObject({
      width: length.default(3.6).describe("Width of a cable tie, mm"),
      places: z.int().min(1).max(12).default(4).describe("Tie places around a heave duct"),
    })
    .prefault({})
    .describe("Cable ties that hold heave ducts"),
  bulkheads: z.array(bulkhead).max(20).default([]).describe("Cross plates with saddles for the ducts"),
  skids: skids.optional().describe("Skids under the cheeks' feet; none when absent"),
  handles: z.array(handle).max(10).default([]).describe("Grip bars across the vehicle"),
  floats: z.array(float).max(20).default([]).describe("Foam blocks, cut in layers around the ducts"),
  pods: z.array(pod).max(40).default([]).describe("Boxes and other bought parts screwed to the deck"),
  ballast: z.array(ballast).max(20).default([]).describe("Rows of slots along which weights are shifted"),
  straps: z.array(strap).max(40).default([]).describe("Cable ties around round things on the deck"),
  plates: z
    .array(ownPlate)
    .max(100)
    .default([])
    .describe("Own plates, described by features or drawn in another program"),
  cutting: cutting.prefault({}).describe("How plates are cut, where it differs from the shop profile"),
  water: water.optional().describe("Where the vehicle works; fresh water at 5 m when absent"),
  handling: handling
    .optional()
    .describe("How roughly it is handled, for the strength estimates: 2 and 3 times its weight when absent"),
});

export type FrameFile = z.infer<typeof frameFileSchema>;
