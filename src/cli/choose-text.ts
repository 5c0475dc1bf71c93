/** The text answer of `choose`. */
import { type Dimension, formatQuantity, significant, type UnitSystem } from "../quantity/index.ts";
import { type Choice, facts, type LimitWind, type Plan, type Weighed } from "../sizing/index.ts";
import {
  CAUTION,
  complianceShown,
  complianceUnit,
  criterionWords,
  notWeighedLine,
  planLimitWords,
} from "../words/index.ts";
import { surgeText } from "./surge-text.ts";
import { textTable } from "./text-table.ts";

type Show = (value: number, dimension: Dimension, u?: number, unit?: string) => string;

export function choiceText(plan: Plan, choice: Choice, units: UnitSystem): string {
  const show: Show = (value, dimension, u, unit) =>
    formatQuantity(value, dimension, {
      system: units,
      digits: 3,
      ...(u !== undefined && u > 0 ? { u } : {}),
      ...(unit === undefined ? {} : { unit }),
    });
  const lines = [
    plan.name,
    loadLine(plan, choice, show),
    "",
    sideBySide(choice, plan, show, units).trimEnd(),
    ...remarks(choice, units),
    ...windTable(choice, show, units),
    "",
    `Assumed: ${assumed(plan)}`,
    "",
    CAUTION,
  ];
  return `${lines.join("\n")}\n`;
}

function loadLine(plan: Plan, { load }: Choice, show: Show): string {
  const end = load.at === "horizontal" ? "horizontal at the bow" : `at the ${load.at}`;
  const peak = load.peaked ? `, brief peaks ${show(load.peak.value, "force", load.peak.u)}` : "";
  const from =
    plan.load.kind === "wind"
      ? `${plan.load.boat.name} in ${show(plan.load.wind.value, "speed", plan.load.wind.u, "kn")} by ${plan.load.by === "measured" ? "its measured points" : "its windage"}: `
      : "";
  return `${from}mean load ${show(load.mean.value, "force", load.mean.u)}${peak}, ${end}${plan.surge === undefined ? "" : `; ${surgeText(plan.surge, surgeU(plan), show)}`}`;
}

const surgeU = ({ surge, surgeU = 0 }: Plan) => (surge?.kind === "speed" ? { speed: surgeU } : { distance: surgeU });

/** A row a question, a column a candidate: names are long, numbers short. */
function sideBySide({ candidates, notBeaten, limitWinds }: Choice, plan: Plan, show: Show, units: UnitSystem): string {
  const weighed = (read: (one: Weighed) => string) => (one: Choice["candidates"][number]) =>
    one.kind === "weighed" ? read(one) : "";
  const share = (value: number | null) => (value === null ? "unknown" : `${Math.round(100 * value)} %`);
  const heap = units === "us" ? "ft³" : "L";
  const rows: [string, (one: Choice["candidates"][number]) => string][] = [
    ["peak at the bow", weighed((one) => show(one.peak.bow.tension, "force", one.u?.peak))],
    ["  comes from", weighed((one) => ({ mean: "mean load", peaks: "brief peaks", surge: "surge" })[one.peakFrom])],
    ["of working load limit", weighed((one) => share(one.workingLoad))],
    ["  in part", weighed((one) => (one.weakest === null ? "" : String(one.weakest.part)))],
    ["of breaking load", weighed((one) => share(one.breakingLoad))],
    ["of strength in use", weighed((one) => share(one.inUse?.share ?? null))],
    ["  in part", weighed((one) => String(one.inUse?.part ?? ""))],
    ["of snubber's strength", weighed((one) => (one.ropeShare === null ? "" : share(one.ropeShare)))],
    ["angle to bottom, mean", weighed((one) => show(one.mean.anchor.angleToBottom, "angle"))],
    ["  at the peak", weighed((one) => show(one.peak.anchor.angleToBottom, "angle", one.u?.anchorAngle))],
    ["on the bottom, mean", weighed((one) => show(one.mean.grounded, "length"))],
    ["moves to the peak", weighed((one) => (one.give === null ? "" : show(one.give.movement, "length")))],
    ["  by weight raised", weighed((one) => weightShare(one))],
    ["takes up", weighed((one) => (one.give === null ? "" : show(one.give.work, "energy")))],
    ["gives at the mean", weighed((one) => (one.perLoad === null ? "" : perLoad(one.perLoad.whole, show, units)))],
    ["span at the peak", weighed((one) => show(one.peak.span, "length", one.u?.span))],
    ["± not known for", weighed((one) => one.cannotMove ?? "")],
    ["weight", (one) => show(one.stowed.weight, "mass")],
    ["in the locker", (one) => show(one.stowed.volume.value, "volume", one.stowed.volume.u, heap)],
    ["price", weighed((one) => (one.price === null ? "" : significant(one.price, 6)))],
    ["first limit reached in", (one) => limitText(limitWinds[candidates.indexOf(one)], show)],
    ["past", weighed((one) => one.passed.map((limit) => planLimitWords[limit]).join(", "))],
  ];
  const marks = candidates.map((one, i) =>
    one.kind === "notWeighed" ? "none" : notBeaten.includes(i) ? "none better" : "",
  );
  const shownRows = rows.filter(([, read]) => candidates.some((one) => read(one) !== ""));
  const numbered = candidates.map((_, i) => String(i + 1));
  const names = candidates
    .map((one, i) => `  ${i + 1}  ${one.name}${marks[i] === "" ? "" : ` (${marks[i]})`}\n`)
    .join("");
  const table = textTable(
    ["", ...numbered],
    shownRows.map(([label, read]) => [label.padEnd(22), ...candidates.map(read)]),
  );
  return `${names}\n${table}${plan.currency === undefined ? "" : `prices in ${plan.currency}\n`}`;
}

function limitText(limit: LimitWind | undefined, show: Show): string {
  if (limit === undefined) return "";
  const wind = show(limit.wind, "speed", undefined, "kn");
  return { reached: wind, beyond: `over ${wind}`, always: "in any" }[limit.kind];
}

function weightShare({ give }: Weighed): string {
  if (give === null || !(give.movement > 0)) return "";
  return `${Math.round((100 * (give.shares.lifting.movement + give.shares.kellet.movement)) / give.movement)} %`;
}

function remarks({ candidates, notBeaten, criteria }: Choice, units: UnitSystem): string[] {
  const lines = [""];
  const by = criteria.map((criterion) => criterionWords[criterion]).join(", ");
  lines.push(
    notBeaten.length > 0
      ? `None better: within every limit, and no other such is better in one and as good in all of ${by}`
      : `None is within every limit, so none is marked (compared by ${by})`,
  );
  for (const [i, one] of candidates.entries())
    if (one.kind === "notWeighed") lines.push(`  ${i + 1}  no answer: ${notWeighedLine(one.why, units)}`);
  return lines;
}

function windTable({ table, candidates }: Choice, show: Show, units: UnitSystem): string[] {
  if (table.length === 0) return [];
  const numbered = candidates.map((_, i) => String(i + 1));
  const first = table.some(({ wind }) => wind !== undefined) ? "wind" : "load";
  const heads = (wind: number | undefined, load: number) => [
    wind === undefined ? show(load, "force") : show(wind, "speed", undefined, "kn"),
    ...(first === "wind" ? [show(load, "force")] : []),
  ];
  const block = (title: string, read: (cell: NonNullable<Choice["table"][number]["cells"][number]>) => string) => [
    "",
    title,
    textTable(
      [first, ...(first === "wind" ? ["load"] : []), ...numbered],
      table.map(({ wind, load, cells }) => [
        ...heads(wind, load),
        ...cells.map((cell) => (cell === null ? "none" : read(cell))),
      ]),
    ).trimEnd(),
  ];
  const scaled = (give: number) => significant(complianceShown(give, units), 3);
  return [
    ...block(`Give of catenary at each ${first}, ${complianceUnit[units]}`, (cell) => scaled(cell.weight)),
    ...block(`All the give, ${complianceUnit[units]}`, (cell) => scaled(cell.whole)),
    ...block("Angle to the bottom at the anchor", (cell) => show(cell.anchorAngle, "angle")),
  ];
}

function perLoad(give: number, show: Show, units: UnitSystem): string {
  return units === "us" ? `${show(give * 444.82216152605, "length")}/100 lbf` : `${show(give * 1000, "length")}/kN`;
}

function assumed({ surge, candidates }: Plan): string {
  const { chainSolid, ropeSolid } = facts.locker;
  const said = [
    `${Math.round(100 * chainSolid.value)} % of a heap of chain is metal, ${Math.round(100 * ropeSolid.value)} % of one of rope is rope`,
  ];
  if (surge !== undefined)
    said.push("the rode as a spring without mass or drag of its own, nothing lost on the way up");
  if (candidates.some(({ snubber }) => snubber !== undefined)) said.push("snubbers wet, worked in");
  return said.join("; ");
}
