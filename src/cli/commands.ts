import type { Command } from "commander";
import type { Io } from "./io.ts";

/** Every command, in the order `--help` lists them; one file a command. */
export const commands: readonly ((io: Io) => Command)[] = [];
