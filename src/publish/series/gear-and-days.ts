/** What was pulled with, where and in what weather: anchors, rigs to scale, days. */
import { drawRode } from "../../figure/index.ts";
import { formatQuantity } from "../../quantity/index.ts";
import { certaintyOf, settleTraced } from "../../rode/index.ts";
import { setupsOfPulls } from "../page/setups.ts";
import { type Cell, figure, section, table } from "../report/page.ts";
import type { SeriesReport } from "./series.ts";

const number = (says: string): Cell => ({ says, number: true });

/** Anchors, and each rig drawn to scale under the load of its hardest pull. */
export function gear({ compared, cases, evidence, units }: SeriesReport): string {
  const shapes = new Map(
    cases.flatMap(({ anchor }) => (anchor === null ? [] : [[anchor.name ?? "", anchor.shape ?? ""]])),
  );
  const anchors = table(
    "The anchors.",
    [{ says: "anchor" }, { says: "shape" }, number("mass"), number("fluke area")],
    compared.anchors.map(({ anchor, mass, flukeArea }) => ({
      cells: [
        { says: anchor },
        { says: shapes.get(anchor) ?? "" },
        number(mass === undefined ? "not stated" : formatQuantity(mass, "mass", { system: units, digits: 3 })),
        number(
          flukeArea === undefined ? "not stated" : formatQuantity(flukeArea, "area", { system: units, digits: 3 }),
        ),
      ],
    })),
  );
  const rigs = setupsOfPulls(evidence).flatMap(({ rig, load, at }) => {
    const pull = { at, newtons: load } as const;
    const traced = settleTraced(rig, pull);
    if (!("settled" in traced)) return [];
    const drawn = drawRode({
      rig,
      traced,
      certainty: certaintyOf(rig, pull),
      units,
      loadCellAt: at === "horizontal" ? "bow" : at,
    });
    const force = formatQuantity(load, "force", { system: units, digits: 3 });
    return [figure(drawn.svg, `${rig.name} as it lay in its hardest pull, ${force} read at the ${at}.`)];
  });
  return section("What was pulled with", anchors, ...rigs);
}

/** Days with their weather; nothing of who was there. */
export function days({ cases, units }: SeriesReport): string {
  const seen = new Map(cases.flatMap(({ day, site }) => (day === null ? [] : [[day.id, { day, site }] as const])));
  if (seen.size === 0) return "";
  const speed = (value: number | null): Cell =>
    number(value === null ? "" : formatQuantity(value, "speed", { unit: "kn", digits: 2 }));
  const rows = [...seen.values()]
    .sort((a, b) => ((a.day.date ?? "") < (b.day.date ?? "") ? -1 : 1))
    .map(({ day, site }) => ({
      cells: [
        { says: day.date ?? "" },
        { says: site?.name ?? "" },
        speed(day.wind_m_per_s),
        speed(day.gust_m_per_s),
        { says: day.weather ?? "" },
        { says: day.tide ?? "" },
        number(
          day.waterLevel_m === null ? "" : formatQuantity(day.waterLevel_m, "length", { system: units, digits: 2 }),
        ),
      ],
    }));
  const head = ["day", "site", "wind", "gust", "weather", "tide", "level"].map((says, i) => ({
    says,
    number: [2, 3, 6].includes(i),
  }));
  return section("Days and weather", table("As the tester noted them.", head, rows));
}
