/** A kind of figure `publish figure` can draw. */
import type { Command } from "commander";
import type { FigureMade } from "../publish/index.ts";
import type { Shown } from "./options.ts";

/** Its command, without what is asked of the sheet, and how it is made of what was given. */
export interface FigureKind {
  readonly command: Command;
  readonly make: (paths: readonly string[], options: Shown) => Promise<FigureMade>;
}

/** @param make is given the options its own command states, besides those of every answer */
export function figureKind<Given extends Shown>(
  command: Command,
  make: (paths: readonly string[], options: Given) => Promise<FigureMade>,
): FigureKind {
  return { command, make: (paths, options) => make(paths, options as Given) };
}
