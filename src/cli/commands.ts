import type { Command } from "commander";
import type { Io } from "./io.ts";

/**
 * Every command by its name, in the order `--help` lists them; one file a command. A command's file, and all it needs, is
 * read only when it is asked for: most of a short command's time would go into reading the others.
 */
export const commands: Readonly<Record<string, () => Promise<(io: Io) => Command>>> = {
  settle: async () => (await import("./settle.ts")).settleCommand,
  ladder: async () => (await import("./ladder.ts")).ladderCommand,
  find: async () => (await import("./find.ts")).findCommand,
  match: async () => (await import("./match.ts")).matchCommand,
  carry: async () => (await import("./carry.ts")).carryCommand,
  reduce: async () => (await import("./reduce.ts")).reduceCommand,
  trace: async () => (await import("./trace.ts")).traceCommand,
  compare: async () => (await import("./compare.ts")).compareCommand,
  weather: async () => (await import("./weather.ts")).weather,
  ride: async () => (await import("./ride.ts")).rideCommand,
  sweep: async () => (await import("./sweep.ts")).sweepCommand,
  join: async () => (await import("./join.ts")).joinCommand,
  shock: async () => (await import("./shock.ts")).shockCommand,
  choose: async () => (await import("./choose.ts")).chooseCommand,
  series: async () => (await import("./series.ts")).seriesCommand,
  log: async () => (await import("./log.ts")).logCommand,
  book: async () => (await import("./book.ts")).bookCommand,
  publish: async () => (await import("./publish.ts")).publishCommand,
  gear: async () => (await import("./gear.ts")).gear,
  open: async () => (await import("./open.ts")).openCommand,
  completion: async () => {
    const { completionCommand } = await import("./completion.ts");
    return (io) => completionCommand(io, commands);
  },
  schema: async () => (await import("./schema.ts")).schemaCommand,
};
