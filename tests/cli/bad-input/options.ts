import type { BadInput } from "./bad-input.js";

const make = (...options: string[]): string[] => ["make", "frame.yaml", ...options];
const set = (...settings: string[]): string[] => make(...settings.flatMap((setting) => ["--set", setting]));

/** Command lines that cannot be followed. */
export const badOptions: readonly BadInput[] = [
  { name: "no command", argv: [], says: ["Usage: keelcut"] },
  { name: "an unknown command", argv: ["mak"], says: ["unknown command", "make"] },
  { name: "no frame file", argv: ["make"], says: ["missing required argument 'frame'"] },
  { name: "two frame files", argv: ["make", "frame.yaml", "frame.yaml"], says: ["too many arguments"] },
  { name: "an unknown option", argv: make("--kit", "3"), says: ["unknown option '--kit'", "--kits"] },
  { name: "an option without value", argv: make("--kits"), says: ["argument missing"] },
  { name: "no kits", argv: make("--kits", "0"), says: ["--kits", '"0" will not do', "from 1"] },
  { name: "half a kit", argv: make("--kits", "1.5"), says: ["--kits", "whole number"] },
  { name: "less than no kits", argv: make("--kits=-1"), says: ["--kits", "whole number"] },
  { name: "kits in words", argv: make("--kits", "two"), says: ["--kits", '"two"'] },
  { name: "kits without end", argv: make("--kits", "1e9"), says: ["--kits", '"1e9"'] },
  { name: "spares over all bounds", argv: make("--spares", "1000"), says: ["--spares", "from 0 to 100"] },
  { name: "spares with a sign", argv: make("--spares", "5%"), says: ["--spares", '"5%"'] },
  { name: "a seed of NaN", argv: make("--seed", "NaN"), says: ["--seed", "whole number"] },
  { name: "a negative effort", argv: make("--effort=-3"), says: ["--effort", "from 0"] },
  { name: "an endless effort", argv: make("--effort", "Infinity"), says: ["--effort", '"Infinity"'] },
  { name: "a setting without value", argv: set("deck.length"), says: ["--set deck.length", "path=value"] },
  {
    name: "a setting of nothing",
    argv: set("deck.length="),
    says: ["--set deck.length=", "no value after ="],
  },
  {
    name: "an unknown setting taken back to its default",
    argv: set("deck.lenght=null"),
    says: ["deck.lenght", "not known", 'did you mean "length"?'],
  },
  { name: "a setting without path", argv: set("=5"), says: ["--set =5", "empty part"] },
  {
    name: "a setting with a hole in its path",
    argv: set("deck..length=5"),
    says: ["--set deck..length=5", "empty part"],
  },
  {
    name: "a setting of an unknown duct",
    argv: set("ducts.prot.length=5"),
    says: ['no entry "prot"', 'did you mean "port"?'],
  },
  {
    name: "a setting of a duct by number",
    argv: set("ducts.0.length=5"),
    says: ['no entry "0"', "port, starboard"],
  },
  {
    name: "a setting of an unknown field",
    argv: set("ducts.port.lenght=5"),
    says: ["--set ducts.port.lenght=5", 'did you mean "length"?'],
  },
  {
    name: "a setting inside a number",
    argv: set("deck.length.x=5"),
    says: ["deck.length is the single value 300"],
  },
  {
    name: "a setting that is no YAML",
    argv: set("deck.length=[1"),
    says: ["--set deck.length=[1", "not YAML"],
  },
  {
    name: "a setting with a unit",
    argv: set("deck.length=30cm"),
    says: ["--set deck.length=30cm", "without a unit: 300"],
  },
  { name: "a setting of NaN", argv: set("deck.length=.nan"), says: ["--set deck.length=.nan", "finite"] },
  {
    name: "a setting out of bounds",
    argv: set("deck.length=-5"),
    says: ["--set deck.length=-5: deck.length", "more than 0"],
  },
  {
    name: "a setting of an unknown pipe",
    argv: set("ducts.*.pipe.size=76"),
    says: ["--set ducts.*.pipe.size=76", "nearest: 75"],
  },
  {
    name: "a setting that takes away what is needed",
    argv: set("deck=null"),
    says: ["--set deck=null", "is missing"],
  },
  { name: "a setting of extends", argv: set("extends=other.yaml"), says: ["extends belongs in a file"] },
  {
    name: "a setting that makes two of one id",
    argv: set("ducts.port.id=starboard"),
    says: ['id "starboard" is used twice'],
  },
  {
    name: "a setting that names no stock list",
    argv: set("stock=other.yaml"),
    says: ["--set stock=other.yaml", "no such file"],
  },
  { name: "a setting of the prototype", argv: set("__proto__.x=1"), says: ["--set __proto__.x=1"] },
  {
    name: "a setting of all of nothing",
    argv: set("cutting.*.kerf=1"),
    says: ["--set cutting.*.kerf=1", "no entries for *"],
  },
  {
    name: "an unknown schema",
    argv: ["schema", "stok"],
    says: ['no schema "stok"', 'did you mean "stock"?'],
  },
  {
    name: "an unknown table",
    argv: ["catalog", "iso-4726"],
    says: ['no table "iso-4726"', 'did you mean "iso-4762"?'],
  },
  {
    name: "kits given twice",
    argv: ["cost", "frame.yaml", "--kits", "1,5,1"],
    says: ["--kits", "1 is given twice"],
  },
  { name: "an empty number of kits", argv: ["cost", "frame.yaml", "--kits", "1,,5"], says: ["--kits", '""'] },
  { name: "a starter over a starter", argv: ["init", "."], says: ["frame.yaml is there already"] },
  {
    name: "a starter in a file",
    argv: ["init", "frame.yaml"],
    says: ["a file stands where a folder is needed"],
  },
  { name: "a starter nowhere", argv: ["init", ""], says: ["name is empty"] },
];
