import { Command } from "commander";
import { catalogue } from "../gear/index.ts";
import { InputError, quoted } from "../quantity/index.ts";
import { readRopeName, type ShockQuestion, type SnubberQuestion, shockOf, snubberMap } from "../sizing/index.ts";
import type { Io } from "./io.ts";
import { answerJson, rigAt, shown } from "./options.ts";
import { noAnswer } from "./settle.ts";
import { shockDocument } from "./shock-document.ts";
import {
  asksFrom,
  inputsUFrom,
  periodFrom,
  rungsFrom,
  type ShockOptions,
  type SurgeAsked,
  steadyFrom,
  surgeFrom,
} from "./shock-options.ts";
import { shockText } from "./shock-text.ts";
import { withSnubber, withSteady, withSurge } from "./snubber-flags.ts";
import { kindFrom, limitsFrom, mapFrom, snubberFrom } from "./snubber-options.ts";

export function shockCommand(io: Io): Command {
  const loaded = withSteady(new Command("shock").argument("<rig>", "rig file (rodebench/rig@1); - for standard input"))
    .option("--u <load>", "its standard uncertainty")
    .option("--loads <from..to/step>", "loads of the table (default: 1 to 6 times the steady one)")
    .option("--asks <give>", 'give asked of catenary: "1 ft per 100 lbf", or "50 % of 1 m up to 5 kN"');
  return shown(
    withSnubber(
      withSurge(loaded, true)
        .option("--peak <load>", "or backwards: the peak a cell read at the bow; answers the speed behind it")
        .option("--peak-u <load>", "its standard uncertainty")
        .option("--stretch-u <share>", "standard uncertainty of the stretch of ropes in the rig", "12 %")
        .option("--snubber <diameter,length>", 'try one: "14 mm, 9 m"')
        .option("--map <diameters,lengths>", 'map many: "8..24/2 mm, 2..20/2 m"'),
    ),
  ).action(async (path: string, options: ShockOptions) => {
    const steady = steadyFrom(options);
    const loads = rungsFrom(options, steady);
    const fade = options.asks === undefined ? undefined : asksFrom(options.asks, steady.at);
    const u = inputsUFrom(options);
    const snubber = snubberQuestion(options);
    const map = options.map === undefined ? undefined : mapFrom(options.map);
    const asked = await surgeOf(path, options, io);
    if (asked === null && (snubber !== undefined || map !== undefined)) throw noSurge("--waves or --peak");
    const rig = await rigAt(path, io);
    const surge = asked === null ? null : asked(rig);
    const question: ShockQuestion = {
      rig,
      steady,
      loads,
      u: surge?.u === undefined ? u : { ...u, speed: surge.u },
      ...(surge?.peakReadU === undefined ? {} : { peakReadU: surge.peakReadU }),
      ...(fade === undefined ? {} : { fade }),
      ...(surge === null ? {} : { surge: surge.surge }),
      ...(snubber === undefined ? {} : { snubber }),
      ...(map === undefined ? {} : { map }),
    };
    const answer = shockOf(question, catalogue);
    if (answer.kind === "noEquilibrium") throw noAnswer(rig, answer, options.units);
    if (options.json) answerJson(io, shockDocument(question, answer, surge?.said ?? []));
    else io.out(shockText(question, answer, surge?.said ?? [], options.units));
  });
}

async function surgeOf(path: string, options: ShockOptions, io: Io): Promise<SurgeAsked | null> {
  if (path === "-" && options.boat === "-")
    throw new InputError("--boat", "-", "a file is expected: standard input is the rig");
  return surgeFrom(options, io);
}

const noSurge = (last: string): InputError =>
  new InputError("--speed", "", `a surge is expected to try a snubber on: --speed, --distance, ${last}`);

/** Snubbers over length and diameter on a rig. @throws NoAnswer where the steady load has no equilibrium */
export async function snubberMapOf(path: string, options: ShockOptions, io: Io) {
  const load = steadyFrom(options);
  const { diameters, lengths } = mapFrom(options.map!);
  const rope = readRopeName(options.rope ?? "polyamide three-strand", "--rope");
  const [kind, limits] = [kindFrom(options), limitsFrom(options)];
  const asked = await surgeOf(path, options, io);
  if (asked === null) throw noSurge("or --waves");
  const rig = await rigAt(path, io);
  const question = { rig, load, surge: asked(rig).surge, rope, kind, ends: options.ends, limits, lengths, diameters };
  const map = snubberMap(question, catalogue, "--rope");
  if (map.kind === "noEquilibrium") throw noAnswer(rig, map, options.units);
  return { rig, rope: `${rope.fibre} ${rope.lay}`, map };
}

/** The snubber of --snubber under the surge. @throws NoAnswer where the steady load has no equilibrium; InputError without one */
export async function snubberTriedOf(path: string, options: ShockOptions, io: Io) {
  const steady = steadyFrom(options);
  const snubber = snubberQuestion(options);
  if (snubber?.size === undefined)
    throw new InputError("--snubber", "", 'a diameter and a length are expected, such as "14 mm, 9 m"');
  const asked = await surgeOf(path, options, io);
  if (asked === null) throw noSurge("or --waves");
  const rig = await rigAt(path, io);
  const question: ShockQuestion = { rig, steady, loads: [], u: {}, surge: asked(rig).surge, snubber };
  const answer = shockOf(question, catalogue);
  if (answer.kind === "noEquilibrium") throw noAnswer(rig, answer, options.units);
  if (answer.snubber === undefined) throw noSurge("or --waves");
  return { rope: `${snubber.fibre} ${snubber.lay}`, diameter: snubber.size.diameter, answer: answer.snubber.answer };
}

function snubberQuestion(options: ShockOptions): SnubberQuestion | undefined {
  const { snubber, map, rope, slack, bridle, within, hookMass } = options;
  if (snubber === undefined && map === undefined) {
    for (const [place, given] of Object.entries({
      "--rope": rope,
      "--slack": slack,
      "--bridle": bridle,
      "--hook-mass": hookMass,
      "--within": within,
    })) {
      if (given !== undefined)
        throw new InputError(place, given === true ? "" : quoted(given), "a --snubber or a --map is expected with it");
    }
    return undefined;
  }
  const period = periodFrom(options);
  return {
    ...readRopeName(rope ?? "polyamide three-strand", "--rope"),
    ...(snubber === undefined ? {} : { size: snubberFrom(snubber) }),
    kind: kindFrom(options),
    ends: options.ends,
    limits: limitsFrom(options),
    ...(period === undefined ? {} : { period }),
  };
}
