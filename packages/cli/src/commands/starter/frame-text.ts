/** A first frame file: every line a beginner needs, nothing more. Lengths in it are millimetres. */
export const frameText = `# A frame: everything keelcut derives plates, hardware and costs from.
# All lengths are millimetres. x points forward, y to port, z up; the middle of the deck's top is 0, 0, 0.
# What is not written here takes a default; \`keelcut schema frame\` lists every value with its meaning.
keelcut: 1
name: Starter
stock: stock.yaml      # sheets, pipes and hardware with their prices
shop: shop.yaml        # how plates are cut and what that costs

sheets:
  structure: {material: PE-HD, thickness: 10}   # cheeks and deck
  carrier: {material: PVC-U, thickness: 5}      # the plates that hold the motors

# A duct is a pipe with a motor inside. surge pushes forward, heave pushes up.
# Sizes of pipe are in the built-in tables: keelcut catalog
ducts:
  - id: port
    axis: surge
    at: [-40, 75]
    pipe: {standard: EN 1329-1, size: 75}
    length: 120
    motor: outrunner
  - id: starboard
    axis: surge
    at: [-40, -75]
    pipe: {standard: EN 1329-1, size: 75}
    length: 120
    motor: outrunner

# cross: two holes on each of two circles at 90 degrees; also {circle: 25, holes: 4} and {rectangle: [31, 31]}.
motors:
  outrunner:
    pattern: {cross: [16, 19]}
    screw: M3
    body: {diameter: 28, length: 30}
    threadDepth: 4       # a longer screw would reach the winding

rods: {thread: M6}

deck:
  length: 300
`;
