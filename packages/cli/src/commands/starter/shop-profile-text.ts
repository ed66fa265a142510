/** A shop profile with every field and what it means: what to ask a shop, in the order one asks it. */
export const shopProfileText = `# What one cutting shop wants and what it charges. Ask the shop, line by line; every number here is made up.
# Lengths are millimetres, feeds mm/min, money in the currency named below.
# A frame file names this file (shop: shop.yaml). \`keelcut schema shop\` prints the same for editors that check YAML.
keelcut: 1
name: My shop                # shown on the page
currency: EUR                # ISO 4217; the stock list must count in the same

cutting:
  method: router             # router, laser or waterjet; never PVC with a laser: it gives off hydrogen chloride
  kerf: 3                    # width the cut removes: a router's cutter diameter, a laser's beam, a waterjet's jet
  safetyGap: 2               # material left between two cuts; the distance between plates is kerf + safetyGap
  edgeMargin: 15             # strip along the sheet's edge that stays free: clamps, screws, a ragged edge
  compensation: shop         # who moves the contours by half a kerf:
                             #   shop - files hold the plates' own size (most routers and waterjets)
                             #   file - files hold moved contours, to be cut on the line (many lasers)
                             # Ask! Moved twice or not at all, every hole is wrong by half a kerf on each side.
  accuracy: 0.1              # how far a cut edge may lie from where it is drawn
  # tabs: {perPlate: 4, height: 1.5}   # tabs the shop itself leaves in the depth of the cut; counted as time; then nobody is told to hold the plates

files:
  dxf: R2000                 # R12 for old controls, R2000 for everybody else; an SVG is always written beside
  layers: by-operation       # or single: all cuts on one layer
  layerNames:                # what the shop calls them; in a single layer the openings go to outline as well
    outline: outline         # cut last
    opening: opening         # cut first
    mark: mark               # names, arrows and lines: never cut through
    stock: stock             # the sheet's edge, keep-outs and a note outside the edge: for reference
  # layerColours:            # for shops that tell operations apart by colour; each may be left out
  #   outline: {svg: "#d55e00", dxf: 32}
  marks: true                # false: no names and no note
  stockOutline: true         # false: no sheet's edge and no note
  # bridges:                 # gaps in the cut lines that hold plates in the sheet until they are cut free by hand
  #   count: 3               # least number on each outline; never on tight arcs, corners, tabs and edges that touch plates
  #   spacing: 200           # and one at least every 200 mm
  #   width: 5               # material left at the narrowest place; the gap drawn is width + kerf
  #   largeOpening: 80       # openings this wide both ways get bridges too; none when left out
  # leadIns: {length: 5}     # short strokes on the mark layer that show, in the waste, where each cut begins
  paper:
    size: A4                 # or A3, Letter: paper of the 1:1 templates
    plates: false            # true: print every plate at 1:1, beside the wraps

limits:                      # what lies outside is a finding before anything is cut; leave out what has no limit
  sheetLength: 2500          # longest sheet the bed takes
  sheetWidth: 1250
  smallestOpening: 3.5       # least width of an opening
  smallestWeb: 3             # least width of material between two cuts
  smallestPlate: 30          # least length and width of a plate

machine:                     # for the cutting time; what is drilled is also told to the shop
  travelFeed: 10000          # speed between cuts
  acceleration: 500          # mm/s2
  cornerDeviation: 0.02      # how far the control may cut a corner to keep its speed
  liftHeight: 5              # height above the sheet at which a router travels
  # drills: [{diameter: 6.6, plungeFeed: 300}]   # round openings of exactly this diameter are drilled, not routed
  toolChangeSeconds: 60      # where a sheet needs more than one tool

feeds:                       # one line for each material, or for each thickness of it
  # A router: feed = spindle x flutes x chipLoad; passes follow from depthPerPass.
  - {material: PE-HD, spindle: 18000, flutes: 1, chipLoad: 0.1, depthPerPass: 5, plungeFeed: 600}
  - {material: PVC-U, spindle: 18000, flutes: 1, chipLoad: 0.08, depthPerPass: 5, plungeFeed: 500}
  # A laser or waterjet: the feed itself, and the time to pierce.
  # - {material: PMMA cast, thickness: 4, feed: 600, pierceSeconds: 0.3}

charges:
  perHour: 60                # machine and people by the hour
  # perMetre: 2.5            # or by the metre of contour; perHour is then for set-up and handling only
  # perPierce: 0.1           # beside perMetre: for each start of a cut
  setupPerJob: 20            # minutes
  setupPerLayout: 5          # minutes once a distinct sheet
  loadPerSheet: 4            # minutes
  perPlate: 20               # seconds to free and clean each plate
  fixedPerJob: 0             # money once a job: file check, programming
  minimum: 0                 # least charge for the shop's work on a job, material apart
  freight: 0                 # money once a job
  taxPercent: 20             # on material, hardware and the shop's work, freight included
`;
