/** Figures of what a book keeps: the water of a series that is planned, where the sites lie, one pull as it went. */
import { Command } from "commander";
import type { Ports } from "../record/index.ts";
import type { BookFigureOptions } from "./book-figure-options.ts";
import { type FigureKind, figureKind } from "./figure-kind.ts";
import type { Io } from "./io.ts";

/** In the order `--help` lists them; the store is read when one is asked for. */
export function figuresOfBooks(io: Io, ports: Ports): FigureKind[] {
  const kind = figureKind<BookFigureOptions>;
  return [
    kind(
      new Command("water")
        .description("in which water each angle of a series can be had at each load")
        .argument("<series>", "series file, or a book that keeps one")
        .option("--series <name>", "of a book, which series")
        .option("--site <name>", "one of its sites (default: all)"),
      async ([path], options) => (await import("./figure-of-water.ts")).figureOfWater(path!, options, io, ports),
    ),
    kind(
      new Command("sites")
        .description("the sites of a book where they lie to one another: it tells places to the metre")
        .argument("<book>"),
      async ([path], options) => (await import("./figure-of-sites.ts")).figureOfSites(path!, options, io, ports),
    ),
    kind(
      new Command("one-pull")
        .description("a pull of a book as it went: load over time, its steps and marks, what it came to")
        .argument("<book>")
        .requiredOption("--pull <id>", "the pull: its id, or the end of it as lists show it"),
      async ([path], options) => (await import("./figure-of-one-pull.ts")).figureOfOnePull(path!, options, io, ports),
    ),
  ];
}
