import type { Command } from "commander";
import type { Io } from "./io.ts";

interface Listed {
  /** What it does, as `--help` tells it: here, so that the list is printed without a command read. */
  readonly about: string;
  readonly load: () => Promise<(io: Io) => Command>;
}

/**
 * Every command by its name, in the order `--help` lists them; one file a command. A command's file, and all it needs, is
 * read only when it is asked for: most of a short command's time would go into reading the others.
 */
export const commands: Readonly<Record<string, Listed>> = {
  settle: {
    about: "the equilibrium of a rode under a load at one end, or at a span",
    load: async () => (await import("./settle.ts")).settleCommand,
  },
  ladder: {
    about: "a rode over a series of loads: both ends, movement and work between them, stiffness",
    load: async () => (await import("./ladder.ts")).ladderCommand,
  },
  find: {
    about:
      "the length, depth, load, kellet mass or place that gives an anchor angle, lift-off, or a share of the working load",
    load: async () => (await import("./find.ts")).findCommand,
  },
  match: {
    about: "the length and scope at which another rode pulls its anchor at the same angle under the same load",
    load: async () => (await import("./match.ts")).matchCommand,
  },
  carry: {
    about:
      "readings of a stand-in rig as the loads of the rig it stands for, at the same angle to the bottom at the anchor",
    load: async () => (await import("./carry.ts")).carryCommand,
  },
  reduce: {
    about: "readings against theory: residuals, fitted unknowns, verdicts",
    load: async () => (await import("./reduce.ts")).reduceCommand,
  },
  trace: {
    about: "the log of one pull reduced: zero, plateaus, peaks, drags, cycles and the held load",
    load: async () => (await import("./trace.ts")).traceCommand,
  },
  compare: {
    about: "anchors compared by their pulls, most of which ended while the anchor held",
    load: async () => (await import("./compare.ts")).compareCommand,
  },
  weather: {
    about: "wind, current and sea to load on a boat, and load back to wind, each with its ±",
    load: async () => (await import("./weather.ts")).weather,
  },
  ride: {
    about: "a boat riding to her anchor in time: gusts, sea, sheering, and what they do to the loads",
    load: async () => (await import("./ride.ts")).rideCommand,
  },
  sweep: {
    about: "many rides from one file: every rig, boat, weather and seed, over all cores, to be gone on with",
    load: async () => (await import("./sweep.ts")).sweepCommand,
  },
  join: {
    about: "parts of a sweep put together into one Parquet file; parts of another file or version are refused",
    load: async () => (await import("./join.ts")).joinCommand,
  },
  shock: {
    about: "where the give of a rode comes from, where catenary fades, snatch loads, snubber and bridle",
    load: async () => (await import("./shock.ts")).shockCommand,
  },
  choose: {
    about: "rodes side by side: strength, give, angle, weight and room under a chosen wind, the ones none beats marked",
    load: async () => (await import("./choose.ts")).chooseCommand,
  },
  series: {
    about: "a series planned: what can be had, how many pulls, in which order, and the sheet to take along",
    load: async () => (await import("./series.ts")).seriesCommand,
  },
  log: {
    about: "load-cell logs (CSV), GPX, NMEA 0183, Signal K and time marks into a book, or shown as they would be",
    load: async () => (await import("./log.ts")).logCommand,
  },
  book: {
    about: "a book of records: make, list, change, undo, check, back up, restore, export, import, merge",
    load: async () => (await import("./book.ts")).bookCommand,
  },
  publish: {
    about: "what leaves the bench: a page that computes for whoever reads it, a report, open data",
    load: async () => (await import("./publish.ts")).publishCommand,
  },
  gear: {
    about: "the catalogue of chain, rope, wire and joints, each figure with its source",
    load: async () => (await import("./gear.ts")).gear,
  },
  open: {
    about: "the bench in a browser, on one book of records; ctrl-c closes it",
    load: async () => (await import("./open.ts")).openCommand,
  },
  completion: {
    about: "the script by which a shell completes commands and options",
    load: async () => {
      const { completionCommand } = await import("./completion.ts");
      return (io) => completionCommand(io, () => everyCommand(io));
    },
  },
  schema: {
    about: "the JSON Schema of a file or of an answer; without a name, the formats there are",
    load: async () => (await import("./schema.ts")).schemaCommand,
  },
};

/** The command of a name that is listed, whole: what it takes, and what it does. */
export async function commandNamed(name: string, io: Io): Promise<Command> {
  const { about, load } = commands[name]!;
  return (await load())(io).description(about);
}

/** All of them, whole, in their order: for what is made of every option there is. */
export async function everyCommand(io: Io): Promise<Command[]> {
  const all: Command[] = [];
  for (const name of Object.keys(commands)) all.push(await commandNamed(name, io));
  return all;
}
