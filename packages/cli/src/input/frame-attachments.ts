import { z } from "zod";
import { pattern } from "./frame-pattern.js";
import { coordinate, identifier, length, lengthOrZero, place, thread } from "./frame-words.js";

const mass = z.number().positive().max(1e6);
const bought = {
  mass: mass.describe("With everything in it, g"),
  volume: z.number().nonnegative().max(1e6).describe("Water it displaces when closed, cm3"),
};

export const bulkhead = z.strictObject({
  id: identifier.describe("Name of the bulkhead, for example aft"),
  x: coordinate.describe("Where it stands, mm forward of the deck's centre"),
  height: length
    .optional()
    .describe("Height above the deck, mm; a web above the highest duct it holds when absent"),
});

export const skids = z.strictObject({
  width: length.default(60).describe("Width of a skid, mm"),
});

export const handle = z.strictObject({
  id: identifier.describe("Name of the handle, for example bow"),
  x: coordinate.describe("mm forward of the deck's centre"),
  z: length.describe("Height of its upper face above the deck, mm"),
  width: length.default(70).describe("Width of the bar, mm"),
});

export const float = z.strictObject({
  id: identifier.describe("Name of the float, for example main"),
  from: place.describe("One corner of its footprint: [x, y], mm"),
  to: place.describe("The opposite corner: [x, y], mm"),
  bottom: lengthOrZero.describe("Height of its lowest face above the deck, mm"),
  layers: z.int().min(1).max(20).default(1).describe("Layers of the float sheet"),
  rods: z
    .array(place)
    .min(1)
    .max(12)
    .describe("Where vertical rods hold the layers to the deck: [x, y] each, mm"),
});

export const pod = z.strictObject({
  id: identifier.describe("Name of the bought part, for example battery"),
  at: place.describe("Middle of its bolt pattern on the deck: [x, y], mm"),
  pattern,
  rotation: z.number().min(-360).max(360).default(0).describe("Degrees counter-clockwise, seen from above"),
  screw: thread.default("M4").describe("Screw that holds it"),
  foot: lengthOrZero.default(3).describe("Thickness of the part's foot under the screw head, mm"),
  body: z
    .strictObject({ ...bought, middle: coordinate.describe("Height of its middle above the deck, mm") })
    .optional()
    .describe("What it weighs and displaces; the trim estimate leaves it out when absent"),
});

export const ballast = z.strictObject({
  id: identifier.describe("Name of the row, for example bow"),
  at: place.describe("Middle of the row: [x, y], mm"),
  count: z.int().min(1).max(40).default(2).describe("Slots in the row"),
  pitch: length.default(20).describe("Distance between two slots across their length, mm"),
  slotLength: length.default(40).describe("Length of a slot, mm"),
  along: z.enum(["x", "y"]).default("x").describe("Direction of the slots"),
  screw: thread.default("M5").describe("Screws of the ballast that slide in the slots"),
  mass: mass.optional().describe("Steel carried in the row, g; the trim estimate leaves it out when absent"),
});

export const strap = z.strictObject({
  id: identifier.describe("Name of what is held, for example bottle"),
  at: place.describe("Middle of the lying part: [x, y], mm"),
  diameter: length.describe("Its outside diameter, mm"),
  along: z.enum(["x", "y"]).default("x").describe("Direction of its axis"),
  count: z.int().min(1).max(20).default(2).describe("Cable ties around it"),
  spacing: length.default(60).describe("Distance between two ties along it, mm"),
  body: z
    .strictObject(bought)
    .optional()
    .describe("What it weighs and displaces; the trim estimate leaves it out when absent"),
});

export const water = z.strictObject({
  density: z
    .number()
    .min(900)
    .max(1300)
    .default(998.2)
    .describe("Density of the water, kg/m3: fresh 998.2, sea 1025"),
  depth: z.number().nonnegative().max(11000).default(5).describe("Greatest depth, m"),
});

export const handling = z.strictObject({
  liftFactor: z
    .number()
    .min(1)
    .max(20)
    .default(2)
    .describe("Load on one handle as a multiple of the weight in air"),
  landingFactor: z
    .number()
    .min(1)
    .max(20)
    .default(3)
    .describe("Load on two feet as a multiple of the weight in air"),
});
