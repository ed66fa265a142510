import type { Command } from "commander";

/** Takes the exit code of the command that ran. */
export type Finish = (code: number) => void;

export interface JsonOption {
  readonly json?: boolean;
}

export interface SettingOptions extends JsonOption {
  readonly set?: readonly string[];
}

/** The `--set` options in the order they were typed. */
export function settingsOf(options: SettingOptions): readonly string[] {
  return options.set ?? [];
}

export interface SearchOptions extends SettingOptions {
  readonly seed: string;
  readonly effort?: string;
  readonly kits: string;
  readonly spares?: string;
  readonly maxLayouts?: string;
  readonly surplus?: string;
}

export interface ResumeOptions {
  readonly resume?: string;
}

export interface OutputOptions extends SearchOptions {
  readonly out?: string;
  readonly force?: boolean;
}

export interface PaperOptions {
  readonly paper?: string;
  readonly paperPlates?: boolean;
}

export interface CostOptions extends OutputOptions, ResumeOptions {
  readonly against?: string;
  readonly againstShop?: string;
  readonly againstStock?: string;
}

export function json(command: Command): Command {
  return command.option("--json", "print one JSON object for programs instead of text");
}

export function settings(command: Command): Command {
  return command.option(
    "--set <path=value>",
    "change a value of the frame file, for example ducts.port.pipe.size=110 or ducts.*.length=140 (repeatable)",
    (value: string, before: readonly string[] | undefined) => [...(before ?? []), value],
  );
}

export function kits(command: Command): Command {
  return command
    .option("-k, --kits <number>", "kits to make", "1")
    .option(
      "--spares <percent>",
      "spare plates, hardware, pipes and rods, percent of the kits' (default: as the stock list says of each)",
    );
}

export function search(command: Command): Command {
  return command
    .option(
      "--seed <number>",
      "another number gives another layout; the same gives the same, except with --effort",
      "1",
    )
    .option(
      "--effort <seconds>",
      "search that long for a better layout, and once more as long for each further job that a command compares (default: a fixed number of steps); Ctrl-C ends the search with the best so far",
    )
    .option("--max-layouts <number>", "most different sheet layouts for each material and thickness")
    .option(
      "--surplus <percent>",
      "keep that many more copies of each plate than asked for where the layouts give them (default: 0)",
    );
}

export function resume(command: Command): Command {
  return command.option(
    "--resume <job.json>",
    "go on from the layouts of an earlier job, given by its record or folder: those that still serve are kept where nothing better is found",
  );
}

export function output(command: Command, usual?: string): Command {
  return command
    .option("-o, --out <folder>", `folder to write${usual === undefined ? "" : ` (default: ${usual})`}`)
    .option("--force", "also replace a folder that this program did not write, with all that is in it");
}

export function paper(command: Command): Command {
  return command
    .option("--paper <size>", "A4, A3 or Letter for the 1:1 templates (default: as the shop profile says)")
    .option("--paper-plates", "also print every plate at 1:1, beside the wraps");
}
