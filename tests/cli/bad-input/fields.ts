import { type BadInput, frameWith } from "./bad-input.js";

/** Frame files whose values cannot be meant. */
export const badFields: readonly BadInput[] = [
  {
    name: "no version",
    files: frameWith("keelcut: 1\n", ""),
    says: ["frame.yaml:4:1", "keelcut: is missing", "give 1"],
  },
  {
    name: "another version",
    files: frameWith("keelcut: 1", "keelcut: 2"),
    says: ["frame.yaml:4:10", "must be 1"],
  },
  {
    name: "no name",
    files: frameWith("name: Starter\n", ""),
    says: ["name: is missing", "Name of the frame"],
  },
  { name: "an empty frame name", files: frameWith("name: Starter", 'name: ""'), says: ["name: is empty"] },
  {
    name: "a name of a thousand letters",
    files: frameWith("name: Starter", `name: ${"x".repeat(1000)}`),
    says: ["name", "longer than 80"],
  },
  {
    name: "a number as a name",
    files: frameWith("name: Starter", "name: 2024"),
    says: ["name: 2024 is read as a number", 'put it in quotes: "2024"'],
  },
  {
    name: "an unknown key",
    files: frameWith("name: Starter", "name: Starter\ncolour: red"),
    says: ["frame.yaml:6:1", "colour: this key is not known", "known here:"],
  },
  {
    name: "a slip in a key",
    files: frameWith("    length: 120", "    lenght: 120"),
    says: ["ducts.port.lenght", 'did you mean "length"?'],
  },
  {
    name: "another word for a key",
    files: frameWith("deck:\n", "cutting: {cutter: 3}\ndeck:\n"),
    says: ["cutting.cutter", 'did you mean "kerf"?'],
  },
  { name: "no ducts", files: frameWith(/ducts:[\s\S]*?\n\n/, ""), says: ["ducts: is missing"] },
  {
    name: "an empty list of ducts",
    files: frameWith(/ducts:[\s\S]*?\n\n/, "ducts: []\n\n"),
    says: ["ducts: the list is empty"],
  },
  {
    name: "ducts as a map",
    files: frameWith(/ducts:[\s\S]*?\n\n/, "ducts: {port: 1}\n\n"),
    says: ["ducts: here stands a map of keys, but a list is wanted"],
  },
  {
    name: "a duct without id",
    files: frameWith("  - id: port\n    axis", "  - axis"),
    says: ["ducts[0].id: is missing"],
  },
  {
    name: "two ducts of one name",
    files: frameWith("id: starboard", "id: port"),
    says: ['id "port" is used twice', "first at frame.yaml:"],
  },
  {
    name: "an id that is no file name",
    files: frameWith("id: port", "id: ../port"),
    says: ['"../port" will not do', "letters, digits"],
  },
  {
    name: "an unknown axis",
    files: frameWith("axis: surge", "axis: roll"),
    says: ['"roll" is not one of surge, heave, sway'],
  },
  {
    name: "a slip in an axis",
    files: frameWith("axis: surge", "axis: heve"),
    says: ['did you mean "heave"?'],
  },
  {
    name: "a place of one number",
    files: frameWith("[-40, 75]", "[-40]"),
    says: ["ducts.port.at: the list has 1 entry", "at least 2"],
  },
  {
    name: "a place of four numbers",
    files: frameWith("[-40, 75]", "[-40, 75, 1, 2]"),
    says: ["ducts.port.at: the list has 4 entries", "at most 3"],
  },
  {
    name: "a place in words",
    files: frameWith("[-40, 75]", "front"),
    says: ["ducts.port.at", "a list is wanted"],
  },
  {
    name: "a unit behind a number",
    files: frameWith("length: 120", "length: 120mm"),
    says: ["ducts.port.length", '"120mm" is a text', "without a unit: 120"],
  },
  { name: "centimetres", files: frameWith("length: 120", "length: 12 cm"), says: ["without a unit: 120"] },
  { name: "inches", files: frameWith("length: 120", "length: 5 in"), says: ["without a unit: 127"] },
  {
    name: "a decimal comma",
    files: frameWith("length: 120", "length: 120,5"),
    says: ["write the number alone: 120.5"],
  },
  {
    name: "a comma that may stand for a point or for thousands",
    files: frameWith("length: 120", "length: 3,175"),
    says: ["write the number alone: 3.175 or 3175"],
  },
  {
    name: "feet",
    files: frameWith("length: 120", "length: 6'"),
    says: ["in millimetres without a unit: 1828.8"],
  },
  {
    name: "a tolerance of nothing",
    files: frameWith(
      "pipe: {standard: EN 1329-1, size: 75}",
      "pipe: {standard: EN 1329-1, size: 75, wallTolerance: 0.2}",
    ),
    says: ["pipe.wallTolerance: needs wall, which it is a tolerance of"],
  },
  {
    name: "a fraction of an inch",
    files: frameWith("length: 120", 'length: 4-3/4"'),
    says: ["a number is wanted; in millimetres: 120.65"],
  },
  {
    name: "a clearance narrower than the cut",
    files: frameWith("deck:\n", "cutting: {kerf: 3.175, clearance: 2}\ndeck:\n"),
    says: [
      "frame.yaml:",
      "cutting.clearance: 2 mm between two plates is less than the kerf of 3.175 mm",
      "5.175",
    ],
  },
  {
    name: "a number in quotes",
    files: frameWith("length: 120", 'length: "120"'),
    says: ["write the number alone: 120"],
  },
  {
    name: "a formula",
    files: frameWith("length: 120", "length: 2*60"),
    says: ["ducts.port.length", "a number is wanted"],
  },
  {
    name: "no value",
    files: frameWith("length: 120", "length:"),
    says: ["ducts.port.length", "no value here"],
  },
  {
    name: "null where one is needed",
    files: frameWith("length: 120", "length: null"),
    says: ["ducts.port.length: is missing"],
  },
  {
    name: "NaN",
    files: frameWith("length: 120", "length: .nan"),
    says: ["ducts.port.length", ".nan", "finite"],
  },
  {
    name: "infinity",
    files: frameWith("length: 120", "length: .inf"),
    says: ["ducts.port.length", ".inf", "finite"],
  },
  {
    name: "a number too large for a number",
    files: frameWith("length: 120", "length: 1e999"),
    says: ["finite"],
  },
  { name: "NaN as a word", files: frameWith("length: 120", "length: NaN"), says: ["ducts.port.length"] },
  {
    name: "1e9",
    files: frameWith("length: 120", "length: 1e9"),
    says: ["ducts.port.length: 1e9 must be 5000 or less"],
  },
  {
    name: "zero",
    files: frameWith("length: 120", "length: 0"),
    says: ["ducts.port.length: 0 must be more than 0"],
  },
  {
    name: "a negative size",
    files: frameWith("length: 120", "length: -120"),
    says: ["-120 must be more than 0"],
  },
  {
    name: "a place beyond everything",
    files: frameWith("[-40, 75]", "[-40, 1e6]"),
    says: ["ducts.port.at[1]: 1e6 must be 5000 or less"],
  },
  {
    name: "a pipe nobody makes",
    files: frameWith("size: 75", "size: 76"),
    says: ["ducts.port.pipe.size", '"76"', "nearest: 75"],
  },
  {
    name: "an unknown pipe standard",
    files: frameWith("EN 1329-1", "EN 1329"),
    says: ["ducts.port.pipe.standard", "nearest: EN 1329-1"],
  },
  {
    name: "an unknown pipe series",
    files: frameWith("size: 75", "size: 75, series: Z"),
    says: ["ducts.port.pipe.series", '"Z"', "nearest: B"],
  },
  {
    name: "a standard without size",
    files: frameWith("{standard: EN 1329-1, size: 75}", "{standard: EN 1329-1}"),
    says: ["ducts.port.pipe.standard", "needs a size"],
  },
  {
    name: "a size without standard",
    files: frameWith("{standard: EN 1329-1, size: 75}", "{size: 75}"),
    says: ["ducts.port.pipe.size", "needs the standard"],
  },
  {
    name: "a pipe without anything",
    files: frameWith("{standard: EN 1329-1, size: 75}", "{}"),
    says: ["ducts.port.pipe", "standard and size, or outside and wall"],
  },
  {
    name: "a pipe that is all wall",
    files: frameWith("{standard: EN 1329-1, size: 75}", "{outside: 75, wall: 40}"),
    says: ["ducts.port.pipe.wall", "leaves no bore"],
  },
  {
    name: "a motor nobody described",
    files: frameWith("motor: outrunner", "motor: outruner"),
    says: ["ducts.port.motor", 'did you mean "outrunner"?'],
  },
  {
    name: "a motor named like a part of the language",
    files: frameWith("motor: outrunner", "motor: constructor"),
    says: ["ducts.port.motor", 'no motor "constructor"'],
  },
  { name: "no motors", files: frameWith(/motors:\n[\s\S]*?\n\n/, ""), says: ["motors: is missing"] },
  {
    name: "no thread depth",
    files: frameWith(/ {4}threadDepth.*\n/, ""),
    says: ["motors.outrunner.threadDepth: is missing", "winding"],
  },
  {
    name: "a pair of numbers for a pattern",
    files: frameWith("{cross: [16, 19]}", "[16, 19]"),
    says: ["motors.outrunner.pattern", "{cross} or {circle, holes} or {rectangle}"],
  },
  {
    name: "two patterns at once",
    files: frameWith("{cross: [16, 19]}", "{cross: [16, 19], circle: 25}"),
    says: ["motors.outrunner.pattern", "two of these at once"],
  },
  {
    name: "a slip in a pattern",
    files: frameWith("{cross: [16, 19]}", "{cros: [16, 19]}"),
    says: ["motors.outrunner.pattern.cros", 'did you mean "cross"?'],
  },
  {
    name: "one hole on a circle",
    files: frameWith("{cross: [16, 19]}", "{circle: 25, holes: 1}"),
    says: ["motors.outrunner.pattern.holes: 1 must be 2 or more"],
  },
  {
    name: "half a hole",
    files: frameWith("{cross: [16, 19]}", "{circle: 25, holes: 2.5}"),
    says: ["2.5 is not a whole number"],
  },
  {
    name: "a screw nobody sells",
    files: frameWith("screw: M3", "screw: M7"),
    says: ["motors.outrunner.screw", '"M7"', "nearest:"],
  },
  {
    name: "an inch thread",
    files: frameWith("thread: M6", "thread: 1/4-20"),
    says: ["rods.thread", "a metric thread"],
  },
  {
    name: "a thread as a number",
    files: frameWith("thread: M6", "thread: 6"),
    says: ["rods.thread: 6 is read as a number"],
  },
  {
    name: "an everyday material name",
    files: frameWith("PE-HD", "HDPE"),
    says: ['"HDPE"', "nearest: PE-HD"],
  },
  {
    name: "no material",
    files: frameWith("material: PE-HD, ", ""),
    says: ["sheets.structure.material: is missing"],
  },
  {
    name: "a tie nobody sells",
    files: frameWith("deck:\n", "ties: {width: 5}\ndeck:\n"),
    says: ["ties.width", "nearest:", "4.8"],
  },
  {
    name: "yes for true",
    files: frameWith("deck:\n", "cheek: {handle: yes}\ndeck:\n"),
    says: ["cheek.handle", "write true"],
  },
  {
    name: "no deck length",
    files: frameWith("deck:\n  length: 300\n", "deck: {}\n"),
    says: ["deck.length: is missing"],
  },
  {
    name: "ten mistakes at once",
    files: {
      "frame.yaml": `keelcut: 1\n${"abcdefghijk"
        .split("")
        .map((key) => `${key}zzzz: 1`)
        .join("\n")}\n`,
    },
    says: ["azzzz", "more problems"],
  },
  {
    name: "no shop and no cutting",
    files: frameWith(/shop: shop.yaml.*\n/, ""),
    says: ["cutting.method", "is missing", "shop profile"],
  },
  {
    name: "no shop",
    files: frameWith(/shop: shop.yaml.*\n/, "cutting: {method: router, kerf: 3}\n"),
    says: ["shop: is missing"],
  },
  { name: "no stock", files: frameWith(/stock: stock.yaml.*\n/, ""), says: ["stock: is missing"] },
];
