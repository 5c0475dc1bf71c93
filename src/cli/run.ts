import { Command, CommanderError } from "commander";
import { InputError } from "../quantity/index.ts";
import { commands } from "./commands.ts";
import { exit, NoAnswer } from "./exit.ts";
import type { Io } from "./io.ts";
import { onOneLine, refusal } from "./refusal.ts";

/**
 * Runs one command line (without `node` and the script) and returns its exit status. Never throws.
 */
export async function run(argv: readonly string[], io: Io): Promise<number> {
  const program = new Command("rodebench")
    .description("What a rode does, what the anchor felt, and how sure that is.")
    .exitOverride()
    .configureOutput({ writeOut: (text) => io.out(text), writeErr: () => undefined })
    .showSuggestionAfterError(false);
  // Commands answer over a status of their own only by raising; reaching the end is an answer.
  for (const make of commands) program.addCommand(quiet(make(io), io));
  try {
    await program.parseAsync(argv, { from: "user" });
    return exit.answered;
  } catch (error) {
    if (error instanceof CommanderError) {
      if (error.exitCode === 0) return exit.answered;
      io.err(`rodebench: ${onOneLine(refusal(error, program, argv))}\n`);
      return exit.wrongInput;
    }
    if (error instanceof InputError) {
      io.err(`${onOneLine(error.message)}\n`);
      return exit.wrongInput;
    }
    if (error instanceof NoAnswer) {
      io.err(`${onOneLine(error.message)}\n`);
      return exit.noEquilibrium;
    }
    io.err(
      `rodebench: a fault of the program: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}\n`,
    );
    return exit.fault;
  }
}

function quiet(command: Command, io: Io): Command {
  command
    .exitOverride()
    .configureOutput({ writeOut: (text) => io.out(text), writeErr: () => undefined })
    .showSuggestionAfterError(false);
  for (const sub of command.commands) quiet(sub, io);
  return command;
}
