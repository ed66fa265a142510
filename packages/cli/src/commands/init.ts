import { mkdir, rm, stat, writeFile } from "node:fs/promises";
import { join, resolve } from "node:path";
import { exitCodes } from "../exit-codes.js";
import { inputError } from "../input/input-error.js";
import { OutputError, outputError } from "../output/output-error.js";
import type { Screen } from "../screen/screen.js";
import type { JsonOption } from "./options.js";
import {
  chosen,
  flagAnswer,
  type Question,
  type StarterChoice,
  type StarterFlags,
} from "./starter/choices.js";
import { frameText, starterFrame } from "./starter/frame-text.js";
import { shopProfileText } from "./starter/shop-profile-text.js";
import { shopFor, shopText } from "./starter/shop-text.js";
import { stockText } from "./starter/stock-text.js";

export interface InitOptions extends JsonOption, StarterFlags {
  /** Only a shop profile, with every field explained. */
  readonly shop?: boolean;
}

const frameFiles: readonly string[] = ["frame.yaml", "stock.yaml", "shop.yaml"];
const shopFiles: readonly string[] = ["shop.yaml"];

/**
 * Writes the starter files into a folder that has none of them: by the answers to a few questions on a terminal, else by
 * the flags. Nothing is overwritten, and on failure nothing stays.
 */
export async function init(folder: string, options: InitOptions, screen: Screen): Promise<number> {
  if (folder.trim() === "") throw new OutputError("the folder's name is empty");
  const target = resolve(screen.cwd, folder);
  const names = options.shop === true ? shopFiles : frameFiles;
  for (const name of names) {
    const there = await stat(join(target, name)).then(
      () => true,
      () => false,
    );
    if (there) throw new OutputError(`${join(folder, name)} is there already; choose another folder`);
  }
  const flagged = [options.pipe, options.motor, options.material, options.ducts].some(
    (flag) => flag !== undefined,
  );
  if (options.shop === true && flagged) {
    throw inputError(
      "--shop",
      "writes a shop profile alone; leave --pipe, --motor, --material and --ducts out",
    );
  }
  const texts =
    options.shop === true
      ? { "shop.yaml": shopProfileText }
      : await frameTexts(await chosen(answers(options, flagged, screen)));
  await writeStarter(target, folder, texts);
  const files = names.map((name) => join(folder, name));
  if (options.json === true) {
    screen.print(JSON.stringify({ format: "keelcut-init", version: 1, files }, undefined, 2));
  } else {
    const next =
      options.shop === true
        ? "Next: fill it in with your shop, and name it in your frame file (shop: shop.yaml)"
        : `Next: keelcut make ${join(folder, "frame.yaml")}`;
    screen.print(`Wrote ${files.join(", ")}.\n${next}`);
  }
  return exitCodes.fine;
}

/** From a person where one can answer and gave no flag, else from the flags. */
function answers(
  options: InitOptions,
  flagged: boolean,
  screen: Screen,
): (question: Question) => Promise<string> {
  const { ask } = screen;
  return ask === undefined || flagged || options.json === true
    ? async (question) => flagAnswer(question, options)
    : (question) => asked(question, ask, screen);
}

/** For the usual answers the files are as they lie here; for others the stock list follows from what the frame takes. */
async function frameTexts(choice: StarterChoice): Promise<Readonly<Record<string, string>>> {
  const frame = starterFrame(choice);
  if (frame === frameText) return { "frame.yaml": frame, "stock.yaml": stockText, "shop.yaml": shopText };
  const { stockFor } = await import("./starter/stock-for.js");
  const more = shopText.includes(`material: ${choice.material},`) ? [] : [choice.material];
  return { "frame.yaml": frame, "stock.yaml": stockFor(choice), "shop.yaml": shopFor(more) };
}

/**
 * Asks until the answer is one of those offered, by its number or its name; nothing takes the first. Answers that are
 * numbers themselves have no other number: "2" must not mean the second of them.
 */
async function asked(question: Question, ask: NonNullable<Screen["ask"]>, screen: Screen): Promise<string> {
  const { answers, text } = question;
  const numbered = answers.some((answer) => Number.isNaN(Number(answer)));
  const offered = answers.map((answer, index) => (numbered ? `  ${index + 1}  ${answer}` : `  ${answer}`));
  const first = numbered ? "1" : answers[0];
  const choice = numbered ? `1 to ${answers.length}` : answers.join(", ");
  screen.note([`${text}:`, ...offered].join("\n"));
  for (;;) {
    const given = await ask(`${choice}, or nothing for ${first}: `);
    if (given === undefined) throw inputError("init", "the answers ended early; nothing was written");
    const byNumber = numbered ? answers[Number(given) - 1] : undefined;
    const found = given.trim() === "" ? answers[0] : (byNumber ?? nameAmong(given, answers));
    if (found !== undefined) return found;
    screen.note(`"${given.trim()}" is not among them.`);
  }
}

function nameAmong(given: string, answers: readonly string[]): string | undefined {
  const plain = (text: string): string => text.toLowerCase().replace(/\s+/g, "");
  return answers.find((answer) => plain(answer) === plain(given));
}

async function writeStarter(
  target: string,
  folder: string,
  files: Readonly<Record<string, string>>,
): Promise<void> {
  const written: string[] = [];
  let made: string | undefined;
  try {
    made = await mkdir(target, { recursive: true });
    for (const [name, text] of Object.entries(files)) {
      await writeFile(join(target, name), text, { flag: "wx" });
      written.push(join(target, name));
    }
  } catch (error) {
    for (const path of written) await rm(path, { force: true });
    if (made !== undefined) await rm(made, { recursive: true, force: true });
    throw outputError(folder, error);
  }
}
