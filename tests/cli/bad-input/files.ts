import { type BadInput, frameWith, stockWith } from "./bad-input.js";

/** Files that are not there, or are no YAML. */
export const badFiles: readonly BadInput[] = [
  { name: "no such frame file", argv: ["make", "nothing.yaml"], says: ["nothing.yaml", "no such file"] },
  {
    name: "a slip in the file's name",
    argv: ["make", "fram.yaml"],
    says: ["fram.yaml", 'did you mean "frame.yaml"?'],
  },
  { name: "a folder instead of a file", argv: ["make", "."], says: ["is a folder"] },
  { name: "a file as a folder", argv: ["make", "frame.yaml/x.yaml"], says: ["no such file"] },
  { name: "an empty name", argv: ["make", ""], says: ["file name", "is empty"] },
  { name: "a zero byte in the name", argv: ["make", "a\0b"], says: ["cannot be a file name"] },
  { name: "an empty file", files: { "frame.yaml": "" }, says: ["frame.yaml", "is empty"] },
  { name: "only comments", files: { "frame.yaml": "# nothing\n" }, says: ["frame.yaml", "is empty"] },
  {
    name: "a list at the top",
    files: { "frame.yaml": "- 1\n- 2\n" },
    says: ["frame.yaml:1:1", "map of keys"],
  },
  { name: "a word at the top", files: { "frame.yaml": "hello\n" }, says: ["frame.yaml:1:1", "map of keys"] },
  {
    name: "not UTF-8",
    files: { "frame.yaml": Uint8Array.of(0x6e, 0x3a, 0x20, 0xe4, 0xf6, 0x0a) },
    says: ["frame.yaml", "not UTF-8"],
  },
  {
    name: "UTF-16",
    files: { "frame.yaml": Uint8Array.of(0xff, 0xfe, 0x61, 0x00) },
    says: ["frame.yaml", "UTF-16", "save it as UTF-8"],
  },
  {
    name: "a picture",
    files: { "frame.yaml": Uint8Array.of(0x61, 0x00, 0x62) },
    says: ["frame.yaml", "not a text file"],
  },
  {
    name: "eleven megabytes",
    files: { "frame.yaml": "# padding\n".repeat(1.1 * 1024 * 1024) },
    says: ["frame.yaml", "11 MB", "10 MB"],
  },
  {
    name: "a tab for indentation",
    files: frameWith("    length: 120", "\tlength: 120"),
    says: ["frame.yaml:", "tab", "use spaces"],
  },
  {
    name: "a key given twice",
    files: frameWith("    length: 120", "    length: 120\n    length: 130"),
    says: ["frame.yaml:", "given twice"],
  },
  {
    name: "a key given twice in braces",
    files: frameWith("{thread: M6}", "{thread: M6, thread: M8}"),
    says: ["frame.yaml:", "given twice"],
  },
  {
    name: "an open brace",
    files: frameWith("{thread: M6}", "{thread: M6"),
    says: ["frame.yaml:", "not YAML"],
  },
  { name: "an open quote", files: frameWith("name: Starter", 'name: "Starter'), says: ["frame.yaml:"] },
  {
    name: "two keys on a line",
    files: frameWith("name: Starter", "name: note: Starter"),
    says: ["frame.yaml:", "two keys on one line"],
  },
  {
    name: "uneven indentation",
    files: frameWith("    axis: surge", "   axis: surge"),
    says: ["frame.yaml:"],
  },
  {
    name: "two documents",
    files: frameWith("name: Starter", "name: Starter\n---\nname: Other"),
    says: ["frame.yaml:", "second document"],
  },
  {
    name: "old YAML",
    files: frameWith(/^/, "%YAML 1.1\n---\n"),
    says: ["frame.yaml", "YAML 1.1"],
  },
  {
    name: "an alias without anchor",
    files: frameWith("[-40, 75]", "*there"),
    says: ["frame.yaml:", "ducts.port.at", "no anchor &there"],
  },
  {
    name: "a value that holds itself",
    files: frameWith("{thread: M6}", "&rods {thread: M6, again: *rods}"),
    says: ["frame.yaml:", "nested too deeply"],
  },
  {
    name: "aliases that explode",
    files: { "frame.yaml": bomb() },
    says: ["frame.yaml:", "more than 100 000 values"],
  },
  {
    name: "merge keys",
    files: frameWith("{thread: M6}", "{<<: {thread: M6}}"),
    says: ["frame.yaml:", "merge keys", "extends"],
  },
  {
    name: "a tag",
    files: frameWith("name: Starter", "name: !secret Starter"),
    says: ["frame.yaml:", "tags"],
  },
  {
    name: "binary data",
    files: frameWith("name: Starter", "name: !!binary U3RhcnRlcg=="),
    says: ["frame.yaml:", "tags"],
  },
  {
    name: "a list as a key",
    files: frameWith("name: Starter", "name: Starter\n? [1, 2]\n: 3"),
    says: ["frame.yaml:", "plain word"],
  },
  {
    name: "a key that would change the program",
    files: frameWith("{thread: M6}", "{thread: M6, __proto__: {thread: M8}}"),
    says: ["frame.yaml:", "cannot be a key"],
  },
  {
    name: "nested without end",
    files: { "frame.yaml": "[".repeat(50_000) },
    says: ["frame.yaml:", "nested too deeply"],
  },
  {
    name: "no such stock list",
    files: { "stock.yaml": undefined },
    says: ["frame.yaml:", "stock", "no such file"],
  },
  {
    name: "a slip in the shop profile's name",
    files: frameWith("shop: shop.yaml", "shop: shp.yaml"),
    says: ["frame.yaml:", "shop", 'did you mean "shop.yaml"?'],
  },
  { name: "a broken stock list", files: stockWith("currency: EUR", "currency: [EUR"), says: ["stock.yaml:"] },
  {
    name: "an empty shop profile",
    files: { "shop.yaml": "" },
    says: ["frame.yaml:", "shop.yaml", "is empty"],
  },
  {
    name: "a frame file as stock list",
    files: frameWith("stock: stock.yaml", "stock: frame.yaml"),
    says: ["frame.yaml:", "currency", "not known"],
  },
  {
    name: "a file that extends itself",
    files: frameWith("keelcut: 1", "keelcut: 1\nextends: frame.yaml"),
    says: ["frame.yaml:", "extends", "in turn"],
  },
  {
    name: "two files that extend each other",
    files: { ...frameWith("keelcut: 1", "keelcut: 1\nextends: b.yaml"), "b.yaml": "extends: frame.yaml\n" },
    says: ["b.yaml:1:10", "extends", "in turn"],
  },
  {
    name: "nothing to extend",
    files: frameWith("keelcut: 1", "keelcut: 1\nextends: base.yaml"),
    says: ["frame.yaml:5:10", "extends", "base.yaml", "no such file"],
  },
  {
    name: "two files to extend",
    files: frameWith("keelcut: 1", "keelcut: 1\nextends: [a.yaml, b.yaml]"),
    says: ["frame.yaml:5:10", "extends", "one file of the same kind"],
  },
  {
    name: "a chain of nine files",
    files: {
      ...frameWith("keelcut: 1", "keelcut: 1\nextends: b1.yaml"),
      ...Object.fromEntries([1, 2, 3, 4, 5, 6, 7, 8].map((n) => [`b${n}.yaml`, `extends: b${n + 1}.yaml\n`])),
    },
    says: ["extends", "more than 8 files"],
  },
];

/** Nine levels of nine aliases each: 9^9 values from a few lines. */
function bomb(): string {
  const level = (name: string, inner: string): string =>
    `${name}: &${name} [${Array(9).fill(inner).join(", ")}]`;
  const names = ["a", "b", "c", "d", "e", "f", "g", "h", "i"];
  return names.map((name, index) => level(name, index === 0 ? "1" : `*${names[index - 1]}`)).join("\n");
}
