import { mkdirSync } from "node:fs";
import { mkdir, readdir, stat, symlink, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import {
  checkDestination,
  contentHash,
  type Destination,
} from "../../packages/cli/src/output/destination.js";
import { type OutputFile, writeFolder } from "../../packages/cli/src/output/folder.js";
import { OutputError } from "../../packages/cli/src/output/output-error.js";
import { contents, remove, scratch } from "./command-run.js";

let folder = "";
beforeEach(async () => {
  folder = await scratch({ "frame.yaml": "x" });
});
afterEach(() => remove(folder));

function destination(out: string, force = false): Destination {
  return { out, cwd: folder, force, inputs: [join(folder, "frame.yaml")] };
}

function withManifest(files: readonly OutputFile[]): OutputFile[] {
  const listed = files.map(({ path, content }) => ({ path, sha256: contentHash(content) }));
  return [...files, { path: "job.json", content: JSON.stringify({ format: "keelcut-job", files: listed }) }];
}

const first = withManifest([
  { path: "page.html", content: "one" },
  { path: "sheets/a.dxf", content: "dxf" },
]);
const second = withManifest([{ path: "page.html", content: "two" }]);

describe("writing a folder", () => {
  it("makes the folders around it, and leaves nothing beside it", async () => {
    await writeFolder(destination("out/deep/result"), first);
    expect([...(await contents(join(folder, "out/deep"))).keys()]).toEqual([
      "result/job.json",
      "result/page.html",
      "result/sheets/a.dxf",
    ]);
    expect(await readdir(join(folder, "out/deep"))).toEqual(["result"]);
  });

  it("takes no folder away that another run wrote into the one it had made", async () => {
    const failing: OutputFile = {
      path: "page.html",
      get content(): string {
        mkdirSync(join(folder, "out/other"), { recursive: true });
        throw new Error("no space left on device");
      },
    };
    await expect(writeFolder(destination("out/mine"), [failing])).rejects.toThrow();
    expect(await readdir(join(folder, "out"))).toEqual(["other"]);
    const alone: OutputFile = {
      path: "page.html",
      get content(): string {
        throw new Error("no space left on device");
      },
    };
    await expect(writeFolder(destination("new/deep/mine"), [alone])).rejects.toThrow();
    expect(await readdir(folder)).toEqual(["frame.yaml", "out"]);
  });

  it("replaces a folder of ours as a whole: no file of the old one stays", async () => {
    await writeFolder(destination("result"), first);
    await writeFolder(destination("result"), second);
    expect([...(await contents(join(folder, "result")))].map(([path]) => path)).toEqual([
      "job.json",
      "page.html",
    ]);
    expect(await readdir(folder)).toEqual(["frame.yaml", "result"]);
  });

  it("writes into an empty folder", async () => {
    await mkdir(join(folder, "result"));
    await writeFolder(destination("result"), first);
    expect((await contents(join(folder, "result"))).get("page.html")).toBe("one");
  });

  it.each(["added", "changed"])("refuses a folder of ours with an %s file, but for force", async (kind) => {
    await writeFolder(destination("result"), first);
    const name = kind === "added" ? "notes.txt" : "page.html";
    await writeFile(join(folder, "result", name), "mine");
    await expect(writeFolder(destination("result"), second)).rejects.toThrow(name);
    expect((await contents(join(folder, "result"))).get(name)).toBe("mine");
    await writeFolder(destination("result", true), second);
    expect((await contents(join(folder, "result"))).get("page.html")).toBe("two");
  });

  it("leaves the old folder as it was when a file cannot be written", async () => {
    await writeFolder(destination("result"), first);
    const before = await contents(folder);
    const tooLong = [...second, { path: `sheets/${"x".repeat(300)}.dxf`, content: "" }];
    await expect(writeFolder(destination("result"), tooLong)).rejects.toThrow(OutputError);
    await expect(writeFolder(destination("other/new"), tooLong)).rejects.toThrow("nothing was written");
    expect(await contents(folder)).toEqual(before);
    expect((await readdir(folder)).sort()).toEqual(["frame.yaml", "result"]);
  });

  it.each([
    ["a name twice but for case", ["Deck.dxf", "deck.dxf"], "two files"],
    ["a way out", ["../escape.txt"], "cannot be a file name"],
    ["an absolute path", ["/escape.txt"], "cannot be a file name"],
    ["a device", ["plates/nul.dxf"], "cannot be a file name"],
    ["a line break", ["a\nb"], "cannot be a file name"],
    ["a dot at the end", ["a."], "cannot be a file name"],
  ])("refuses %s", async (_, paths, says) => {
    const files = paths.map((path) => ({ path, content: "" }));
    await expect(writeFolder(destination("result"), files)).rejects.toThrow(says);
    expect(await readdir(folder)).toEqual(["frame.yaml"]);
  });
});

describe("checking a destination", () => {
  it("knows an input file that is reached through a link", async () => {
    await mkdir(join(folder, "project"));
    await writeFile(join(folder, "project/frame.yaml"), "keelcut: 1\n");
    await symlink(join(folder, "project"), join(folder, "link"));
    const inputs = [join(folder, "link/frame.yaml")];
    await expect(checkDestination({ ...destination("project", true), inputs })).rejects.toThrow(
      "holds the input file",
    );
  });
  it("follows links only to refuse them", async () => {
    await mkdir(join(folder, "real"));
    await symlink(join(folder, "real"), join(folder, "result"));
    await expect(checkDestination(destination("result", true))).rejects.toThrow("is a link");
    await symlink(folder, join(folder, "loop"));
    await expect(checkDestination(destination("loop", true))).rejects.toThrow();
  });

  it("never replaces a folder with very many other files, whatever force says", async () => {
    await mkdir(join(folder, "photos"));
    await Promise.all(
      Array.from({ length: 201 }, (_, i) => writeFile(join(folder, "photos", `${i}.jpg`), "")),
    );
    await expect(checkDestination(destination("photos", true))).rejects.toThrow("more than 200");
    expect((await readdir(join(folder, "photos"))).length).toBe(201);
  });

  it("says plainly when nothing may be written there", async () => {
    // The kernel's own file system takes no new folders from anybody, root included.
    const isLinux = await stat("/proc/self").then(
      () => true,
      () => false,
    );
    if (!isLinux) return;
    await expect(writeFolder(destination("/proc/keelcut-test"), first)).rejects.toThrow(
      /^\/proc\/keelcut-test could not be written: .*nothing was written$/,
    );
  });
});
