import { Command } from "commander";
import { systemPorts } from "../book/index.ts";
import type { Ports } from "../record/index.ts";
import type { Io } from "./io.ts";
import { publishCheckCommand, publishDataCommand } from "./publish-data.ts";
import { publishPageCommand } from "./publish-page.ts";
import { publishReportCommand } from "./publish-report.ts";

/** `rodebench publish …`: what leaves the bench. */
export function publishCommand(io: Io, ports: Ports = systemPorts): Command {
  return new Command("publish")
    .addCommand(publishPageCommand(io, ports))
    .addCommand(publishReportCommand(io, ports))
    .addCommand(publishDataCommand(io, ports))
    .addCommand(publishCheckCommand(io));
}
