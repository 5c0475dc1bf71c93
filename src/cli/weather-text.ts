/** The text answers of `weather`. */
import {
  formatQuantity,
  inUnit,
  roundToUncertainty,
  significant,
  type UnitSystem,
  unitFor,
} from "../quantity/index.ts";
import {
  assumptions,
  type Boat,
  type Calibration,
  type Conditions,
  designLoadTables,
  disagreements,
  type Estimate,
  inertiaOf,
  type LoadLaw,
  type Measured,
  roadsBeside,
  type Shared,
  tablesBeside,
  type Weather,
  type WindForLoad,
  type WindsForLoad,
} from "../sea/index.ts";
import { assumptionLine, PLANNING_CAUTION, roadsSentence, tablesSentence } from "../words/index.ts";
import { wrapped } from "./text-table.ts";

type Show = ReturnType<typeof shower>;

export function weatherText(
  boat: Boat,
  answer: Weather,
  conditions: Conditions,
  engine: WindsForLoad | undefined,
  system: UnitSystem,
  speeds?: string,
): string {
  const show = shower(system, speeds);
  const lines = [
    `${boat.name} in a mean wind of ${show.speed(answer.wind)} at 10 m: Beaufort ${answer.beaufort.force}, ${answer.beaufort.name}`,
  ];
  lines.push(...windageLines(answer, conditions, show));
  for (const { at, calibration, mean, peak } of answer.measured) {
    lines.push("", measuredHead(at, calibration));
    lines.push(row("mean", `${show.force(mean)}, ${show.band(mean, "force")}`));
    lines.push(row("", `a new reading: ${show.range(mean.newReading, mean.u, "force")}`));
    if (peak !== undefined) lines.push(row("brief peaks", `${show.force(peak)}, ${show.band(peak, "force")}`));
  }
  if (answer.windage === undefined && answer.measured.length === 0) {
    lines.push("", "the boat file states neither windage nor measured points: only the tables below speak of load");
  }
  const units = { system, speed: speeds };
  for (const one of roadsBeside(answer)) lines.push("", wrapped(roadsSentence(one, units), 0, 0));
  const { current, surge } = answer;
  if (current !== undefined) {
    lines.push("", "Current alone");
    lines.push(row("along, across", `${show.plain(current.along, "force")}, ${show.plain(current.across, "force")}`));
    lines.push(
      row("", `along: form ${show.plain(current.form, "force")}, friction ${show.plain(current.friction, "force")}`),
    );
  }
  if (surge !== undefined) {
    lines.push("", "Surge of the bow in the sea, without the rode's pull");
    lines.push(
      row(
        "amplitude",
        `highest third ${show.plain(surge.significantAmplitude, "length")}, largest of ${surge.waves} ${show.plain(surge.largestAmplitude, "length")}`,
      ),
    );
    lines.push(
      row(
        "",
        `largest speed ${show.plain(surge.largestSpeed, "speed")}, a stroke and back in ${show.plain(surge.period, "time")}`,
      ),
    );
  }
  if (engine !== undefined) {
    lines.push("", `Full engine thrust, ${show.force(engine.load)}, is worth a mean wind of`);
    lines.push(...worthLines(engine, show));
  }
  lines.push(
    ...tableLines(answer, show, units),
    ...inertiaLines(boat),
    ...assumedLines(boat, conditions),
    "",
    PLANNING_CAUTION,
  );
  return `${lines.join("\n")}\n`;
}

export function windForLoadText(
  boat: Boat,
  answer: WindsForLoad,
  conditions: Conditions,
  system: UnitSystem,
  speeds?: string,
): string {
  const show = shower(system, speeds);
  const lines = [`${boat.name}: a load of ${show.force(answer.load)} is worth a mean wind at 10 m of`];
  lines.push(...worthLines(answer, show), ...assumedLines(boat, conditions), "", PLANNING_CAUTION);
  return `${lines.join("\n")}\n`;
}

function windageLines({ windage, gust }: Weather, { gust: asked, veering, yaw }: Conditions, show: Show): string[] {
  if (windage === undefined) return [];
  const lines = [
    "",
    `By windage, horizontal at the bow${yaw === 0 ? "" : `, wind ${show.plain(Math.abs(yaw), "angle")} off it`}`,
  ];
  lines.push(row("steady", `${show.force(windage.steady)}, ${show.band(windage.steady, "force")}`));
  if (windage.gust !== undefined && gust !== undefined && asked !== undefined) {
    lines.push(
      row(
        `gust of ${show.plain(asked.duration, "time")}`,
        `${show.force(windage.gust)}, ${show.band(windage.gust, "force")}`,
      ),
    );
    lines.push(
      row("", `${modelName(gust.model)}: ${show.wind(gust.speed)}, ${significant(gust.factor, 3)} of the mean`),
    );
  }
  if (windage.veered !== undefined && veering !== undefined) {
    const { mean, largest, relativeU, at, bowSpeed } = windage.veered;
    const loads = [mean, largest].map((value) => show.force({ value, u: value * relativeU }));
    lines.push(
      row(
        "swinging",
        `mean ${loads[0]}, largest ${loads[1]} at ${show.plain(Math.abs(at), "angle")}${windage.gust === undefined ? "" : ", in the gust"}`,
      ),
    );
    lines.push(
      row(
        "",
        `${show.plain(veering.amplitude, "angle")} either side in ${show.plain(veering.period, "time")}, the bow crossing at ${show.plain(bowSpeed, "speed")}`,
      ),
    );
  }
  lines.push(row("± comes from", sharesText(windage.steady)));
  return lines;
}

function worthLines(answer: WindsForLoad, show: Show): string[] {
  const lines: string[] = [];
  if (answer.windage !== undefined) lines.push(row("by windage", windWorthText(answer.windage, show, "steady load")));
  if (answer.windageInGust !== undefined)
    lines.push(row("", windWorthText(answer.windageInGust, show, "load in the gust")));
  for (const { at, calibration, mean, peak } of answer.measured) {
    lines.push(
      row(`by ${points(calibration)}`, `${show.speed(mean)}, ${show.band(mean, "speed")}, mean load ${endText(at)}`),
    );
    if (peak !== undefined)
      lines.push(row("", `${show.speed(peak)}, ${show.band(peak, "speed")}, brief peaks ${endText(at)}`));
  }
  if (lines.length === 0) lines.push("  unknown: the boat file states neither windage nor measured points");
  return lines;
}

function windWorthText(answer: WindForLoad, show: Show, what: string): string {
  switch (answer.kind) {
    case "wind":
      return `${show.speed(answer.wind)}, ${show.band(answer.wind, "speed")}, ${what}`;
    case "currentAlone":
      return `no wind: the current alone pulls ${show.plain(answer.load, "force")}`;
    case "noWindage":
      return "no wind: the windage stated meets none from this angle";
  }
}

function measuredHead(at: "anchor" | "bow" | "horizontal", calibration: Calibration): string {
  return `By ${points(calibration)} ${endText(at)}: ${lawText(calibration.mean)}`;
}

function points({ points: list }: Calibration): string {
  return list.length === 1 ? "1 measured point" : `${list.length} measured points`;
}

function endText(at: "anchor" | "bow" | "horizontal"): string {
  return at === "horizontal" ? "horizontal at the bow" : `at the ${at}`;
}

function lawText({ exponent, exponentFrom }: LoadLaw): string {
  const { value, u } = roundToUncertainty(exponent.value, exponent.u);
  return exponentFrom === "fitted"
    ? `exponent ${value} ± ${u}, fitted`
    : `square law, exponent ${u === "0" ? "2" : `${value} ± ${u}`}`;
}

function tableLines(
  { tables, measured, wind }: Weather,
  show: Show,
  units: { readonly system: UnitSystem; readonly speed?: string | undefined },
): string[] {
  if (tables.length === 0) return [];
  const lines = ["", "Published design loads, beside and not part of the above (they hold yaw, surge and margin)"];
  for (const { table, row: line } of tables) {
    const loads = line.loads.map(({ wind, load }) => `${show.wind(wind)} ${show.plain(load, "force")}`);
    lines.push(wrapped(`${table.name}, row of ${show.plain(line.length, "length")}: ${loads.join(", ")}`, 2, 4));
    lines.push(wrapped(table.source, 4, 4));
  }
  const rows = new Set(tables.map(({ row: line }) => line.length));
  for (const found of disagreements(designLoadTables).filter(({ length }) => rows.has(length))) {
    const sides =
      found.about === "load"
        ? found.printed.map(({ name, load }) => `${show.plain(load, "force")} (${name})`)
        : found.printed.map(({ name, wind }) => `${show.wind(wind)} (${name})`);
    const at = found.about === "load" ? show.wind(found.wind) : show.plain(found.load, "force");
    lines.push(wrapped(`they disagree at ${at}: ${sides.join(", ")}`, 2, 4));
  }
  const beside = tablesBeside(measured, tables, wind.value);
  if (beside !== undefined) lines.push(wrapped(tablesSentence(beside, units), 2, 2));
  return lines;
}

function inertiaLines(boat: Boat): string[] {
  const { surge, sway, yaw } = inertiaOf(boat);
  const mass = (value: number): string => `${significant(value / 1000, 2)} t`;
  return [
    "",
    `Guessed inertia: surge ${mass(surge.value)}, sway ${mass(sway.value)}, yaw ${significant(yaw.value / 1000, 2)} t·m²`,
  ];
}

function assumedLines(boat: Boat, conditions: Conditions): string[] {
  const said = assumptions(boat, conditions).map(assumptionLine);
  return said.length === 0 ? [] : ["", `Assumed (standard uncertainties): ${said.join("; ")}`];
}

function sharesText({ shares }: Shared): string {
  const told = shares.filter(({ share }) => share >= 0.005).sort((a, b) => b.share - a.share);
  return told.map(({ name, share }) => `${name} ${Math.round(100 * share)} %`).join(", ");
}

function modelName(model: NonNullable<Weather["gust"]>["model"]): string {
  switch (model.kind) {
    case "froya":
      return "NPD / Frøya";
    case "kaimal":
      return `Kaimal, IEC 61400-1 class ${model.turbulence}`;
    case "ochi-shin":
      return "Ochi & Shin";
  }
}

function row(label: string, text: string): string {
  return wrapped(`${label.padEnd(20)} ${text}`, 2, 23);
}

/** @param speeds the unit of winds; the system's own without it */
function shower(system: UnitSystem, speeds?: string) {
  const unitOf = (dimension: "force" | "speed") =>
    dimension === "speed" && speeds !== undefined ? { unit: speeds } : {};
  const plain = (value: number, dimension: "force" | "speed" | "length" | "time" | "angle"): string =>
    formatQuantity(value, dimension, { system, digits: 3 });
  const withU = (dimension: "force" | "speed") => (m: Measured) =>
    m.u === 0
      ? formatQuantity(m.value, dimension, { system, digits: 4, ...unitOf(dimension) })
      : formatQuantity(m.value, dimension, { system, u: m.u, ...unitOf(dimension) });
  // A band's ends are shown to the place of the u that made them.
  const range = ({ low, high }: { low: number; high: number }, u: number, dimension: "force" | "speed"): string => {
    const unit = unitFor(dimension, system, unitOf(dimension).unit);
    const to = (value: number): string =>
      u === 0
        ? significant(inUnit(value, unit, dimension))
        : roundToUncertainty(inUnit(value, unit, dimension), inUnit(u, unit, dimension)).value;
    return `${to(low)} to ${to(high)} ${unit}`;
  };
  return {
    plain,
    wind: (value: number): string => formatQuantity(value, "speed", { system, digits: 3, ...unitOf("speed") }),
    force: withU("force"),
    speed: withU("speed"),
    range,
    band: (e: Estimate, dimension: "force" | "speed"): string => `95 %: ${range(e, e.u, dimension)}`,
  };
}
