import { Command, CommanderError } from "commander";
import { InputError, plainText } from "../quantity/index.ts";
import { commands } from "./commands.ts";
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
export async function run(argv: readonly string[], machine: Io): Promise<number> {
  const io = plain(machine);
  const program = new Command("rodebench")
    .description("What a rode does, what the anchor felt, and how sure that is.")
    .version(programVersion(), "-V, --version", "the version of this program")
    .addHelpText("after", STATUSES)
    .exitOverride()
    .configureOutput({ writeOut: (text) => io.out(text), writeErr: () => undefined })
    .showSuggestionAfterError(false);
  // Commands answer over a status of their own only by raising; reaching the end is an answer.
  try {
    for (const load of needed(argv)) program.addCommand(quiet((await load())(io), io));
    await program.parseAsync(argv, { from: "user" });
    return exit.answered;
  } catch (error) {
    if (error instanceof CommanderError && error.exitCode === 0) return exit.answered;
    const [status, line] = failure(error, program, argv);
    io.err(`${line}\n`);
    return status;
  }
}

/** The commands that a line needs read: the one it names; all where they are listed or one is looked for; none for the version. */
function needed(argv: readonly string[]): readonly (typeof commands)[string][] {
  const [first] = argv;
  if (first === "--version" || first === "-V") return [];
  return first !== undefined && Object.hasOwn(commands, first) ? [commands[first]!] : Object.values(commands);
}

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
    .showSuggestionAfterError(false);
  for (const sub of command.commands) quiet(sub, io);
  return command;
}
