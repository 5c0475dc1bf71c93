import { Command } from "commander";
import {
  type Dimension,
  formatQuantity,
  InputError,
  parseQuantity,
  quoted,
  type UnitSystem,
} from "../quantity/index.ts";
import { checkUnknown, find, type Goal, type Pull, readUnknown, settledFields, type Unknown } from "../rode/index.ts";
import type { Io } from "./io.ts";
import { answerJson, endFrom, pullFrom, rigAt, type Shown, shown } from "./options.ts";
import { noAnswer } from "./settle.ts";
import { CAUTION, settledText } from "./settled-text.ts";

interface Options extends Shown {
  readonly unknown?: string;
  readonly anchorAngle?: string;
  readonly liftoff?: true;
  readonly workingLoad?: string;
  readonly pull?: string;
  readonly at?: string;
  readonly span?: string;
}

const MEASURED: Readonly<Record<Unknown["what"], Dimension>> = {
  length: "length",
  depth: "length",
  rise: "length",
  place: "length",
  mass: "mass",
  pull: "force",
};

export function findCommand(io: Io): Command {
  return shown(
    new Command("find")
      .description(
        "the length, depth, load, kellet mass or place that gives an anchor angle, lift-off, or a share of the working load",
      )
      .argument("<rig>", "rig file (rodebench/rig@1); - for standard input")
      .option(
        "--unknown <what>",
        "length:N, depth, rise, pull, mass:N or place:N; N counts the parts from the anchor, 1 first",
      )
      .option("--anchor-angle <angle>", "angle of the pull at the anchor above the horizontal")
      .option("--liftoff", "the point at which the anchor end begins to rise")
      .option(
        "--working-load <share>",
        "share of its working load limit that the most loaded part carries, such as 80%",
      )
      .option("--pull <load>", "the load, unless it is the unknown")
      .option("--at <end>", "where the load is stated: anchor, bow or horizontal")
      .option("--span <distance>", "the span, in place of a load"),
  ).action(async (path: string, options: Options) => {
    const unknown = unknownFrom(options.unknown);
    const goal = goalFrom(options);
    const pull = loadFrom(unknown, options);
    const rig = await rigAt(path, io);
    checkUnknown(rig, unknown, "--unknown");
    if (goal.goal === "workingLoad" && rig.rode.every((part) => part.workingLoad === undefined)) {
      throw new InputError(
        "--working-load",
        quoted(options.workingLoad),
        `a rig with a working load limit is expected; no part of ${rig.name} states one`,
      );
    }
    const found = find(rig, { unknown, goal, pull });
    if (found.kind === "noEquilibrium") throw noAnswer(rig, found, options.units);
    if (options.json)
      answerJson(io, { unknown: options.unknown, value: found.value, settled: settledFields(found.settled) });
    else
      io.out(
        `${rig.name}\n${options.unknown!.padEnd(18)}${shownValue(unknown, found.value, options.units)}\n${settledText(found.settled, null, options.units)}\n${CAUTION}\n`,
      );
  });
}

export function unknownFrom(text: string | undefined): Unknown {
  if (text === undefined)
    throw new InputError(
      "--unknown",
      "",
      "one of length:N, depth, rise, pull, mass:N, place:N is expected, such as length:1",
    );
  return readUnknown(text, "--unknown");
}

function goalFrom(options: Options): Goal {
  const given = [options.anchorAngle !== undefined, options.liftoff === true, options.workingLoad !== undefined].filter(
    Boolean,
  ).length;
  if (given !== 1)
    throw new InputError(
      "--anchor-angle",
      given === 0 ? "" : "more than one goal",
      "one of --anchor-angle, --liftoff, --working-load is expected",
    );
  if (options.liftoff) return { goal: "liftoff" };
  if (options.workingLoad !== undefined) {
    const share = parseQuantity(options.workingLoad, "ratio", "--working-load");
    if (!(share > 0))
      throw new InputError(
        "--working-load",
        quoted(options.workingLoad),
        "a share above zero is expected, such as 80%",
      );
    return { goal: "workingLoad", share };
  }
  const angle = parseQuantity(options.anchorAngle!, "angle", "--anchor-angle");
  if (!(Math.abs(angle) < Math.PI / 2))
    throw new InputError("--anchor-angle", quoted(options.anchorAngle), "an angle between -90 and 90 deg is expected");
  return { goal: "anchorAngle", angle };
}

function loadFrom(unknown: Unknown, options: Options): Pull {
  if (unknown.what !== "pull") return pullFrom(options);
  if (options.pull !== undefined || options.span !== undefined)
    throw new InputError("--pull", quoted(options.pull ?? options.span), "no load is expected: it is the unknown");
  return { at: options.at === undefined ? "bow" : endFrom(options.at), newtons: 1 };
}

function shownValue(unknown: Unknown, value: number, units: UnitSystem): string {
  return formatQuantity(value, MEASURED[unknown.what], { system: units, digits: 5 });
}
