/** Figures of rodes, runs, logs and the wind: each with what it is asked with, and how it is made. */
import { basename } from "node:path";
import { Command, Option } from "commander";
import {
  ladderFigure,
  matchMapFigure,
  type RodeAsked,
  rodeFigure,
  togetherFigure,
  traceFigure,
} from "../publish/index.ts";
import { InputError, quoted } from "../quantity/index.ts";
import { certaintyOf, longestLine, type Pull, sweepRows } from "../rode/index.ts";
import { type FigureKind, figureKind } from "./figure-kind.ts";
import type { MomentOptions } from "./figure-of-moment.ts";
import type { Io } from "./io.ts";
import { loadsFrom } from "./ladder.ts";
import { type LogOptions, withLogOptions } from "./log-options.ts";
import { ENDS, endFrom, placeOf, positive, pullFrom, pullU, pullUFrom, rigAt, type Shown } from "./options.ts";
import { type RideOptions, withRideOptions } from "./ride-options.ts";
import { noAnswer, settledOr } from "./settle.ts";
import type { ShockOptions } from "./shock-options.ts";
import { withBridle, withSnubberMap } from "./snubber-flags.ts";

interface Given extends Shown, LogOptions {
  readonly pull?: string;
  readonly at?: string;
  readonly span?: string;
  readonly pullU?: string;
  readonly kind: "load" | "scope";
  readonly of: "angle" | "distance";
  readonly wind: string;
  readonly boat?: string;
  readonly asks?: string;
  readonly readAt: "anchor" | "bow";
}

/** Every kind, in the order `--help` lists them. */
export function figuresOfRodes(io: Io): FigureKind[] {
  const kind = <G extends Shown = Given>(...of: Parameters<typeof figureKind<G>>) => figureKind<G>(...of);
  const pulled = (command: Command): Command =>
    command
      .option("--pull <load>", 'the load, such as "2 kN"')
      .addOption(new Option("--at <end>", "where it is stated").choices(ENDS).default("bow"))
      .addOption(pullU());
  const rodeAt = async (path: string, options: Given): Promise<RodeAsked> => {
    const pull = pullFrom(options);
    const rig = await rigAt(path, io);
    return { rig, pull, traced: settledOr(rig, pull, options.units), pullU: pullUFrom(options, pull) };
  };
  return [
    kind(
      pulled(new Command("rode").description("a rode as it lies under a load, to scale").argument("<rig>", "rig file")),
      async ([path], options) => rodeFigure(await rodeAt(path!, options), options.units),
    ),
    kind(
      pulled(
        new Command("together")
          .description("two rodes over each other, each under the load")
          .argument("<rig>", "rig file")
          .argument("<other>", "rig file"),
      ),
      async ([path, other], options) =>
        togetherFigure(await rodeAt(path!, options), await rodeAt(other!, options), options.units),
    ),
    kind(
      new Command("ladder")
        .description("angle at the anchor, or distance to it, over the load")
        .argument("<rig>", "rig file")
        .option("--pull <from..to/step>", 'loads, such as "0.2..4/0.1kN"')
        .addOption(new Option("--at <end>", "where they are stated").choices(ENDS).default("bow"))
        .addOption(
          new Option("--of <what>", "what is drawn over the load").choices(["angle", "distance"]).default("angle"),
        ),
      async ([path], { pull, at: end, of, units }) => {
        const [at, loads] = [endFrom(end), loadsFrom(pull, "--pull")];
        const rig = await rigAt(path!, io);
        const asked = loads.map((newtons): Pull => ({ at, newtons }));
        const rungs = [...sweepRows(rig, asked)].map((row, i) => {
          if (row.kind === "noEquilibrium") throw noAnswer(rig, row, units);
          const certainty = certaintyOf(rig, asked[i]!);
          const load = loads[i]!;
          return of === "angle"
            ? { load, value: row.settled.anchor.angle, u: certainty?.anchorAngle ?? null }
            : { load, value: row.settled.span, u: certainty?.span ?? null };
        });
        return ladderFigure(rig.name, of, at, rungs, units);
      },
    ),
    kind(
      new Command("map")
        .description("two setups over depth: loads of one angle at the anchor, or the scope each needs")
        .argument("<rig>", "rig file")
        .argument("<other>", "rig file")
        .option("--pull <load>", 'the load at the bow, such as "2 kN"')
        .addOption(
          new Option("--kind <kind>", "what is drawn over the depth").choices(["load", "scope"]).default("load"),
        ),
      async ([path, otherPath], { pull, kind: what, units }) => {
        const load = loadOf(pull);
        const [one, other] = [await rigAt(path!, io), await rigAt(otherPath!, io)];
        const paid = { one: longestLine(one), other: longestLine(other) };
        return matchMapFigure({ kind: what, one, other, paid, load, units });
      },
    ),
    ...(["angle", "movement"] as const).map((what) =>
      kind(
        new Command(what)
          .description(`${what} over load: the readings of a run against theory`)
          .argument("<run>", "run file"),
        async ([path], { units }) => (await import("./figure-of-readings.ts")).figureOfReadings(what, path!, units, io),
      ),
    ),
    kind(
      withLogOptions(
        new Command("trace")
          .description("the log of one pull: load over time, its plateaus and what it held")
          .argument("<log>", "log of a load cell")
          .addOption(new Option("--read-at <end>", "end the cell sat at").choices(["anchor", "bow"]).default("bow")),
      ),
      async ([path], options) => {
        const { reducedLog } = await import("./reduced-log.ts");
        return traceFigure(basename(placeOf(path!)), await reducedLog(path!, io, options), options.units);
      },
    ),
    kind(
      new Command("way")
        .description("load against the anchor's movement, a mark a load held: of what trace --json answered")
        .argument("<traced>", "answer of rodebench trace --json"),
      async ([path], { units }) =>
        (await import("./figure-of-way.ts")).figureOfWay(path!, basename(placeOf(path!), ".json"), units, io),
    ),
    kind(
      new Command("weather")
        .description("load of the wind on a boat, by each road that is known")
        .argument("<boat>", "boat file")
        .option("--wind <speed>", "strongest mean wind at 10 m drawn", "40 kn"),
      async ([path], { wind, units }) =>
        (await import("./figure-of-weather.ts")).figureOfWeather(path!, strongest(wind), units, io),
    ),
    kind<RideOptions>(
      withRideOptions(new Command("ride").description("a boat riding in gusts and waves: loads and angle over time")),
      // What rides is read when one is asked for: the other figures begin without it.
      async ([path], options) => (await import("./figure-of-ride.ts")).figureOfRide(path!, options, io, "time"),
    ),
    kind<RideOptions>(
      withRideOptions(
        new Command("shares").description(
          "a boat riding in gusts and waves: how long the load at the bow was how high",
        ),
      ),
      async ([path], options) => (await import("./figure-of-ride.ts")).figureOfRide(path!, options, io, "shares"),
    ),
    kind(
      new Command("give")
        .description("how far a little more load draws the boat back, over the wind: by weight raised and by stretch")
        .argument("<rig>", "rig file")
        .requiredOption("--boat <file>", "boat file (rodebench/boat@1) with its windage")
        .option("--wind <speed>", "strongest mean wind at 10 m drawn (default: past where catenary ends)")
        .option("--asks <give>", "give per load asked of raised weight", "0.1 m/kN"),
      async ([path], { boat, asks, wind, units }) => {
        const { figureOfGive } = await import("./figure-of-give.ts");
        return figureOfGive(
          path!,
          { boat: boat!, asks: asks!, most: wind === undefined ? null : strongest(wind) },
          units,
          io,
        );
      },
    ),
    kind<MomentOptions>(
      withRideOptions(
        new Command("moment").description(
          "boat and rode at a second of a ride, from the side and from above, to scale",
        ),
      ).requiredOption("--second <time>", "the second of the ride"),
      async ([path], options) => (await import("./figure-of-moment.ts")).figureOfMoment(path!, options, io),
    ),
    kind<ShockOptions>(
      withSnubberMap(
        new Command("snubbers")
          .description("snubbers over length and diameter: within all limits, or past which")
          .argument("<rig>", "rig file"),
      ),
      async ([path], options) => (await import("./figure-of-snubbers.ts")).figureOfSnubbers(path!, options, io),
    ),
    kind<ShockOptions>(
      withBridle(
        new Command("bridle")
          .description("a bridle from above, to scale, under the peak of a surge: --bridle says how it is rigged")
          .argument("<rig>", "rig file"),
      ),
      async ([path], options) => (await import("./figure-of-bridle.ts")).figureOfBridle(path!, options, io),
    ),
  ];
}

/** m/s */
function strongest(wind: string): number {
  const most = positive(wind, "speed", "--wind", "a wind above zero");
  if (most > 100) throw new InputError("--wind", quoted(wind), "a wind of at most 100 m/s is expected");
  return most;
}

function loadOf(text: string | undefined): number {
  return positive(text ?? "", "force", "--pull", "a load above zero");
}
