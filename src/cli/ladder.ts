import { Command } from "commander";
import { formatQuantity, InputError, parseQuantity, quoted, type UnitSystem } from "../quantity/index.ts";
import { ladder, type Pull, type Rig, type Rung, settledFields } from "../rode/index.ts";
import type { Io } from "./io.ts";
import { answerJson, checkMeant, endFrom, rigAt, type Shown, shown } from "./options.ts";
import { noAnswer } from "./settle.ts";
import { CAUTION } from "./settled-text.ts";
import { textTable } from "./text-table.ts";

interface Options extends Shown {
  readonly pull?: string;
  readonly at?: string;
}

/** More rungs than anyone reads; a typing slip asks for millions. */
const MOST_RUNGS = 100_000;

export function ladderCommand(io: Io): Command {
  return shown(
    new Command("ladder")
      .description("a rode over a series of loads: both ends, movement and work between them, stiffness")
      .argument("<rig>", "rig file (rodebench/rig@1); - for standard input")
      .option("--pull <from..to/step>", 'loads, such as "100..1000/100lbf"')
      .option("--at <end>", "where they are stated: anchor, bow or horizontal"),
  ).action(async (path: string, options: Options) => {
    const at = endFrom(options.at);
    const loads = loadsFrom(options.pull, "--pull");
    const rig = await rigAt(path, io);
    const rungs = climb(
      rig,
      loads.map((newtons): Pull => ({ at, newtons })),
      options.units,
    );
    if (options.json) answerJson(io, { rows: rungs.map(rungFields) });
    else
      io.out(
        `${rig.name}, load at ${at === "horizontal" ? "the bow, horizontal part" : `the ${at}`}\n${rungTable(rungs, options.units)}\n${CAUTION}\n`,
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
  const load = (part: string) =>
    parseQuantity(/[a-zA-Z]/.test(part.replace(/e[+-]?\d/i, "")) ? part : `${part} ${unit || "N"}`, "force", place);
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

function climb(rig: Rig, pulls: readonly Pull[], units: UnitSystem): Rung[] {
  return ladder(rig, pulls).map((rung) => {
    if (rung.kind === "noEquilibrium") throw noAnswer(rig, rung, units);
    return rung;
  });
}

export function rungFields(rung: Rung): object {
  return {
    ...settledFields(rung.settled),
    movement_m: rung.movement,
    work_J: rung.work,
    stiffness_N_per_m: rung.stiffness,
  };
}

function rungTable(rungs: readonly Rung[], units: UnitSystem): string {
  const show = (value: number, dimension: "force" | "length" | "angle" | "energy" | "stiffness", digits = 4) =>
    formatQuantity(value, dimension, { system: units, digits });
  return textTable(
    ["anchor", "angle", "bow", "angle", "span", "moved", "work", "stiffness"],
    rungs.map((rung) => [
      show(rung.settled.anchor.tension, "force"),
      show(rung.settled.anchor.angle, "angle", 3),
      show(rung.settled.bow.tension, "force"),
      show(rung.settled.bow.angle, "angle", 3),
      show(rung.settled.span, "length", 5),
      show(rung.movement, "length", 3),
      show(rung.work, "energy", 3),
      show(rung.stiffness, "stiffness", 3),
    ]),
  );
}
