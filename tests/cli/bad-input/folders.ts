import type { BadInput } from "./bad-input.js";

const out = (folder: string, ...more: string[]): string[] => ["make", "frame.yaml", "--out", folder, ...more];

/** Output folders that must come to no harm. */
export const badFolders: readonly BadInput[] = [
  { name: "the root of the disk", argv: out("/", "--force"), says: ["root of the disk"] },
  { name: "the working folder", argv: out(".", "--force"), says: ["working folder"] },
  { name: "the working folder by a detour", argv: out("result/..", "--force"), says: ["working folder"] },
  { name: "the folder around", argv: out("..", "--force"), says: ["around the working folder"] },
  { name: "an empty folder name", argv: out(""), says: ["--out is empty"] },
  {
    name: "a folder with other files",
    argv: out("mine"),
    files: { "mine/letter.txt": "dear" },
    says: ["mine was not written by keelcut", "letter.txt", "--force"],
  },
  {
    name: "a folder with another job.json",
    argv: out("mine"),
    files: { "mine/job.json": '{"format": "other"}' },
    says: ["mine was not written by keelcut"],
  },
  {
    name: "a folder with a broken job.json",
    argv: out("mine"),
    files: { "mine/job.json": "{" },
    says: ["mine was not written by keelcut"],
  },
  {
    name: "a folder of ours with a letter in it",
    argv: out("mine"),
    files: { "mine/job.json": '{"format": "keelcut-job", "files": []}', "mine/letter.txt": "dear" },
    says: ["added or changed", "letter.txt"],
  },
  {
    name: "a version history, by force",
    argv: out("mine", "--force"),
    files: { "mine/.git/HEAD": "ref" },
    says: ["version history", "never replaced"],
  },
  {
    name: "a folder with the stock list, by force",
    argv: ["make", "frame.yaml", "--set", "stock=lists/stock.yaml", "--out", "lists", "--force"],
    files: { "lists/stock.yaml": "keelcut: 1\ncurrency: EUR\n" },
    says: ["lists holds the input file"],
  },
  { name: "a file instead of a folder", argv: out("stock.yaml"), says: ["stock.yaml is a file"] },
  {
    name: "a folder inside a file",
    argv: out("stock.yaml/result"),
    says: ["stock.yaml/result could not be written", "a file stands"],
  },
  { name: "a folder name of a thousand letters", argv: out("x".repeat(1000)), says: ["path is too long"] },
  { name: "a zero byte in a name", argv: out("a\0b"), says: ["cannot be used as a path"] },
];
