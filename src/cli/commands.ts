import type { Command } from "commander";
import { bookCommand } from "./book.ts";
import { carryCommand } from "./carry.ts";
import { chooseCommand } from "./choose.ts";
import { findCommand } from "./find.ts";
import { gear } from "./gear.ts";
import type { Io } from "./io.ts";
import { ladderCommand } from "./ladder.ts";
import { logCommand } from "./log.ts";
import { matchCommand } from "./match.ts";
import { openCommand } from "./open.ts";
import { reduceCommand } from "./reduce.ts";
import { settleCommand } from "./settle.ts";
import { shockCommand } from "./shock.ts";
import { traceCommand } from "./trace.ts";
import { weather } from "./weather.ts";

/** Every command, in the order `--help` lists them; one file a command. */
export const commands: readonly ((io: Io) => Command)[] = [
  settleCommand,
  ladderCommand,
  findCommand,
  matchCommand,
  carryCommand,
  reduceCommand,
  traceCommand,
  weather,
  shockCommand,
  chooseCommand,
  logCommand,
  bookCommand,
  gear,
  openCommand,
];
