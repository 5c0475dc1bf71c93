/** The sites of a book where they lie to one another. */
import { drawSites, placeText } from "../../figure/index.ts";
import type { UnitSystem } from "../../quantity/index.ts";
import { countText } from "../../words/index.ts";
import type { FigureMade } from "./made.ts";

/** A site with where it lies, degrees, and how many days were pulled there. */
export interface SiteDrawn {
  readonly name: string;
  readonly latitude: number;
  readonly longitude: number;
  readonly days: number;
}

/** A map of sites, north up; it tells where they lie as nearly as the book does. @param book its title */
export function sitesFigure(book: string, sites: readonly SiteDrawn[], units: UnitSystem): FigureMade {
  const title = book === "" ? "Map of the sites" : `Map of the sites: ${book}`;
  return {
    title,
    uncertain:
      "Places as the book has them, no ± stated with them; to scale about their middle, without land and depths: no chart.",
    draw: (width, height) =>
      drawSites({
        title,
        description: `${countText(sites.length, "site", "sites")}, north up: ${sites
          .map(
            (site) =>
              `${site.name}, ${placeText(site.latitude, "latitude")}, ${placeText(site.longitude, "longitude")}`,
          )
          .join("; ")}.`,
        sites: sites.map((site) => ({ ...site, line: countText(site.days, "day", "days") })),
        units,
        width: Math.round(width),
        height: Math.max(260, Math.round(height)),
      }),
    table: {
      columns: ["site", "latitude, deg", "longitude, deg", "days"],
      rows: sites.map(({ name, latitude, longitude, days }) => [name, latitude, longitude, days]),
    },
  };
}
