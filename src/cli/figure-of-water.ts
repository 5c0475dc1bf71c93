import { resolve } from "node:path";
import { lookAtBook } from "../book/index.ts";
import { type FigureMade, waterFigure } from "../publish/index.ts";
import { InputError, quoted } from "../quantity/index.ts";
import type { Ports } from "../record/index.ts";
import { planSeries } from "../series/index.ts";
import type { BookFigureOptions } from "./book-figure-options.ts";
import { isBook } from "./compare-input.ts";
import type { Io } from "./io.ts";
import { seriesAt } from "./series-input.ts";

/** In which water the angles of a series can be had, as a figure. @throws what `series` throws; InputError for a site it has not */
export async function figureOfWater(
  path: string,
  options: BookFigureOptions,
  io: Io,
  ports: Ports,
): Promise<FigureMade> {
  const { series, table } = planSeries(await seriesAt(path, io, ports, options));
  const sites = options.site === undefined ? series.sites : series.sites.filter(({ name }) => name === options.site);
  if (sites.length === 0)
    throw new InputError(
      "--site",
      quoted(options.site),
      `one of ${series.sites.map(({ name }) => quoted(name)).join(", ")} is expected`,
    );
  const made = waterFigure(series.name, sites, table, options.units);
  const file = resolve(io.cwd, path);
  return path !== "-" && isBook(file) ? { ...made, invented: lookAtBook(file).simulated } : made;
}
