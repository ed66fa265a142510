import { type BadInput, shopWith, stockWith } from "./bad-input.js";

/** Stock lists and shop profiles that cannot be reckoned with. */
export const badStockAndShop: readonly BadInput[] = [
  {
    name: "no price",
    files: stockWith(", price: 62", ""),
    says: ["stock.yaml:", "sheets.pe-10-large.price: is missing"],
  },
  {
    name: "a slip in price",
    files: stockWith("price: 62", "prise: 62"),
    says: ["stock.yaml:", "sheets.pe-10-large.prise", 'did you mean "price"?'],
  },
  {
    name: "a price in words",
    files: stockWith("price: 62", "price: free"),
    says: ["sheets.pe-10-large.price", "a number or a list"],
  },
  {
    name: "a price with its currency",
    files: stockWith("price: 62", "price: 62 EUR"),
    says: ["sheets.pe-10-large.price"],
  },
  {
    name: "a negative price",
    files: stockWith("price: 62", "price: -62"),
    says: ["sheets.pe-10-large.price: -62 must be 0 or more"],
  },
  {
    name: "an infinite price",
    files: stockWith("price: 62", "price: .inf"),
    says: ["sheets.pe-10-large.price", "finite"],
  },
  {
    name: "tiers that fall",
    files: stockWith("price: 62", "price: [{from: 5, each: 60}, {from: 1, each: 62}]"),
    says: ["sheets.pe-10-large.price[1].from", "must rise"],
  },
  {
    name: "no tiers",
    files: stockWith("price: 62", "price: []"),
    says: ["sheets.pe-10-large.price: the list is empty"],
  },
  {
    name: "no currency",
    files: stockWith("currency: EUR\n", ""),
    says: ["stock.yaml:", "currency: is missing"],
  },
  {
    name: "a currency sign",
    files: stockWith("currency: EUR", "currency: €"),
    says: ["currency", "three-letter"],
  },
  {
    name: "two currencies",
    files: stockWith("currency: EUR", "currency: USD"),
    says: ["stock list counts in USD", "shop profile in EUR"],
  },
  {
    name: "two sheets of one id",
    files: stockWith("id: pe-10-small", "id: pe-10-large"),
    says: ['id "pe-10-large" is used twice'],
  },
  {
    name: "an offcut with a sheet's id",
    files: stockWith("id: pvc-5-rest", "id: pvc-5"),
    says: ["offcuts.pvc-5.id", "id of a sheet already"],
  },
  {
    name: "an offcut of two corners",
    files: stockWith("[[0, 0], [400, 0], [400, 300], [0, 300]]", "[[0, 0], [400, 0]]"),
    says: ["offcuts.pvc-5-rest.outline", "at least 3"],
  },
  {
    name: "a corner below zero",
    files: stockWith("[400, 0]", "[400, -1]"),
    says: ["outline[1][1]: -1 must be 0 or more"],
  },
  {
    name: "a corner of one number",
    files: stockWith("[400, 0]", "[400]"),
    says: ["offcuts.pvc-5-rest.outline[1]"],
  },
  {
    name: "an offcut that crosses itself",
    files: stockWith("[[0, 0], [400, 0], [400, 300], [0, 300]]", "[[0, 0], [400, 300], [400, 0], [0, 300]]"),
    says: ["offcuts.pvc-5-rest.outline", "cross"],
  },
  {
    name: "a sheet of no width",
    files: stockWith("width: 1000", "width: 0"),
    says: ["sheets.pe-10-large.width: 0 must be more than 0"],
  },
  {
    name: "a sheet of 1e9",
    files: stockWith("length: 2000", "length: 1e9"),
    says: ["sheets.pe-10-large.length", "20000 or less"],
  },
  {
    name: "half a sheet at hand",
    files: stockWith("price: 62", "price: 62, atHand: 0.5"),
    says: ["sheets.pe-10-large.atHand: 0.5 is not a whole number"],
  },
  {
    name: "a price given twice",
    files: stockWith("item: nut ISO 4032 M6", "item: screw ISO 4762 M3x8"),
    says: ["hardware[4].item", "priced twice"],
  },
  {
    name: "a name that steers the terminal",
    files: stockWith("id: pe-10-large", 'id: "pe\\e]0;owned\\a"'),
    says: ["\\u{1b}]0;owned\\u{7}", "without control characters"],
  },
  {
    name: "an unknown key in the stock list",
    files: stockWith("sawKerf: 2", "sawKerff: 2"),
    says: ['did you mean "sawKerf"?'],
  },
  {
    name: "an unknown method",
    files: shopWith("method: router", "method: plasma"),
    says: ["shop.yaml:", '"plasma" is not one of router, laser, waterjet'],
  },
  {
    name: "a kerf of nothing",
    files: shopWith("kerf: 3 ", "kerf: 0 "),
    says: ["cutting.kerf: 0 must be more than 0"],
  },
  { name: "no feeds", files: shopWith(/feeds:[\s\S]*?\n\n/, ""), says: ["feeds: is missing"] },
  {
    name: "an empty list of feeds",
    files: shopWith(/feeds:[\s\S]*?\n\n/, "feeds: []\n\n"),
    says: ["feeds: the list is empty"],
  },
  {
    name: "an unknown DXF flavour",
    files: shopWith("dxf: R2000", "dxf: R2018"),
    says: ["files.dxf", "R12, R2000"],
  },
  {
    name: "a layer for two operations",
    files: shopWith(
      "layers: by-operation",
      "layers: by-operation\n  layerNames: {outline: cut, opening: cut}",
    ),
    says: ["files.layerNames", "share the layer"],
  },
  {
    name: "a price as a fraction, which is no length",
    files: stockWith("price: 18}", "price: 1/2}"),
    says: ['"1/2" is a text, but a number is wanted\n'],
  },
  {
    name: "a layer name no DXF can hold",
    files: shopWith("layers: by-operation", "layers: by-operation\n  layerNames: {outline: 'a/b'}"),
    says: ["files.layerNames", "layer name"],
  },
  {
    name: "a rate in words",
    files: shopWith("perHour: 60", "perHour: sixty"),
    says: ["charges.perHour", '"sixty" is a text'],
  },
  {
    name: "a negative rate",
    files: shopWith("perHour: 60", "perHour: -60"),
    says: ["charges.perHour: -60 must be 0 or more"],
  },
  { name: "no charges", files: shopWith(/charges:[\s\S]*$/, ""), says: ["charges: is missing"] },
];
