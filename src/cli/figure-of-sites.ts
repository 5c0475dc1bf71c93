import { type FigureMade, type SiteDrawn, sitesFigure } from "../publish/index.ts";
import type { Ports } from "../record/index.ts";
import type { BookFigureOptions } from "./book-figure-options.ts";
import { withBook } from "./book-with.ts";
import { NoAnswer } from "./exit.ts";
import type { Io } from "./io.ts";
import { placeOf } from "./options.ts";

/** The sites of a book that have a place, as a figure. @throws NoAnswer where none has */
export function figureOfSites(path: string, options: BookFigureOptions, io: Io, ports: Ports): Promise<FigureMade> {
  return withBook(io, ports, path, options, (book) => {
    const days = book.list("day");
    const sites = book.list("site").flatMap(({ id, name, latitude_deg, longitude_deg }): SiteDrawn[] =>
      typeof latitude_deg === "number" && typeof longitude_deg === "number"
        ? [
            {
              ...{ name: name ?? "", latitude: latitude_deg, longitude: longitude_deg },
              days: days.filter(({ site }) => site === id).length,
            },
          ]
        : [],
    );
    if (sites.length === 0)
      throw new NoAnswer(`${placeOf(path)}: no site has a latitude and a longitude; one that has would give a map`);
    const { title, simulated } = book.about();
    return { ...sitesFigure(title ?? "", sites, options.units), invented: simulated === true };
  });
}
