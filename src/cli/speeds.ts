/** In which unit winds are shown: as chosen, else as they were typed, else in the system's own. */
import { type Command, Option } from "commander";
import { unitChoices } from "../quantity/index.ts";

const UNITS = unitChoices("speed");

/** Words for the same unit, as people type them. */
const SAME: Readonly<Record<string, string>> = {
  kt: "kn",
  kts: "kn",
  knot: "kn",
  knots: "kn",
  kmh: "km/h",
  kph: "km/h",
};

export interface Speeds {
  readonly speeds?: string;
}

export function withSpeeds(command: Command): Command {
  return command.addOption(
    new Option("--speeds <unit>", "unit of winds in the text (default: as the wind was typed)").choices(UNITS),
  );
}

/** @param typed a speed as it was typed; undefined where none was */
export function speedUnit({ speeds }: Speeds, typed?: string): string | undefined {
  if (speeds !== undefined) return speeds;
  const unit = /[a-zA-Z/]+\s*$/.exec(typed ?? "")?.[0]?.trim() ?? "";
  const known = SAME[unit] ?? unit;
  return UNITS.includes(known) ? known : undefined;
}
