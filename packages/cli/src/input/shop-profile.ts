import { z } from "zod";
import { words } from "./frame-words.js";

const positive = z.number().positive();
const notNegative = z.number().nonnegative();

const feedTable = z.strictObject({
  material: words.describe("Sheet material as the frame and the stock list name it"),
  thickness: positive.optional().describe("Only for this thickness; any when absent"),
  feed: positive.optional().describe("Feed along the cut, mm/min; or give spindle, flutes and chipLoad"),
  spindle: positive.optional().describe("Spindle speed, 1/min (router)"),
  flutes: z.int().positive().optional().describe("Cutting edges of the cutter (router)"),
  chipLoad: positive.optional().describe("Chip per tooth, mm (router): feed = spindle x flutes x chipLoad"),
  depthPerPass: positive
    .optional()
    .describe("Depth of one pass, mm; the whole thickness in one pass when absent"),
  plungeFeed: positive.optional().describe("Feed into the material, mm/min (router)"),
  pierceSeconds: notNegative.optional().describe("Time to pierce, s (laser, waterjet)"),
});

const layerColour = z
  .strictObject({
    svg: z
      .string()
      .regex(/^#[0-9a-f]{6}$/i, 'a colour as six hexadecimal digits, for example "#d55e00"')
      .optional()
      .describe("In SVG files, in quotes"),
    dxf: z.int().min(1).max(255).optional().describe("In DXF files: its number in the 255-colour index"),
  })
  .optional();

/** What one cutting shop wants and what it charges. Lengths mm, feeds mm/min, money in `currency`. */
export const shopProfileSchema = z.strictObject({
  keelcut: z.literal(1).describe("Version of this file format"),
  name: words.describe("Name of the shop, as the page shows it"),
  currency: z
    .string()
    .regex(/^[A-Z]{3}$/, "a three-letter currency code (ISO 4217), for example EUR")
    .describe("Currency of every rate (ISO 4217)"),
  cutting: z
    .strictObject({
      method: z.enum(["router", "laser", "waterjet"]).describe("How sheets are cut"),
      kerf: positive.describe("Width the cut removes; for a router the cutter's diameter"),
      safetyGap: notNegative
        .default(2)
        .describe("Material left between two cuts; clearance = kerf + safetyGap"),
      edgeMargin: notNegative.default(15).describe("Strip along the sheet's edge that stays free"),
      compensation: z.enum(["shop", "file"]).default("shop").describe("Who moves contours by half a kerf"),
      accuracy: notNegative
        .optional()
        .describe("How far a cut edge may lie from its drawn place; 0.1 mm when absent"),
      tabs: z
        .strictObject({
          perPlate: z.int().positive().describe("Holding tabs left on each outline"),
          height: positive.describe("Material left under the cutter at a tab, mm"),
        })
        .optional()
        .describe(
          "Tabs the shop itself leaves in the depth of the cut (router): they count as time, and nobody is told to hold the plates",
        ),
    })
    .describe("How sheets are cut"),
  files: z
    .strictObject({
      dxf: z.enum(["R12", "R2000"]).default("R2000").describe("DXF flavour"),
      layers: z
        .enum(["by-operation", "single"])
        .default("by-operation")
        .describe("Each operation on its own layer, or all cuts on one"),
      layerNames: z
        .strictObject({
          outline: words.default("outline").describe("Cuts around plates"),
          opening: words.default("opening").describe("Cuts inside plates"),
          mark: words.default("mark").describe("Names and lines, never cut through"),
          stock: words.default("stock").describe("The sheet's edge and keep-outs, for reference"),
        })
        .prefault({})
        .describe("Names of the layers"),
      layerColours: z
        .strictObject({
          outline: layerColour.describe("Of the outlines' layer"),
          opening: layerColour.describe("Of the openings' layer"),
          mark: layerColour.describe("Of the marks' layer"),
          stock: layerColour.describe("Of the reference layer"),
        })
        .optional()
        .describe("Colours of the layers, where the shop tells operations apart by them"),
      marks: z.boolean().default(true).describe("Draw marks (names, lines) on their own layer"),
      stockOutline: z.boolean().default(true).describe("Draw the sheet's outline and keep-outs as reference"),
      bridges: z
        .strictObject({
          count: z.int().min(2).max(50).default(3).describe("Least number on each outline"),
          spacing: positive.min(20).default(200).describe("Most contour between two bridges, mm"),
          width: positive.default(5).describe("Material left at the narrowest place of a bridge, mm"),
          largeOpening: positive
            .optional()
            .describe("Openings at least this wide both ways, mm, get bridges too; none when absent"),
        })
        .optional()
        .describe(
          "Interrupt the cut lines, so that plates stay in the sheet until they are cut free by hand; no bridges when absent",
        ),
      leadIns: z
        .strictObject({
          length: z
            .number()
            .min(1)
            .default(5)
            .describe("Longest stroke, mm, longer than half the kerf; shorter where there is no room"),
        })
        .optional()
        .describe(
          "Show on the mark layer, in the waste beside each cut line that no bridge interrupts, where to begin; none when absent",
        ),
      paper: z
        .strictObject({
          size: z.enum(["A4", "A3", "Letter"]).default("A4").describe("Paper of the 1:1 templates"),
          plates: z.boolean().default(false).describe("Also print every plate at 1:1, beside the wraps"),
        })
        .prefault({})
        .describe("Templates and drawings on paper (PDF)"),
    })
    .prefault({})
    .describe("What files the shop wants"),
  limits: z
    .strictObject({
      sheetLength: positive.optional().describe("Longest sheet the bed takes"),
      sheetWidth: positive.optional().describe("Widest sheet the bed takes"),
      smallestOpening: positive.optional().describe("Least width of an opening, mm"),
      smallestWeb: positive.optional().describe("Least width of material between two cuts, mm"),
      smallestPlate: positive.optional().describe("Least length and width of a plate, mm"),
    })
    .prefault({})
    .describe("What the machine and the shop can do"),
  machine: z
    .strictObject({
      travelFeed: positive.default(10000).describe("Speed between cuts, mm/min"),
      acceleration: positive.default(500).describe("mm/s2"),
      cornerDeviation: positive
        .default(0.02)
        .describe("How far the controller may cut a corner to keep its speed, mm"),
      drills: z
        .array(
          z.strictObject({
            diameter: positive.describe("mm"),
            plungeFeed: positive.optional().describe("mm/min; as for the cutter when absent"),
          }),
        )
        .default([])
        .describe("Drills beside the cutter (router): round openings of exactly such a diameter are drilled"),
      toolChangeSeconds: notNegative
        .default(60)
        .describe("Time to change the tool, s, where a sheet needs more than one"),
      liftHeight: notNegative.default(5).describe("Height above the sheet at which a router travels, mm"),
    })
    .prefault({})
    .describe("How the machine moves between cuts"),
  feeds: z.array(feedTable).min(1).describe("How fast each material is cut"),
  charges: z
    .strictObject({
      perHour: notNegative.optional().describe("Machine rate by the hour; or perMetre"),
      perMetre: notNegative
        .optional()
        .describe("Rate by the metre of drawn contour; then perHour is for set-up and handling only"),
      perPierce: notNegative.optional().describe("Money for each start of a cut, beside perMetre"),
      setupPerJob: notNegative.default(0).describe("Minutes once a job, at the hourly rate"),
      setupPerLayout: notNegative.default(0).describe("Minutes once a distinct sheet layout"),
      loadPerSheet: notNegative.default(0).describe("Minutes to load and unload each sheet"),
      perPlate: notNegative.default(0).describe("Seconds to free and clean each plate"),
      fixedPerJob: notNegative.default(0).describe("Money once a job: file check, programming"),
      minimum: notNegative.default(0).describe("Least charge for the shop's work on a job, material apart"),
      taxPercent: notNegative
        .default(0)
        .describe(
          "Tax on material, hardware and the shop's work, freight included; own packing is not taxed",
        ),
      freight: notNegative.default(0).describe("Money once a job"),
    })
    .describe("What the shop charges"),
});

export type ShopProfile = z.infer<typeof shopProfileSchema>;
