import { Command } from "commander";
import { type CarryOutcome, carry, carryFields, judgeShortCuts, type Verdict } from "../pull/index.ts";
import { formatQuantity, InputError, type UnitSystem } from "../quantity/index.ts";
import type { Io } from "./io.ts";
import { answerJson, rigAt, type Shown, shown } from "./options.ts";
import { runAt } from "./run-input.ts";
import { CAUTION } from "./settled-text.ts";
import { textTable } from "./text-table.ts";

interface Options extends Shown {
  readonly to?: string;
}

export function carryCommand(io: Io): Command {
  return shown(
    new Command("carry")
      .description("readings of a stand-in rig as the loads of the rig it stands for, at the same anchor angle")
      .argument("<run>", "run file (rodebench/run@1); - for standard input")
      .option("--to <rig>", "rig file of the rig it stands for"),
  ).action(async (path: string, options: Options) => {
    if (options.to === undefined)
      throw new InputError("--to", "", "the rig file of the rig that the run stands for is expected");
    if (path === "-" && options.to === "-")
      throw new InputError("--to", "-", "a file is expected: standard input holds the run");
    const { run, rig } = await runAt(path, io);
    const to = await rigAt(options.to, io);
    const outcome = carry(run, rig, to);
    const verdicts = judgeShortCuts(run, rig, to, outcome.rows);
    if (options.json) answerJson(io, carryFields(outcome, verdicts));
    else
      io.out(
        `${run.name}: ${rig.name}, read at the ${run.loadCellAt}, stands for ${to.name}\n${carriedText(outcome, verdicts, options.units)}\n${CAUTION}\n`,
      );
  });
}

function carriedText(outcome: CarryOutcome, verdicts: readonly Verdict[], units: UnitSystem): string {
  const force = (value: number, u?: number) =>
    formatQuantity(value, "force", { system: units, ...(u === undefined || u === 0 ? {} : { u }) });
  const table = textTable(
    ["read", "anchor angle", "at the anchor", "at the bow"],
    outcome.rows.map((row) => {
      const most = row.says === "atMost" ? "up to " : "";
      return [
        force(row.read),
        formatQuantity(row.anchorAngle, "angle", { system: units, digits: 3 }),
        `${most}${force(row.anchor, row.budget.anchor.u)}`,
        `${most}${force(row.bow, row.budget.bow.u)}`,
      ];
    }),
  );
  const sources = outcome.rows[0]?.budget.bow.sources.filter((source) => source.u > 0) ?? [];
  const shares =
    sources.length === 0
      ? "\nNo uncertainty is stated in the run or either rig: none is carried.\n"
      : `\nWhere the uncertainty at the bow comes from, share of its square\n${textTable(
          ["read", ...sources.map((source) => source.name)],
          outcome.rows.map((row) => [
            force(row.read),
            ...sources.map((source) =>
              percent(row.budget.bow.sources.find((own) => own.name === source.name)?.share ?? 0),
            ),
          ]),
        )}`;
  const differ = outcome.rows.filter((row) => row.comparison !== null && !row.comparison.agrees);
  const check =
    differ.length === 0
      ? ""
      : `\nFirst-order uncertainty does not hold everywhere; by Monte Carlo the load at the bow lies, in 95 of 100 cases, within\n${differ
          .map(
            (row) =>
              `  ${force(row.read)}: ${force(row.comparison!.low.monteCarlo)} to ${force(row.comparison!.high.monteCarlo)}\n`,
          )
          .join("")}`;
  const not = outcome.notCarried.map((row) => `${force(row.read)} is not carried: ${row.why}\n`).join("");
  const short =
    verdicts.length === 0
      ? ""
      : `\nShort cuts, and what each would add at the bow\n${verdicts.map((verdict) => `  ${verdict.simplification}: ${range(verdict, force)}; ${verdict.says}\n`).join("")}`;
  return `${table}${not}${shares}${check}${short}`;
}

function range(verdict: Verdict, force: (value: number) => string): string {
  const sizes = verdict.effects.map((effect) => effect.size);
  const [low, high] = [Math.min(...sizes), Math.max(...sizes)];
  return sizes.length === 1 ? force(low) : `${force(low)} to ${force(high)}`;
}

function percent(share: number): string {
  return `${Math.round(100 * share)} %`;
}
