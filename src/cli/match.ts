import { Command } from "commander";
import { DEGREES, formatQuantity, InputError, quoted, type UnitSystem } from "../quantity/index.ts";
import {
  type AnswerUncertainty,
  checkUnknown,
  longestLine,
  type Matched,
  match,
  matchedUncertainty,
  type Pull,
  type Rig,
  settledFields,
  strengthOf,
} from "../rode/index.ts";
import { CAUTION, groundWord } from "../words/index.ts";
import { unknownFrom } from "./find.ts";
import type { Io } from "./io.ts";
import { answerJson, pullFrom, pullU, pullUFrom, rigAt, type Shown, shown } from "./options.ts";
import { workLine } from "./progress.ts";
import { remarkFields, remarkText } from "./remarks.ts";
import { noAnswer, settledOr } from "./settle.ts";
import { searched, strengthFields } from "./strength.ts";
import { answerSpreadText, answerUncertaintyFields, valueText } from "./uncertain-text.ts";

interface Options extends Shown {
  readonly pull?: string;
  readonly at?: string;
  readonly unknown?: string;
  readonly pullU?: string;
}

export function matchCommand(io: Io): Command {
  return shown(
    new Command("match")
      .argument("<rig>", "rig file whose anchor angle is taken; - for standard input")
      .argument("<other>", "rig file whose length is found")
      .option("--pull <load>", 'the load, such as "2 kN"')
      .option("--at <end>", "where it is stated: bow, anchor or horizontal", "bow")
      .option("--unknown <length:N>", "the part of OTHER that is paid out; by default its longest line")
      .addOption(pullU()),
  ).action(async (path: string, otherPath: string, options: Options) => {
    const pull = pullFrom(options);
    if (path === "-" && otherPath === "-")
      throw new InputError("<other>", "-", "a file is expected: standard input holds one rig");
    const rig = await rigAt(path, io);
    const other = await rigAt(otherPath, io);
    const part = partFrom(options.unknown, other);
    // Asked first by itself, so that the line names the rig that has no equilibrium.
    const traced = settledOr(rig, pull, options.units);
    const found = match(rig, other, pull, part);
    if (found.kind === "noEquilibrium") throw noAnswer(other, found, options.units);
    const back = match(other, rig, pull);
    const reverse = back.kind === "matched" ? back : null;
    const otherTraced = settledOr(found.otherRig, pull, options.units);
    const loadU = pullUFrom(options, pull);
    const line = workLine("how sure that is", io);
    const sure = matchedUncertainty(rig, other, pull, found, { pullU: loadU, onDraw: line.show });
    const sureBack = reverse && matchedUncertainty(other, rig, pull, reverse, { pullU: loadU, onDraw: line.show });
    line.end();
    if (options.json) {
      answerJson(io, {
        format: "rodebench/matched@1",
        ...fields(
          found,
          sure,
          strengthFields(strengthOf(rig, traced)),
          strengthFields(strengthOf(found.otherRig, otherTraced)),
        ),
        reverse: reverse && {
          ...fields(
            reverse,
            sureBack,
            strengthFields(strengthOf(other, settledOr(other, pull, options.units))),
            strengthFields(strengthOf(reverse.otherRig, settledOr(reverse.otherRig, pull, options.units))),
          ),
        },
        ...remarkFields(rig, other),
      });
      return;
    }
    io.out(
      `${sentence(rig, other, pull, found, sure, options.units)}${reverse === null ? "" : sentence(other, rig, pull, reverse, sureBack, options.units)}${searched(rig, traced, options.units, rig.name)}${searched(found.otherRig, otherTraced, options.units, other.name)}${remarkText(options.units, rig, other)}\n${CAUTION}\n`,
    );
  });
}

function partFrom(text: string | undefined, other: Rig): number {
  if (text === undefined) return longestLine(other);
  const unknown = unknownFrom(text);
  if (unknown.what !== "length")
    throw new InputError("--unknown", quoted(text), "a length of OTHER is expected, such as length:1");
  checkUnknown(other, unknown, "--unknown");
  return unknown.part;
}

type Strength = ReturnType<typeof strengthFields>;

function fields(found: Matched, sure: AnswerUncertainty | null, rig: Strength, other: Strength): object {
  return {
    anchorAngle_deg: found.rig.anchor.angle * DEGREES,
    angleToBottom_deg: found.angleToBottom * DEGREES,
    length_m: found.length,
    scope: found.scope,
    part: found.part,
    partLength_m: found.partLength,
    atLiftoff: found.atLiftoff,
    rig: { ...settledFields(found.rig), ...rig },
    other: { ...settledFields(found.other), ...other },
    ...(sure === null ? {} : { uncertainty: { partLength_m: answerUncertaintyFields(sure) } }),
  };
}

/** Where a bottom slopes, the angle meant is that above it. */
function slopes({ rig, other }: Matched): boolean {
  return [rig, other].some(({ anchor }) => Math.abs(anchor.angle - anchor.angleToBottom) > 1e-12);
}

function sentence(
  rig: Rig,
  other: Rig,
  pull: Pull,
  found: Matched,
  sure: AnswerUncertainty | null,
  units: UnitSystem,
): string {
  const show = (value: number, dimension: "angle" | "length" | "force") =>
    formatQuantity(value, dimension, { system: units });
  const load =
    pull.at === "span"
      ? ""
      : `under ${show(pull.newtons, "force")} at ${pull.at === "horizontal" ? "the bow, horizontal part," : `the ${pull.at}`} `;
  const onLand = rig.setting.medium === "air" && other.setting.medium === "air";
  const same = found.atLiftoff
    ? `${rig.name} does not lift its anchor ${load.trim()}; the shortest ${other.name} that does not either has`
    : `${rig.name} pulls its anchor at ${show(found.angleToBottom, "angle")}${slopes(found) ? ` to the ${groundWord(onLand ? "air" : "water")}` : ""} ${load.trim()}; ${other.name} does so at`;
  const u = sure?.u ?? undefined;
  const part = valueText(found.partLength, "length", units, u, sure?.spread?.bounds);
  const whole =
    found.length === found.partLength
      ? `${part} of rode`
      : `${formatQuantity(found.length, "length", { system: units, ...(u === undefined ? { digits: 3 } : { u }) })} of rode`;
  const scope = formatQuantity(found.scope, "ratio", {
    unit: "",
    ...(u === undefined ? { digits: 3 } : { u: (u * found.scope) / found.length }),
  });
  return `${same} ${whole}, a scope of ${scope} : 1 (part ${found.part}${found.length === found.partLength ? "" : `: ${part}`}).\n${answerSpreadText(sure)}`;
}
