/** Options that many commands share, and how their text becomes SI. */
import { type Command, Option } from "commander";
import { InputError, parseQuantity, quoted, type UnitSystem } from "../quantity/index.ts";
import { type Pull, type Rig, readRig } from "../rode/index.ts";
import type { Io } from "./io.ts";

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
    return { at: "span", metres: positive(span, "length", "--span", "a distance above zero") };
  }
  if (pull === undefined)
    throw new InputError(
      "--pull",
      "",
      "a load such as --pull 2kN with --at anchor, bow or horizontal, or --span, is expected",
    );
  return { at: endFrom(at), newtons: positive(pull, "force", "--pull", "a load above zero") };
}

export function endFrom(at: string | undefined): "anchor" | "bow" | "horizontal" {
  const end = ENDS.find((known) => known === at);
  if (end === undefined)
    throw new InputError("--at", at === undefined ? "" : quoted(at), "one of anchor, bow, horizontal is expected");
  return end;
}

export function positive(
  text: string,
  dimension: "force" | "length" | "speed",
  place: string,
  expected: string,
): number {
  const value = parseQuantity(text, dimension, place);
  if (!(value > 0)) throw new InputError(place, quoted(text), `${expected} is expected`);
  return value;
}

/** One JSON document on standard output, nothing else. */
export function answerJson(io: Io, document: unknown): void {
  io.out(`${JSON.stringify(document, null, 2)}\n`);
}
