import { Command, CommanderError } from "commander";
import { addCommands } from "./commands/add-commands.js";
import { exitCodes } from "./exit-codes.js";
import { type ProcessSides, type Screen, screenOf } from "./screen/screen.js";
import { version } from "./version.js";

/**
 * Runs the program with its arguments and returns the exit code: 0 fine, 1 findings of severity error or plates that
 * did not fit, 2 bad input or a crash. Never throws: what goes wrong is one message on stderr.
 */
export async function run(argv: readonly string[], sides: ProcessSides): Promise<number> {
  const screen = screenOf(sides);
  let code: number = exitCodes.fine;
  const program = new Command("keelcut")
    .description("From the parameters of a frame of sheet and pipe to cut files and a cost sheet")
    .version(version, "-V, --version", "print the version")
    .helpOption("-h, --help", "show help")
    .helpCommand("help [command]", "show help for a command")
    .exitOverride()
    .showSuggestionAfterError(true)
    .configureOutput({
      writeOut: (text) => screen.print(text.replace(/\n$/, "")),
      writeErr: (text) => screen.note(text.replace(/\n$/, "")),
      getOutHasColors: () => screen.colour,
      getErrHasColors: () => false,
      getOutHelpWidth: () => Math.min(screen.width, 110),
      getErrHelpWidth: () => Math.min(screen.width, 110),
    });
  addCommands(program, screen, (result) => {
    code = result;
  });
  try {
    await program.parseAsync(argv, { from: "user" });
    return code;
  } catch (error) {
    const json = argv.includes("--json");
    if (!(error instanceof CommanderError)) return await failed(error, screen, json);
    const code = commanderCode(error);
    if (json && code !== exitCodes.fine) screen.print(usageJson(error));
    return code;
  }
}

/** What commander has said on stderr, as data. */
function usageJson({ message }: CommanderError): string {
  const problems = [{ message: message.replace(/^error: /, "") }];
  return JSON.stringify({ format: "keelcut-error", version: 1, problems }, undefined, 2);
}

function commanderCode(error: CommanderError): number {
  const asked = ["commander.helpDisplayed", "commander.version", "commander.help"].includes(error.code);
  return asked && error.exitCode === 0 ? exitCodes.fine : exitCodes.badInput;
}

async function failed(error: unknown, screen: Screen, json: boolean): Promise<number> {
  const { reportFailure } = await import("./screen/failure.js");
  reportFailure(error, screen, json);
  return exitCodes.badInput;
}
