import { Argument, Command } from "commander";
import { completionScript, SHELLS, type Shell } from "./completion-script.ts";
import type { Io } from "./io.ts";

/** `rodebench completion SHELL`: the script by which a shell completes commands, options and what they may be. */
export function completionCommand(
  io: Io,
  commands: Readonly<Record<string, () => Promise<(io: Io) => Command>>>,
): Command {
  return new Command("completion")
    .description("the script by which a shell completes commands and options")
    .addArgument(new Argument("<shell>", "your shell").choices(SHELLS))
    .action(async (shell: Shell) => {
      const all: Command[] = [];
      for (const load of Object.values(commands)) all.push((await load())(io));
      io.out(completionScript(shell, all));
    });
}
