/** What a ride is asked with: the same for its answer and its figure. */
import { type Command, Option } from "commander";
import { GUSTS, type GustsName } from "../motion/index.ts";
import type { Shown } from "./options.ts";

export interface RideOptions extends Shown {
  readonly boat: string;
  readonly wind?: string;
  readonly windLog?: string;
  readonly windHeight?: string;
  readonly gusts: GustsName;
  readonly shift?: readonly string[];
  readonly sea?: string;
  readonly spectrum: "jonswap" | "pierson-moskowitz";
  readonly current?: string;
  readonly hours?: string;
  readonly elements: string;
  readonly seed: string;
}

/** What a ride is asked with. */
export function withRideOptions(command: Command): Command {
  return command
    .argument("<rig>", "rig file (rodebench/rig@1) in water; - for standard input")
    .requiredOption("--boat <file>", "boat file (rodebench/boat@1) with its windage")
    .option("--wind <speed>", 'mean wind at 10 m, such as "25 kn"')
    .option(
      "--wind-log <file>",
      "or a wind that was measured: a log with wind speeds, and directions where it has them",
    )
    .option("--wind-height <length>", "height at which it was measured (default: 10 m)")
    .addOption(new Option("--gusts <spectrum>", "published spectrum of the gusts").choices(GUSTS).default("froya"))
    .option(
      "--shift <time,speed,angle>",
      'a change of the mean wind, reached at that time: "20 min, 35 kn, 40 deg"; may be given again',
      (text: string, before: readonly string[] = []) => [...before, text],
    )
    .option("--sea <height,period>", 'significant height and peak period of a sea from ahead, such as "0.6 m, 3 s"')
    .addOption(
      new Option("--spectrum <name>", "spectrum of that sea")
        .choices(["jonswap", "pierson-moskowitz"])
        .default("jonswap"),
    )
    .option("--current <speed>", "current toward the boat, in place of the rig's")
    .option("--hours <hours>", "how long to ride, in hours (default: 1, or as long as the log)")
    .option("--elements <count>", "elements the rode is cut into", "40")
    .option("--seed <number>", "seed of gusts and waves: the same seed, the same ride", "1");
}
