/** What loads, surges and snubbers are asked with: the same for the answer of `shock` and the figure of its map. */
import { type Command, Option } from "commander";

/** The steady load. */
export const withSteady = (command: Command): Command =>
  command
    .option("--pull <load>", "the steady load that holds the boat")
    .option("--at <end>", "where it is stated: anchor, bow or horizontal");

/** What a snubber is made of, and the limits it is held against. */
export const withSnubber = (command: Command): Command =>
  command
    .option("--rope <fibre lay>", 'rope of a snubber (default: "polyamide three-strand")')
    .option("--slack <length>", "chain loop beside the snubber, longer than it by this much")
    .option("--bridle <beam,heading>", 'two legs: "2.4 m, 20 deg"; the other leg\'s length as a third where it differs')
    .option("--within", "hook down the rode; without: the rode out lies below the hook, snubber and loop on top")
    .option("--hook-mass <mass>", "mass of the hook")
    .addOption(new Option("--ends <how>", "ends of the rope").choices(["spliced", "knotted"]).default("spliced"))
    .option("--period <time>", "time of a cycle: of a --distance there and back, and for the heat of a snubber")
    .option("--peak-limit <load>", "most at the bow")
    .option("--rope-share <share>", "most of the rope's strength in use, wet and at its ends", "25 %")
    .option("--gear-share <share>", "most of the working load limits of chain, shackles and swivels", "100 %")
    .option("--hook-limit <load>", "working load limit of the hook")
    .option("--cleat-limit <load>", "working load limit of one cleat")
    .option("--angle-limit <angle>", "most at the anchor, above the bottom")
    .option("--loop-share <share>", "most of the peak in the chain loop: past it the snubber has bottomed out", "10 %");

/** What the boat does; each with its ± where that is asked for. */
export function withSurge(command: Command, uncertain: boolean): Command {
  const known = (flags: string, what: string): Command => {
    command.option(flags, what);
    const [, name, given] = /^--(\S+) (<.*)$/.exec(flags)!;
    return uncertain ? command.option(`--${name}-u ${given}`, "its standard uncertainty") : command;
  };
  known("--speed <speed>", "the boat surges away at this speed");
  known("--mass <mass>", "mass that moves, with added water");
  command.option("--boat <file>", "boat file (rodebench/boat@1) whose mass moves");
  known("--distance <distance>", "or the sea moves the boat this far to either side, whatever the rode does");
  return command.option(
    "--waves <height,period>",
    'or in a sea from ahead, such as "0.6 m, 3 s", which the rode may resist',
  );
}

/** What a bridle is asked with. */
export const withBridle = (command: Command): Command =>
  withSnubber(
    withSurge(withSteady(command), false).requiredOption("--snubber <diameter,length>", 'its legs: "14 mm, 9 m"'),
  );

/** What a map of snubbers is asked with; a surge by its speed, its distance or the sea. */
export const withSnubberMap = (command: Command): Command =>
  withSnubber(
    withSurge(withSteady(command), false).option(
      "--map <diameters,lengths>",
      "those drawn",
      "8..24/0.5 mm, 2..20/0.5 m",
    ),
  );
