import { Command } from "commander";
import type { UnitSystem } from "../quantity/index.ts";
import {
  certaintyOf,
  type NoEquilibrium,
  type Pull,
  type Rig,
  SETTLED_FORMAT,
  type SettledTrace,
  sayWhy,
  settledFields,
  settleTraced,
} from "../rode/index.ts";
import { NoAnswer } from "./exit.ts";
import type { Io } from "./io.ts";
import { answerJson, pullFrom, rigAt, type Shown, shown } from "./options.ts";
import { CAUTION, overloaded, settledText } from "./settled-text.ts";

interface Options extends Shown {
  readonly pull?: string;
  readonly at?: string;
  readonly span?: string;
}

export function settleCommand(io: Io): Command {
  return shown(
    new Command("settle")
      .description("the equilibrium of a rode under a load at one end, or at a span")
      .argument("<rig>", "rig file (rodebench/rig@1); - for standard input")
      .option("--pull <load>", 'the load, such as "2 kN"')
      .option("--at <end>", "where it is stated: anchor, bow, or horizontal (the horizontal force at the bow)")
      .option("--span <distance>", "horizontal distance from anchor to bow, in place of a load"),
  ).action(async (path: string, options: Options) => {
    const pull = pullFrom(options);
    const rig = await rigAt(path, io);
    const traced = settledOr(rig, pull, options.units);
    const certainty = certaintyOf(rig, pull);
    if (options.json) {
      answerJson(io, {
        format: SETTLED_FORMAT,
        ...settledFields(traced.settled),
        ...(certainty === null ? {} : { uncertainty: certaintyFields(certainty) }),
      });
      return;
    }
    io.out(
      `${rig.name}\n${settledText(traced.settled, certainty, options.units)}${overloaded(rig, traced, options.units)}\n${CAUTION}\n`,
    );
  });
}

const DEGREES = 180 / Math.PI;

function certaintyFields(certainty: NonNullable<ReturnType<typeof certaintyOf>>): object {
  return {
    anchor: { tension_N: certainty.anchorTension, angle_deg: certainty.anchorAngle * DEGREES },
    bow: { tension_N: certainty.bowTension, angle_deg: certainty.bowAngle * DEGREES },
    horizontal_N: certainty.horizontal,
    span_m: certainty.span,
    grounded_m: certainty.grounded,
    sag_m: certainty.sag,
  };
}

/** The equilibrium, or the one line that says why there is none. */
export function settledOr(rig: Rig, pull: Pull, units: UnitSystem): SettledTrace {
  const traced = settleTraced(rig, pull);
  if (!("settled" in traced)) throw noAnswer(rig, traced, units);
  return traced;
}

export function noAnswer(rig: Rig, none: NoEquilibrium, units: UnitSystem): NoAnswer {
  const { why, nearest } = sayWhy(none.cause, none.given, none.limit, units);
  return new NoAnswer(`${rig.name}: no equilibrium: ${why}; ${nearest}`);
}
