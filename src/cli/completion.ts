import { readFileSync } from "node:fs";
import { Argument, Command } from "commander";
import { built } from "./built.ts";
import { completionScript, SHELLS, type Shell } from "./completion-script.ts";
import type { Io } from "./io.ts";

/** `rodebench completion SHELL`: the script by which a shell completes commands, options and what they may be. */
export function completionCommand(io: Io, everyCommand: () => Promise<Command[]>): Command {
  return new Command("completion")
    .addArgument(new Argument("<shell>", "your shell").choices(SHELLS))
    .action(async (shell: Shell) => {
      io.out(built ? writtenScript(shell) : completionScript(shell, await everyCommand()));
    });
}

/** The script as the build wrote it: a shell that asks each time it starts does not wait for every command to be read. */
function writtenScript(shell: Shell): string {
  return readFileSync(new URL(`../completion/${shell}`, import.meta.url), "utf8");
}
