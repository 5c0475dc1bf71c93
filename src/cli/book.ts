import { Command } from "commander";
import { systemPorts } from "../book/index.ts";
import type { Ports } from "../record/index.ts";
import { exchangeCommands } from "./book-exchange.ts";
import { keepingCommands } from "./book-keeping.ts";
import { recordCommands } from "./book-records.ts";
import type { Io } from "./io.ts";

/** `rodebench book …`: everything that is done to a book of records as a whole, and to its records one by one. */
export function bookCommand(io: Io, ports: Ports = systemPorts): Command {
  const command = new Command("book");
  for (const sub of [...keepingCommands(io, ports), ...recordCommands(io, ports), ...exchangeCommands(io, ports)])
    command.addCommand(sub);
  return command;
}
