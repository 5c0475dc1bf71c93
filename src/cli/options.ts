/** Options that many commands share, and how their text becomes SI. */
import { type Command, Option } from "commander";
import { InputError, parseQuantity, quoted, type UnitSystem } from "../quantity/index.ts";
import { type Pull, type Rig, readRig } from "../rode/index.ts";
import type { Io } from "./io.ts";
import { plainJson } from "./plain-text.ts";

export interface Shown {
  readonly units: UnitSystem;
  readonly json?: true;
}

/** Adds `--json` and `--units`. */
export function shown(command: Command): Command {
  return command
    .addOption(new Option("--units <system>", "units of the text").choices(["metric", "us"]).default("metric"))
    .option("--json", "one JSON document, in SI units");
}

export const ENDS = ["anchor", "bow", "horizontal"] as const;

/** How errors call a file: its path, or standard input. */
export function placeOf(path: string): string {
  return path === "-" ? "standard input" : path;
}

export async function rigAt(path: string, io: Io): Promise<Rig> {
  return readRig(await io.read(path), placeOf(path));
}

/** `--pull LOAD --at END`, or `--span DISTANCE`. */
export function pullFrom(options: { pull?: string; at?: string; span?: string }): Pull {
  const { pull, at, span } = options;
  if (span !== undefined) {
    if (pull !== undefined || at !== undefined)
      throw new InputError("--span", quoted(span), "either --span or --pull with --at is expected, not both");
    const metres = positive(span, "length", "--span", "a distance above zero");
    checkMeant(metres, "length", "--span", quoted(span));
    return { at: "span", metres };
  }
  if (pull === undefined)
    throw new InputError(
      "--pull",
      "",
      "a load such as --pull 2kN with --at anchor, bow or horizontal, or --span, is expected",
    );
  return { at: endFrom(at), newtons: positive(pull, "force", "--pull", "a load above zero") };
}

/** `--pull-u`: the standard uncertainty of the load or span, as an amount or as a share of it. */
export function pullU(): Option {
  return new Option(
    "--pull-u <u>",
    'standard uncertainty of the load, such as "50 N" or "2 %"; of the span where that is stated',
  );
}

/** What `--pull-u` states, N (or m of a span); 0 where it is not given. */
export function pullUFrom({ pullU: given }: { pullU?: string }, pull: Pull): number {
  if (given === undefined) return 0;
  const [value, dimension] =
    pull.at === "span" ? ([pull.metres, "length"] as const) : ([pull.newtons, "force"] as const);
  const u = given.trim().endsWith("%")
    ? parseQuantity(given, "ratio", "--pull-u") * value
    : parseQuantity(given, dimension, "--pull-u");
  if (!(u >= 0 && u <= 0.5 * value))
    throw new InputError(
      "--pull-u",
      quoted(given),
      "a standard uncertainty from none to half of what is stated is expected",
    );
  return u;
}

export function endFrom(at: string | undefined): "anchor" | "bow" | "horizontal" {
  const end = ENDS.find((known) => known === at);
  if (end === undefined)
    throw new InputError("--at", at === undefined ? "" : quoted(at), "one of anchor, bow, horizontal is expected");
  return end;
}

/** Beyond these a unit was mistaken, and below them rounding is all that is left: SI. */
const MEANT = {
  force: { least: 1e-6, most: 1e12, expected: "a load from 1e-6 N to 1e12 N" },
  length: { least: 1e-6, most: 1e6, expected: "a distance from 1e-6 m to 1000 km" },
} as const;

/** Refuses what no rode is pulled with. @throws InputError */
export function checkMeant(value: number, dimension: keyof typeof MEANT, place: string, given: string): void {
  const { least, most, expected } = MEANT[dimension];
  if (value < least || value > most) throw new InputError(place, given, `${expected} is expected`);
}

export function positive(
  text: string,
  dimension: "force" | "length" | "speed",
  place: string,
  expected: string,
): number {
  const value = parseQuantity(text, dimension, place);
  if (!(value > 0)) throw new InputError(place, quoted(text), `${expected} is expected`);
  if (dimension === "force") checkMeant(value, dimension, place, quoted(text));
  return value;
}

/** `--seed`. */
export function seedFrom(text: string): number {
  const seed = Number(text);
  if (text.trim() === "" || !Number.isSafeInteger(seed) || seed < 0) {
    throw new InputError("--seed", quoted(text), "a whole number from 0 is expected");
  }
  return seed;
}

/** One JSON document on standard output, nothing else. */
export function answerJson(io: Io, document: unknown): void {
  io.out(`${plainJson(JSON.stringify(document, null, 2))}\n`);
}
