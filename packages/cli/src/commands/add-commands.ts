import type { Command } from "commander";
import type { Screen } from "../screen/screen.js";
import { type Finish, json, kits, output, paper, resume, search, settings } from "./options.js";

/**
 * Every command with its options. What a command does is loaded when it runs: `--help` and small commands start
 * without the geometry.
 */
export function addCommands(program: Command, screen: Screen, finish: Finish): void {
  const make = program
    .command("make")
    .summary("all of it: plates, sheets, cut files, costs")
    .description(
      "Derive the plates of a frame, check them, lay them on sheets, and write everything a shop and a buyer need",
    )
    .argument("<frame>", "frame file (YAML)");
  json(settings(paper(search(resume(output(kits(make), "out/<name of the frame>")))))).action(
    async (frame, options) => {
      const { make: act } = await import("./make.js");
      finish(await act(frame, options, screen));
    },
  );

  const plates = program
    .command("plates")
    .summary("derive and list the plates")
    .description("Derive the plates, hardware and lengths of a frame, and list them")
    .argument("<frame>", "frame file (YAML)");
  json(settings(plates)).action(async (frame, options) => {
    const { plates: act } = await import("./plates.js");
    finish(await act(frame, options, screen));
  });

  const check = program
    .command("check")
    .summary("findings only")
    .description("Check that a frame fits together and can be cut, and list the findings")
    .argument("<frame>", "frame file (YAML)")
    .option("--reasons", "also say why each note matters and where its figures come from");
  json(settings(check)).action(async (frame, options) => {
    const { check: act } = await import("./check.js");
    finish(await act(frame, options, screen));
  });

  const nest = program
    .command("nest")
    .summary("lay the plates on sheets")
    .description("Lay the plates of a frame on sheets; with --out also write one cut file per sheet")
    .argument("<frame>", "frame file (YAML)");
  json(settings(search(resume(output(kits(nest)))))).action(async (frame, options) => {
    const { nest: act } = await import("./nest.js");
    finish(await act(frame, options, screen));
  });

  const cost = program
    .command("cost")
    .summary("material and cost for one or several numbers of kits")
    .description("What a frame takes and costs, side by side for several numbers of kits")
    .argument("<frame>", "frame file (YAML)")
    .option("-k, --kits <numbers>", "kits to make: one number, or several: 1,10,50 or 1-12", "1")
    .option(
      "--spares <percent>",
      "spare plates, hardware, pipes and rods, percent of the kits' (default: as the stock list says of each)",
    )
    .option("--against <frame>", "show the difference to another frame file; --set does not change that one")
    .option("--against-shop <file>", "show the difference to the same at another shop")
    .option("--against-stock <file>", "show the difference to the same with another stock list");
  json(settings(search(resume(output(cost))))).action(async (frame, options) => {
    const { cost: act } = await import("./cost.js");
    finish(await act(frame, options, screen));
  });

  const compare = program
    .command("compare")
    .summary("the same frame with different values, side by side")
    .description(
      "What fits, weighs and costs how much when values of the frame file change; a value that does not work shows the first reason",
    )
    .argument("<frame>", "frame file (YAML)")
    .option(
      "--vary <path=values>",
      "values to compare: ducts.*.pipe.size=75,90,110 or deck.length=360..480:20; several options give every combination",
      (value: string, before: readonly string[] | undefined) => [...(before ?? []), value],
    )
    .option(
      "--nest",
      "search for layouts instead of laying plates in rows; takes much longer. --seed, --effort, --max-layouts and --surplus matter only with it",
    )
    .option("-o, --out <file>", "write a page (HTML) as well")
    .option("--force", "also replace a file that this command did not write");
  json(settings(search(kits(compare)))).action(async (frame, options) => {
    const { compare: act } = await import("./compare.js");
    finish(await act(frame, options, screen));
  });

  const prove = program
    .command("prove")
    .summary("re-read a written folder and prove it")
    .description(
      "Read the drawings of a written folder as a stranger would and compare them with its job record; or one drawing, such as a copy that somebody edited",
    )
    .argument("<folder>", "folder that make or nest wrote, or its job.json")
    .argument("[drawing]", "a DXF or SVG file to compare with the folder's drawing of that name");
  json(prove).action(async (folder, drawing, options) => {
    const { prove: act } = await import("./prove.js");
    finish(await act(folder, drawing, options, screen));
  });

  const catalog = program
    .command("catalog")
    .summary("the built-in tables with their sources")
    .description("List the built-in tables of fasteners, pipes and sheets, print one, or search in them")
    .argument("[table]", "id of a table")
    .option(
      "--search <words>",
      "only rows in which all these words are found, for example M6 or 110 ovality",
    );
  json(catalog).action(async (table, options) => {
    const { catalog: act } = await import("./catalog.js");
    finish(act(table, options, screen));
  });

  const init = program
    .command("init")
    .summary("a starter folder")
    .description(
      "Write a first frame file, stock list and shop profile, with comments, into a folder; asks a few questions on a terminal when no answer is given",
    )
    .argument("<folder>", "folder to write into; nothing in it is overwritten")
    .option("--pipe <pipe>", "standard and size of the pipes, for example EN 1329-1 75")
    .option("--motor <pattern>", "bolt pattern of the motors, for example cross 16x19")
    .option("--material <name>", "sheet for deck and cheeks, for example PE-HD")
    .option("--ducts <number>", "2, 3 or 4")
    .option("--shop", "only a shop profile, with every field explained");
  json(init).action(async (folder, options) => {
    const { init: act } = await import("./init.js");
    finish(await act(folder, options, screen));
  });

  const schema = program
    .command("schema")
    .summary("the JSON Schema of the input files")
    .description("Print the JSON Schema of an input file, for editors that complete and check YAML")
    .argument("[file]", "frame, stock or shop", "frame");
  json(schema).action(async (file) => {
    const { schema: act } = await import("./schema.js");
    finish(act(file, screen));
  });
}
