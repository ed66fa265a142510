/** A first shop profile: a router. Rates are invented: a beginner asks the own shop. */
export const shopText: string = shopFor([]);

/** The same with a feed for one more material. */
export function shopFor(more: readonly string[]): string {
  return `# How plates are cut and what that costs. Rates are made-up examples: ask your shop.
keelcut: 1
name: Own router
currency: EUR

cutting:
  method: router
  kerf: 3                # the cutter's diameter
  safetyGap: 2           # material left between two cuts
  edgeMargin: 15
  compensation: shop     # files hold the plates' own size; the shop moves the cutter by half its diameter

files:
  dxf: R2000             # or R12, for old controls
  layers: by-operation   # or single, when the shop wants all cuts on one layer

limits: {sheetLength: 2500, sheetWidth: 1250}

feeds:
  - {material: PE-HD, spindle: 18000, flutes: 1, chipLoad: 0.1, depthPerPass: 5, plungeFeed: 600}
  - {material: PVC-U, spindle: 18000, flutes: 1, chipLoad: 0.08, depthPerPass: 5, plungeFeed: 500}
${more.map((material) => `  - {material: ${material}, spindle: 18000, flutes: 1, chipLoad: 0.1, depthPerPass: 5, plungeFeed: 600}\n`).join("")}
charges:
  perHour: 60
  setupPerJob: 20        # minutes
  setupPerLayout: 5      # minutes
  loadPerSheet: 4        # minutes
  perPlate: 20           # seconds
  taxPercent: 20
`;
}
