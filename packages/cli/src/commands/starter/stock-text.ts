/** A first stock list. Prices are invented: a beginner puts in the own ones. */
export const stockText = `# What can be bought or is at hand. Every price is a made-up example: put in your own.
# Lengths are millimetres, prices without tax.
keelcut: 1
currency: EUR

sheets:
  - {id: pe-10-large, material: PE-HD, thickness: 10, length: 2000, width: 1000, price: 62}
  - {id: pe-10-small, material: PE-HD, thickness: 10, length: 1000, width: 500, price: 19}
  - {id: pvc-5, material: PVC-U, thickness: 5, length: 1000, width: 500, price: 24}

# Pieces you already have, with their corners in order: used before anything is bought.
offcuts:
  - {id: pvc-5-rest, material: PVC-U, thickness: 5, outline: [[0, 0], [400, 0], [400, 300], [0, 300]]}

# Items are called as hardware.csv calls them; what has no price is listed and not counted.
hardware:
  - {item: motor outrunner, price: 18}
  - {item: screw ISO 4762 M3x8, pack: 50, price: 2.4}
  - {item: screw ISO 4762 M4x25, pack: 25, price: 3.2}
  - {item: nut ISO 4032 M4, pack: 50, price: 1.8}
  - {item: nut ISO 4032 M6, pack: 50, price: 2.1}
  - {item: washer ISO 7089 M4, pack: 50, price: 1.2}
  - {item: washer ISO 7089 M6, pack: 50, price: 1.5}
  - {item: spacer M4x7, pack: 10, price: 4.5}

# What is sold by length and sawn.
lengths:
  - {item: rod DIN 976 M6, length: 1000, price: 1.4}
  - {item: pipe EN 1329-1 75x3, length: 1000, price: 4.9}
sawKerf: 2
`;
