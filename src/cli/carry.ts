import { Command } from "commander";
import {
  type CarriedRow,
  type CarryOutcome,
  carry,
  carryFields,
  judgeShortCuts,
  type NotCarried,
  type WordedShortCut,
} from "../pull/index.ts";
import { formatQuantity, InputError, type UnitSystem } from "../quantity/index.ts";
import type { Rig } from "../rode/index.ts";
import {
  CAUTION,
  groundWord,
  noEquilibriumLine,
  notCarriedWords,
  shareOfDraws,
  wordedShortCut,
} from "../words/index.ts";
import type { Io } from "./io.ts";
import { answerJson, rigAt, type Shown, shown } from "./options.ts";
import { workLine } from "./progress.ts";
import { remarkFields, remarkText } from "./remarks.ts";
import { runAt } from "./run-input.ts";
import { textTable, wrapped } from "./text-table.ts";
import { valueText } from "./uncertain-text.ts";

interface Options extends Shown {
  readonly to?: string;
}

export function carryCommand(io: Io): Command {
  return shown(
    new Command("carry")
      .argument("<run>", "run file (rodebench/run@1); - for standard input")
      .option("--to <rig>", "rig file of the rig it stands for"),
  ).action(async (path: string, options: Options) => {
    if (options.to === undefined)
      throw new InputError("--to", "", "the rig file of the rig that the run stands for is expected");
    if (path === "-" && options.to === "-")
      throw new InputError("--to", "-", "a file is expected: standard input holds the run");
    const { run, rig } = await runAt(path, io);
    const to = await rigAt(options.to, io);
    const line = workLine("how sure the loads are", io);
    const outcome = carry(run, rig, to, 1, line.show);
    line.end();
    const verdicts = judgeShortCuts(run, rig, to, outcome.rows).map(wordedShortCut);
    if (options.json)
      answerJson(io, {
        format: "rodebench/carried@1",
        ...carryFields(outcome, verdicts, notCarriedWords),
        ...remarkFields(rig, to),
      });
    else
      io.out(
        `${run.name}: ${rig.name}, read at the ${run.loadCellAt}, stands for ${to.name}\n${carriedText(outcome, verdicts, { units: options.units, rig, to })}${remarkText(options.units, rig, to)}\n${CAUTION}\n`,
      );
  });
}

interface Between {
  readonly units: UnitSystem;
  readonly rig: Rig;
  readonly to: Rig;
}

function carriedText(outcome: CarryOutcome, verdicts: readonly WordedShortCut[], { units, rig, to }: Between): string {
  const onLand = rig.setting.medium === "air" && to.setting.medium === "air";
  const force = (value: number) => formatQuantity(value, "force", { system: units });
  // What a short cut adds is set beside an uncertainty, no more: two figures, and below a hundredth of the ± it is nothing.
  const least = Math.min(...outcome.rows.flatMap(({ u }) => (u === null ? [] : [u.bow]))) / 100;
  const rough = (value: number) =>
    Math.abs(value) < least ? "nothing" : formatQuantity(value, "force", { system: units, digits: 2 });
  const cell = (row: CarriedRow, end: "anchor" | "bow") =>
    `${row.says === "atMost" ? "up to " : ""}${valueText(row[end], "force", units, row.u?.[end], row.spread?.[end])}`;
  const table = textTable(
    ["read", `angle to ${groundWord(onLand ? "air" : "water")}`, "at the anchor", "at the bow"],
    outcome.rows.map((row) => [
      force(row.read),
      formatQuantity(row.angleToBottom, "angle", { system: units, digits: 3 }),
      cell(row, "anchor"),
      cell(row, "bow"),
    ]),
  );
  const names = (outcome.rows[0]?.sources ?? []).map((source) => source.name);
  const assumed =
    outcome.assumedLoadShare === null
      ? ""
      : `The run states no uncertainty of its loads: ${percent(outcome.assumedLoadShare)} of each is taken.\n`;
  const shares = `\nWhere the uncertainty at the bow comes from, share of its square\n${textTable(
    ["read", ...names],
    outcome.rows.map((row) => [
      force(row.read),
      ...(row.u === null
        ? [`not known: beside the estimate of ${row.cannotMove ?? "either rig"} there is no equilibrium`]
        : row.sources.map((source) => percent(source.share))),
    ]),
  )}`;
  const not = outcome.notCarried
    .map(({ read, cause }) => `${force(read)} is not carried: ${whyNot(cause, units, rig)}\n`)
    .join("");
  const short =
    verdicts.length === 0
      ? ""
      : `\nShort cuts, and what each would add at the bow\n${verdicts.map((verdict) => `${wrapped(`${verdict.simplification}: ${range(verdict, rough)}; ${verdict.says}`, 2, 4)}\n`).join("")}`;
  return `${table}${spreadLines(outcome, table, force)}${not}${assumed}${outcome.rows.length === 0 ? "" : shares}${short}`;
}

/** What the draws say beside the table: what brackets are, where the stand-in's anchor may not lift, draws without an answer. */
function spreadLines({ rows }: CarryOutcome, table: string, force: (value: number) => string): string {
  const brackets = /\([^)]*\d[^)]*\)|no bounds/.test(table)
    ? "In brackets where 95 of 100 draws of what is not known lie.\n"
    : "";
  const each = rows.flatMap(({ read, spread }) => {
    if (spread === null) return [];
    const { draws, without, lifted } = spread;
    const some = without > 0 ? `${shareOfDraws(without, draws)} draws have no equilibrium at that angle` : "";
    const level =
      lifted < draws - without ? `the stand-in's anchor is lifted in ${shareOfDraws(lifted, draws)} draws only` : "";
    const said = [some, level].filter((text) => text !== "").join("; ");
    return said === "" ? [] : [`${force(read)}: ${said}\n`];
  });
  return `${brackets}${each.join("")}`;
}

function whyNot(cause: NotCarried["cause"], units: UnitSystem, rig: Rig): string {
  const line = cause.kind === "noSuchAngle" ? "" : `: ${noEquilibriumLine(cause.none, units, rig.setting.medium)}`;
  return `${notCarriedWords(cause)}${line}`;
}

function range(verdict: WordedShortCut, force: (value: number) => string): string {
  const sizes = verdict.effects.map((effect) => effect.size);
  const [low, high] = [Math.min(...sizes), Math.max(...sizes)];
  return force(low) === force(high) ? force(low) : `${force(low)} to ${force(high)}`;
}

function percent(share: number): string {
  return `${Math.round(100 * share)} %`;
}
