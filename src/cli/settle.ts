import { Command } from "commander";
import type { UnitSystem } from "../quantity/index.ts";
import {
  type NoEquilibrium,
  type Pull,
  type Rig,
  SETTLED_FORMAT,
  type SettledTrace,
  settledFields,
  settleTraced,
  strengthOf,
  uncertaintyOf,
} from "../rode/index.ts";
import { CAUTION, noEquilibriumLine } from "../words/index.ts";
import { NoAnswer } from "./exit.ts";
import type { Io } from "./io.ts";
import { answerJson, pullFrom, pullU, pullUFrom, rigAt, type Shown, shown } from "./options.ts";
import { workLine } from "./progress.ts";
import { remarkFields, remarkText } from "./remarks.ts";
import { settledText } from "./settled-text.ts";
import { overloaded, strengthFields } from "./strength.ts";
import { uncertaintyFields } from "./uncertain-text.ts";

interface Options extends Shown {
  readonly pull?: string;
  readonly at?: string;
  readonly span?: string;
  readonly pullU?: string;
}

export function settleCommand(io: Io): Command {
  return shown(
    new Command("settle")
      .argument("<rig>", "rig file (rodebench/rig@1); - for standard input")
      .option("--pull <load>", 'the load, such as "2 kN"')
      .option("--at <end>", "where it is stated: anchor, bow, or horizontal (the horizontal force at the bow)")
      .option("--span <distance>", "horizontal distance from anchor to bow, in place of a load")
      .addOption(pullU()),
  ).action(async (path: string, options: Options) => {
    const pull = pullFrom(options);
    const rig = await rigAt(path, io);
    const traced = settledOr(rig, pull, options.units);
    const line = workLine("how sure that is", io);
    const uncertainty = uncertaintyOf(rig, pull, { pullU: pullUFrom(options, pull), onDraw: line.show });
    line.end();
    if (options.json) {
      answerJson(io, {
        format: SETTLED_FORMAT,
        ...settledFields(traced.settled),
        ...strengthFields(strengthOf(rig, traced)),
        ...uncertaintyFields(uncertainty),
        ...remarkFields(rig),
      });
      return;
    }
    io.out(
      `${rig.name}\n${settledText(traced.settled, uncertainty, options.units, rig.setting.medium)}${overloaded(rig, traced, options.units)}${remarkText(options.units, rig)}\n${CAUTION}\n`,
    );
  });
}

/** The equilibrium, or the one line that says why there is none. */
export function settledOr(rig: Rig, pull: Pull, units: UnitSystem): SettledTrace {
  const traced = settleTraced(rig, pull);
  if (!("settled" in traced)) throw noAnswer(rig, traced, units);
  return traced;
}

export function noAnswer(rig: Rig, none: NoEquilibrium, units: UnitSystem): NoAnswer {
  return new NoAnswer(`${rig.name}: no equilibrium: ${noEquilibriumLine(none, units, rig.setting.medium)}`);
}
