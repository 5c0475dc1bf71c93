/** Figures of pulls: by themselves, and of what is concluded from them. */
import { Command } from "commander";
import { anchorsInWind, angleCurves, anglesPulledAt, compare } from "../holding/index.ts";
import {
  chanceFigure,
  type FigureMade,
  heldFigure,
  holdingFigure,
  pullsFigure,
  usualInquiry,
} from "../publish/index.ts";
import { InputError, quoted } from "../quantity/index.ts";
import type { Ports } from "../record/index.ts";
import { rng } from "../statistics/index.ts";
import { chainsOf } from "./chains.ts";
import type { PullsRead } from "./compare-input.ts";
import { NoAnswer } from "./exit.ts";
import { type FigureKind, figureKind } from "./figure-kind.ts";
import type { Io } from "./io.ts";
import { placeOf, type Shown, seedFrom } from "./options.ts";

interface Given extends Shown {
  readonly series?: string;
  readonly anchor?: string;
  readonly boat?: string;
  readonly rig?: string;
  readonly wind?: string;
  readonly seed: string;
}

/** In the order `--help` lists them. */
export function figuresOfPulls(io: Io, ports: Ports): FigureKind[] {
  const kind = figureKind<Given>;
  const pulls = (name: string, what: string): Command =>
    new Command(name)
      .description(what)
      .argument("<pulls>", "book, table of pulls (CSV) or data package")
      .option("--series <name>", "of a book, the pulls of one series");
  const read = async (path: string, options: Given): Promise<PullsRead> =>
    (await import("./compare-input.ts")).pullsAt(path, io, ports, options);
  return [
    kind(pulls("pulls", "every pull by anchor"), async ([path], options) => {
      const { pulls: all, invented } = await read(path!, options);
      const anchors = [...new Set(all.map(({ anchor }) => anchor))].sort();
      return saying(invented, pullsFigure(all, anchors, options.units));
    }),
    kind(pulls("held", "chance to hold more than a load, by the pulls alone"), async ([path], options) => {
      const { pulls: all, invented } = await read(path!, options);
      return saying(invented, heldFigure(compare(all, { laws: [], permutations: 0 }, rng(1)).anchors, options.units));
    }),
    kind(
      seeded(pulls("holding", "load half the pulls hold, over the angle at the anchor, as concluded")),
      async ([path], options) => {
        const all = await read(path!, options);
        const found = await concluded(all, options, io);
        const most = anglesPulledAt(found.pulls)?.[1] ?? 0;
        const curves = angleCurves(
          found.posterior,
          found.conclusion,
          Array.from({ length: 41 }, (_, k) => (most * k) / 40),
        );
        if (curves.length === 0)
          throw new NoAnswer(`${placeOf(path!)}: the angles pulled at tell nothing of holding over the angle`);
        return saying(all.invented, holdingFigure(curves, anchorAmong(curves, options), options.units));
      },
    ),
    kind(
      seeded(pulls("chance", "chance that the largest load of a wind stays below what is held"))
        .requiredOption("--boat <file>", "the boat")
        .requiredOption("--rig <file>", "the rode she lies to")
        .requiredOption("--wind <from..to/step>", 'mean winds at 10 m, such as "10..40/2kn"'),
      async ([path], options) => {
        const wind = (await (await import("./compare-wind.ts")).windAsked(io, options))!;
        const all = await read(path!, options);
        const found = await concluded(all, options, io);
        const inWind = anchorsInWind(wind, found, seedFrom(options.seed));
        return saying(all.invented, chanceFigure(inWind, anchorAmong(inWind, options)));
      },
    ),
  ];
}

const saying = (invented: true | undefined, made: FigureMade): FigureMade =>
  invented === true ? { ...made, invented } : made;

function seeded(command: Command): Command {
  return command
    .option("--anchor <name>", "whose band is drawn (default: the first)")
    .option("--seed <number>", "seed of the draws", "1");
}

async function concluded(read: PullsRead, options: Given, io: Io) {
  const { inquired: found } = await usualInquiry(read.pulls, seedFrom(options.seed), chainsOf(io));
  if (found.kind !== "concluded")
    throw new NoAnswer("publish figure: the draws bear no conclusion; more pulls would give one");
  return found;
}

function anchorAmong(all: readonly { readonly anchor: string }[], { anchor }: Given): string {
  if (anchor === undefined) return all[0]!.anchor;
  if (!all.some((one) => one.anchor === anchor))
    throw new InputError(
      "--anchor",
      quoted(anchor),
      `one of ${all.map((one) => quoted(one.anchor)).join(", ")} is expected`,
    );
  return anchor;
}
