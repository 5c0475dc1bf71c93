import { Command } from "commander";
import { formatQuantity, InputError, quoted, type UnitSystem } from "../quantity/index.ts";
import { checkUnknown, longestLine, type Matched, match, type Pull, type Rig, settledFields } from "../rode/index.ts";
import { unknownFrom } from "./find.ts";
import type { Io } from "./io.ts";
import { answerJson, pullFrom, rigAt, type Shown, shown } from "./options.ts";
import { noAnswer, settledOr } from "./settle.ts";
import { CAUTION } from "./settled-text.ts";

interface Options extends Shown {
  readonly pull?: string;
  readonly at?: string;
  readonly unknown?: string;
}

export function matchCommand(io: Io): Command {
  return shown(
    new Command("match")
      .description("the length and scope at which another rode pulls its anchor at the same angle under the same load")
      .argument("<rig>", "rig file whose anchor angle is taken; - for standard input")
      .argument("<other>", "rig file whose length is found")
      .option("--pull <load>", 'the load, such as "2 kN"')
      .option("--at <end>", "where it is stated: bow, anchor or horizontal", "bow")
      .option("--unknown <length:N>", "the part of OTHER that is paid out; by default its longest line"),
  ).action(async (path: string, otherPath: string, options: Options) => {
    const pull = pullFrom(options);
    if (path === "-" && otherPath === "-")
      throw new InputError("<other>", "-", "a file is expected: standard input holds one rig");
    const rig = await rigAt(path, io);
    const other = await rigAt(otherPath, io);
    const part = partFrom(options.unknown, other);
    // Asked first by itself, so that the line names the rig that has no equilibrium.
    settledOr(rig, pull, options.units);
    const found = match(rig, other, pull, part);
    if (found.kind === "noEquilibrium") throw noAnswer(other, found, options.units);
    const back = match(other, rig, pull);
    const reverse = back.kind === "matched" ? back : null;
    if (options.json) {
      answerJson(io, { ...fields(found), reverse: reverse === null ? null : fields(reverse) });
      return;
    }
    io.out(
      `${sentence(rig, other, pull, found, options.units)}${reverse === null ? "" : sentence(other, rig, pull, reverse, options.units)}\n${CAUTION}\n`,
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

function fields(found: Matched): object {
  return {
    anchorAngle_deg: (found.anchorAngle * 180) / Math.PI,
    length_m: found.length,
    scope: found.scope,
    part: found.part,
    partLength_m: found.partLength,
    atLiftoff: found.atLiftoff,
    rig: settledFields(found.rig),
    other: settledFields(found.other),
  };
}

function sentence(rig: Rig, other: Rig, pull: Pull, found: Matched, units: UnitSystem): string {
  const show = (value: number, dimension: "angle" | "length" | "force") =>
    formatQuantity(value, dimension, { system: units });
  const load =
    pull.at === "span"
      ? ""
      : `under ${show(pull.newtons, "force")} at ${pull.at === "horizontal" ? "the bow, horizontal part," : `the ${pull.at}`} `;
  const same = found.atLiftoff
    ? `${rig.name} does not lift its anchor ${load.trim()}; the shortest ${other.name} that does not either has`
    : `${rig.name} pulls its anchor at ${show(found.anchorAngle, "angle")} ${load.trim()}; ${other.name} does so at`;
  return `${same} ${show(found.length, "length")} of rode, a scope of ${formatQuantity(found.scope, "ratio", { unit: "" })} : 1 (part ${found.part}: ${show(found.partLength, "length")}).\n`;
}
