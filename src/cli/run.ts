import { Command, CommanderError } from "commander";
import { InputError, plainText } from "../quantity/index.ts";
import { commandNamed, commands } from "./commands.ts";
import { diskFull } from "./disk-full.ts";
import { exit, NoAnswer } from "./exit.ts";
import { fileTrouble } from "./file-trouble.ts";
import type { Io } from "./io.ts";
import { refuseRepeated } from "./once.ts";
import { onOneLine } from "./plain-text.ts";
import { refusal } from "./refusal.ts";
import { programVersion } from "./version.ts";

/**
 * Runs one command line (without `node` and the script) and returns its exit status. Never throws.
 */
export async function run(given: readonly string[], machine: Io): Promise<number> {
  const io = plain(machine);
  const argv = helpLast(given);
  const program = new Command("rodebench")
    .description("What a rode does, what the anchor felt, and how sure that is.")
    .version(programVersion(), "-V, --version", "the version of this program")
    .addHelpText("after", STATUSES)
    .exitOverride()
    .configureOutput({ writeOut: (text) => io.out(text), writeErr: () => undefined })
    .configureHelp(NAMES_ALONE)
    .showSuggestionAfterError(false);
  // Commands answer over a status of their own only by raising; reaching the end is an answer.
  try {
    // Of the others no more is needed than the list of them has.
    for (const [name, { about }] of Object.entries(commands)) {
      const command = name === argv[0] ? await commandNamed(name, io) : new Command(name).description(about);
      program.addCommand(quiet(command, io));
    }
    await program.parseAsync(argv, { from: "user" });
    return exit.answered;
  } catch (error) {
    if (error instanceof CommanderError && error.exitCode === 0) return exit.answered;
    const [status, line] = failure(error, program, argv);
    io.err(`${line}\n`);
    return status;
  }
}

/** `help book list` as `book list --help`: a command is asked of itself. */
function helpLast(argv: readonly string[]): readonly string[] {
  const [first, ...asked] = argv;
  return first === "help" && asked[0] !== undefined && Object.hasOwn(commands, asked[0]) ? [...asked, "--help"] : argv;
}

/** A list of commands by their names: what each takes, its own help tells. */
const NAMES_ALONE = { subcommandTerm: (command: Command) => command.name() };

const STATUSES = `
Exit status:
  ${exit.answered}  answered
  ${exit.wrongInput}  the input is wrong: one line tells where, what was given, what was expected
  ${exit.noEquilibrium}  there is no answer: one line tells why, and what would give one
  ${exit.diskFull}  a disk is full
  ${exit.fault}  a fault of the program itself`;

/** The status of what went wrong, and the text that tells it. */
function failure(error: unknown, program: Command, argv: readonly string[]): readonly [number, string] {
  if (error instanceof CommanderError)
    return [exit.wrongInput, onOneLine(`rodebench: ${refusal(error, program, argv)}`)];
  const full = diskFull(error);
  if (full !== undefined) return [exit.diskFull, onOneLine(full)];
  if (error instanceof InputError) return [exit.wrongInput, onOneLine(error.message)];
  if (error instanceof NoAnswer) return [exit.noEquilibrium, onOneLine(error.message)];
  const trouble = fileTrouble(error);
  if (trouble !== undefined) return [exit.wrongInput, onOneLine(trouble)];
  const inside = error instanceof Error ? (error.stack ?? error.message) : String(error);
  return [exit.fault, `rodebench: a fault of the program: ${inside}`];
}

/** The one place where all that is said goes through: no text of a file or a book steers the terminal. */
function plain(io: Io): Io {
  return {
    ...io,
    get stop() {
      return io.stop;
    },
    out: (text) => io.out(plainText(text)),
    err: (text) => io.err(plainText(text)),
    redraw: (line) => io.redraw(plainText(line)),
  };
}

function quiet(command: Command, io: Io): Command {
  if (command.commands.length === 0) command.addHelpText("after", STATUSES);
  refuseRepeated(command);
  command
    .exitOverride()
    .configureOutput({ writeOut: (text) => io.out(text), writeErr: () => undefined })
    .configureHelp(NAMES_ALONE)
    .showSuggestionAfterError(false);
  for (const sub of command.commands) quiet(sub, io);
  return command;
}
