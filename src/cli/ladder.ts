import { Command } from "commander";
import {
  type Dimension,
  formatQuantity,
  InputError,
  parseQuantity,
  quoted,
  type UnitSystem,
} from "../quantity/index.ts";
import {
  type Certainty,
  drawsOf,
  type Pull,
  type Rig,
  type SettledUncertainty,
  type SweepRow,
  settledFields,
  strengthOf,
  sweepRows,
  uncertaintyOf,
} from "../rode/index.ts";
import { CAUTION, shareOfDraws } from "../words/index.ts";
import type { Io } from "./io.ts";
import { answerJson, checkMeant, endFrom, pullU, pullUFrom, rigAt, type Shown, shown } from "./options.ts";
import { workLine } from "./progress.ts";
import { remarkFields, remarkText } from "./remarks.ts";
import { noAnswer, settledOr } from "./settle.ts";
import { overloadedRows, strengthFields } from "./strength.ts";
import { textTable } from "./text-table.ts";
import { shownUncertainty, uncertaintyFields, valueText } from "./uncertain-text.ts";

interface Options extends Shown {
  readonly pull?: string;
  readonly at?: string;
  readonly pullU?: string;
}

/** More rungs than anyone reads; a typing slip asks for millions. */
const MOST_RUNGS = 100_000;

export function ladderCommand(io: Io): Command {
  return shown(
    new Command("ladder")
      .argument("<rig>", "rig file (rodebench/rig@1); - for standard input")
      .option("--pull <from..to/step>", 'loads, such as "100..1000/100lbf"')
      .option("--at <end>", "where they are stated: anchor, bow or horizontal")
      .addOption(pullU()),
  ).action(async (path: string, options: Options) => {
    const at = endFrom(options.at);
    const loads = loadsFrom(options.pull, "--pull");
    const rig = await rigAt(path, io);
    const line = workLine(`${loads.length} loads`, io);
    const rungs: SweepRow[] = [];
    const sure: (SettledUncertainty | null)[] = [];
    const pulls = loads.map((newtons): Pull => ({ at, newtons }));
    const draws = drawsFor(loads.length, rig);
    // A row at a time: the first load without an equilibrium ends it.
    for (const rung of sweepRows(rig, pulls)) {
      if (rung.kind === "noEquilibrium") {
        line.end();
        throw noAnswer(rig, rung, options.units);
      }
      const pull = pulls[rungs.length]!;
      rungs.push(rung);
      sure.push(uncertaintyOf(rig, pull, { pullU: pullUFrom(options, pull), draws }));
      line.show(rungs.length, loads.length);
    }
    line.end();
    const strengths = loads.map((newtons, i) => ({
      anchor: rungs[i]!.settled.anchor.tension,
      parts: strengthOf(rig, settledOr(rig, { at, newtons }, options.units)),
    }));
    if (options.json)
      answerJson(io, {
        format: "rodebench/ladder@1",
        rows: rungs.map((rung, i) => ({
          ...rungFields(rung),
          ...strengthFields(strengths[i]!.parts),
          ...uncertaintyFields(sure[i]!),
        })),
        ...remarkFields(rig),
      });
    else
      io.out(
        `${rig.name}, load at ${at === "horizontal" ? "the bow, horizontal part" : `the ${at}`}\n${rungTable(rungs, sure, options.units)}${overloadedRows(strengths, options.units)}${remarkText(options.units, rig)}\n${CAUTION}\n`,
      );
  });
}

/** `FROM..TO/STEP unit`; each of the three may carry its own unit, else the last one's. */
export function loadsFrom(text: string | undefined, place: string): number[] {
  const expected = 'loads as FROM..TO/STEP with a unit are expected, such as "100..1000/100lbf"';
  if (text === undefined) throw new InputError(place, "", expected);
  const match = /^\s*(.+?)\s*\.\.\s*(.+?)\s*\/\s*(.+?)\s*$/.exec(text);
  if (match === null) throw new InputError(place, quoted(text), expected);
  const [, fromText, toText, stepText] = match as unknown as [string, string, string, string];
  const unit = /[^\d.,eE+\-\s].*$/.exec(stepText)?.[0] ?? "";
  const load = (part: string) => {
    const whole = /[a-zA-Z]/.test(part.replace(/e[+-]?\d/i, "")) ? part : `${part} ${unit || "N"}`;
    return parseQuantity(whole, "force", `${place} ${quoted(text)}`);
  };
  const from = load(fromText);
  const to = load(toText);
  const step = load(stepText);
  if (!(from > 0) || !(to >= from) || !(step > 0))
    throw new InputError(place, quoted(text), "loads that rise from above zero by a step above zero are expected");
  for (const load of [from, to]) checkMeant(load, "force", place, quoted(text));
  const count = Math.floor((to - from) / step + 1e-9) + 1;
  if (count > MOST_RUNGS) throw new InputError(place, quoted(text), `at most ${MOST_RUNGS} loads are expected`);
  return Array.from({ length: count }, (_, i) => from + i * step);
}

export function rungFields(rung: SweepRow): object {
  return {
    ...settledFields(rung.settled),
    movement_m: rung.movement,
    work_J: rung.work,
    stiffness_N_per_m: rung.stiffness,
  };
}

function rungTable(
  rungs: readonly SweepRow[],
  sure: readonly (SettledUncertainty | null)[],
  units: UnitSystem,
): string {
  const show = (value: number, dimension: "force" | "length" | "angle" | "energy" | "stiffness", digits = 4) =>
    formatQuantity(value, dimension, { system: units, digits });
  const table = textTable(
    ["anchor", "angle", "bow", "angle", "span", "moved", "work", "stiffness"],
    rungs.map(({ settled, movement, work, stiffness }, i) => {
      const { u, bounds } = shownUncertainty(sure[i]!);
      const not = (value: number, dimension: Dimension, name: keyof Certainty, digits = 4) =>
        valueText(value, dimension, units, u?.[name], bounds?.[name], digits);
      return [
        not(settled.anchor.tension, "force", "anchorTension"),
        not(settled.anchor.angle, "angle", "anchorAngle", 3),
        not(settled.bow.tension, "force", "bowTension"),
        not(settled.bow.angle, "angle", "bowAngle", 3),
        not(settled.span, "length", "span"),
        show(movement, "length", 3),
        show(work, "energy", 3),
        show(stiffness, "stiffness", 3),
      ];
    }),
  );
  const brackets = /\([^)]*\d[^)]*\)|no bounds/.test(table)
    ? "In brackets where 95 of 100 draws of what is not known lie.\n"
    : "";
  const each = sure.flatMap((one, i) => {
    const spread = one?.spread;
    if (!spread) return [];
    const said = [
      spread.lifted > 0 && spread.lifted < spread.draws - spread.without
        ? `the anchor is lifted in ${shareOfDraws(spread.lifted, spread.draws)} draws`
        : "",
      spread.without > 0 ? `no equilibrium in ${shareOfDraws(spread.without, spread.draws)} draws` : "",
    ].filter((text) => text !== "");
    return said.length === 0
      ? []
      : [`${show(rungs[i]!.settled.anchor.tension, "force")} at the anchor: ${said.join("; ")}\n`];
  });
  return `${table}${brackets}${each.join("")}`;
}

/** Draws a row, so that a long table takes no longer than a few seconds; none past a thousand rows. */
function drawsFor(rows: number, rig: Rig): number {
  const draws = Math.min(drawsOf(rig), Math.floor((50 * drawsOf(rig)) / rows));
  return draws < 200 ? 0 : draws;
}
