import { Command } from "commander";
import { type Dimension, InputError, parseQuantity, quoted } from "../quantity/index.ts";
import {
  checkUnknown,
  find,
  foundUncertainty,
  type Goal,
  type Pull,
  pullAt,
  readUnknown,
  settledFields,
  strengthOf,
  UNKNOWNS,
  type Unknown,
  uncertaintyOf,
} from "../rode/index.ts";
import { CAUTION } from "../words/index.ts";
import type { Io } from "./io.ts";
import { answerJson, endFrom, pullFrom, pullU, pullUFrom, rigAt, type Shown, shown } from "./options.ts";
import { workLine } from "./progress.ts";
import { remarkFields, remarkText } from "./remarks.ts";
import { noAnswer, settledOr } from "./settle.ts";
import { settledText } from "./settled-text.ts";
import { searched, strengthFields } from "./strength.ts";
import { answerSpreadText, answerUncertaintyFields, uncertaintyFields, valueText } from "./uncertain-text.ts";

interface Options extends Shown {
  readonly unknown?: string;
  readonly anchorAngle?: string;
  readonly angleToBottom?: string;
  readonly liftoff?: true;
  readonly workingLoad?: string;
  readonly pull?: string;
  readonly at?: string;
  readonly span?: string;
  readonly pullU?: string;
}

const MEASURED: Readonly<Record<Unknown["what"], Dimension>> = {
  length: "length",
  scope: "ratio",
  depth: "length",
  rise: "length",
  place: "length",
  mass: "mass",
  pull: "force",
};

/** Chain breaks at 4 times its working load limit, rope and wire at 5 to 12 times (common practice, no source). */
const MOST_SHARE = 12;

/** The SI unit of what was found, as JSON names it; 1 for a scope. */
const SI: Partial<Readonly<Record<Dimension, string>>> = { length: "m", mass: "kg", force: "N", ratio: "1" };

export function findCommand(io: Io): Command {
  return shown(
    new Command("find")
      .argument("<rig>", "rig file (rodebench/rig@1); - for standard input")
      .option("--unknown <what>", `one of ${UNKNOWNS}; N counts the parts from the anchor, 1 first`)
      .option("--anchor-angle <angle>", "angle of the pull at the anchor above the horizontal")
      .option("--angle-to-bottom <angle>", "angle of the pull at the anchor above the bottom, which an anchor feels")
      .option("--liftoff", "the point at which the anchor end begins to rise")
      .option(
        "--working-load <share>",
        "share of its working load limit that the most loaded part carries, such as 80%",
      )
      .option("--pull <load>", "the load, unless it is the unknown")
      .option("--at <end>", "where the load is stated: anchor, bow or horizontal")
      .option("--span <distance>", "the span, in place of a load")
      .addOption(pullU()),
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
    const question = { unknown, goal, pull };
    const found = find(rig, question);
    if (found.kind === "noEquilibrium") throw noAnswer(rig, found, options.units);
    const loadU = unknown.what === "pull" ? 0 : pullUFrom(options, pull);
    const line = workLine("how sure that is", io);
    const sure = foundUncertainty(rig, question, found, { pullU: loadU, onDraw: line.show });
    const foundPull = unknown.what === "pull" ? pullAt(pull, found.value) : pull;
    const traced = settledOr(found.rig, foundPull, options.units);
    const settled = uncertaintyOf(found.rig, foundPull, { pullU: loadU, onDraw: line.show });
    line.end();
    if (options.json)
      answerJson(io, {
        format: "rodebench/found@1",
        unknown: options.unknown,
        value: found.value,
        unit: SI[MEASURED[unknown.what]],
        settled: { ...settledFields(found.settled), ...strengthFields(strengthOf(found.rig, traced)) },
        ...(sure === null
          ? {}
          : { uncertainty: { ...answerUncertaintyFields(sure), settled: uncertaintyFields(settled).uncertainty } }),
        ...remarkFields(found.rig),
      });
    else {
      const value = `${valueText(
        found.value,
        MEASURED[unknown.what],
        options.units,
        sure?.u ?? undefined,
        sure?.spread?.bounds,
      )}${unknown.what === "scope" ? " : 1" : ""}`;
      io.out(
        `${rig.name}\n${options.unknown!.padEnd(18)}${value}\n${answerSpreadText(sure)}${sure === null ? "" : `\nWith ${options.unknown} exactly as estimated\n`}${settledText(found.settled, settled, options.units, rig.setting.medium)}${searched(found.rig, traced, options.units)}${remarkText(options.units, found.rig)}\n${CAUTION}\n`,
      );
    }
  });
}

export function unknownFrom(text: string | undefined): Unknown {
  if (text === undefined) throw new InputError("--unknown", "", `one of ${UNKNOWNS} is expected, such as length:1`);
  return readUnknown(text, "--unknown");
}

function goalFrom(options: Options): Goal {
  const { anchorAngle, angleToBottom, liftoff, workingLoad } = options;
  const goals = Object.entries({
    "--anchor-angle": anchorAngle,
    "--angle-to-bottom": angleToBottom,
    "--liftoff": liftoff,
    "--working-load": workingLoad,
  });
  const given = goals.flatMap(([name, goal]) => (goal === undefined ? [] : [name]));
  if (given.length !== 1) {
    const names = goals.map(([name]) => name).join(", ");
    throw new InputError("find", given.length === 0 ? "no goal" : given.join(" and "), `one of ${names} is expected`);
  }
  if (liftoff) return { goal: "liftoff" };
  if (anchorAngle !== undefined) return { goal: "anchorAngle", angle: angleFrom(anchorAngle, "--anchor-angle") };
  if (angleToBottom !== undefined)
    return { goal: "angleToBottom", angle: angleFrom(angleToBottom, "--angle-to-bottom") };
  const share = parseQuantity(workingLoad!, "ratio", "--working-load");
  if (!(share > 0))
    throw new InputError("--working-load", quoted(workingLoad), "a share above zero is expected, such as 80%");
  if (share > MOST_SHARE)
    throw new InputError(
      "--working-load",
      quoted(workingLoad),
      `a share of at most ${MOST_SHARE * 100} % is expected, since gear breaks before that; per cent bear their sign, such as 80%`,
    );
  return { goal: "workingLoad", share };
}

function angleFrom(text: string, place: string): number {
  const angle = parseQuantity(text, "angle", place);
  if (!(Math.abs(angle) < Math.PI / 2))
    throw new InputError(place, quoted(text), "an angle between -90 and 90 deg is expected");
  return angle;
}

function loadFrom(unknown: Unknown, options: Options): Pull {
  if (unknown.what !== "pull") return pullFrom(options);
  if (options.pull !== undefined || options.span !== undefined)
    throw new InputError("--pull", quoted(options.pull ?? options.span), "no load is expected: it is the unknown");
  return { at: options.at === undefined ? "bow" : endFrom(options.at), newtons: 1 };
}
