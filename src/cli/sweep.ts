import { createHash } from "node:crypto";
import { mkdir } from "node:fs/promises";
import { availableParallelism } from "node:os";
import { dirname, isAbsolute, join, resolve } from "node:path";
import { Command } from "commander";
import {
  readSweep,
  type Shard,
  type Sweep,
  type SweepFiles,
  type SweepRow,
  shardRide,
  shardRides,
  sweepPaths,
  sweepRides,
  sweepTotals,
  WHOLE,
} from "../motion/index.ts";
import { InputError, quoted } from "../quantity/index.ts";
import { diskFull } from "./disk-full.ts";
import type { Io } from "./io.ts";
import { answerJson, placeOf, type Shown, shown } from "./options.ts";
import { type RidesOf, writeRides } from "./rides-parquet.ts";
import { type SweepFolder, sweepFolder } from "./sweep-folder.ts";
import { sweepDocument, sweepText } from "./sweep-text.ts";
import { rideAll } from "./sweep-threads.ts";
import { programVersion } from "./version.ts";

interface Options extends Shown {
  readonly shard?: string;
  readonly into?: string;
  readonly threads?: string;
}

const MOST_PARTS = 100_000;
const MOST_THREADS = 256;

export function sweepCommand(io: Io): Command {
  return shown(
    new Command("sweep")
      .argument("<file>", "sweep file (rodebench/sweep@1)")
      .option("--shard <part>", "one part of so many, such as 3/16; join puts them together")
      .option("--into <folder>", "folder of the finished rides; beside the file and named for it where left out")
      .option("--threads <count>", "threads at work; as many as the machine has cores where left out"),
  ).action(async (path: string, options: Options) => {
    const sweep = await sweepAt(path, io);
    const shard = options.shard === undefined ? WHOLE : readShard(options.shard);
    const threads = options.threads === undefined ? availableParallelism() : readThreads(options.threads);
    const into = options.into ?? (path === "-" ? "sweep.rides" : `${path.replace(/\.(ya?ml|json)$/i, "")}.rides`);
    const folder = resolve(io.cwd, into);
    const of: RidesOf = {
      name: sweep.name,
      fingerprint: createHash("sha256").update(JSON.stringify(sweep)).digest("hex"),
      version: programVersion(),
      rides: sweepRides(sweep),
      parts: [`${shard.part}/${shard.of}`],
    };
    const rides = sweepFolder(folder, into, { fingerprint: of.fingerprint, version: of.version });
    try {
      await mkdir(folder, { recursive: true });
    } catch (error) {
      if (diskFull(error) !== undefined) throw Object.assign(error as Error, { path: into });
      throw new InputError(into, "no folder can be made there", "a path in a writable folder is expected");
    }
    const found = await rideShard({ sweep, shard, threads, rides, io });
    const totals = sweepTotals();
    const whole = shardRides(sweep, shard);
    const name = shard.of === 1 ? "rides.parquet" : `part-${shard.part}-of-${shard.of}.parquet`;
    let done = 0;
    const counted = async function* (): AsyncGenerator<SweepRow> {
      for (let k = 0; k < whole; k++) {
        const row = await rides.read(shardRide(shard, k));
        if (row === null) continue;
        done++;
        totals.add(row);
        yield row;
      }
    };
    const stopped = io.stop.aborted;
    if (stopped) for await (const _ of counted());
    else await writeRides(join(folder, name), of, counted());
    const told = {
      sweep: sweep.name,
      shard,
      rides: of.rides,
      asked: whole,
      done,
      found,
      stopped,
      file: stopped ? null : join(into, name),
      folder: into,
      cases: totals.cases(),
    };
    if (options.json) answerJson(io, sweepDocument("rodebench/swept@1", told));
    else io.out(sweepText(told, options.units));
  });
}

/** Reads a sweep with the files it names, which stand beside it. */
async function sweepAt(path: string, io: Io): Promise<Sweep> {
  const place = placeOf(path);
  const text = await io.read(path);
  const beside = path === "-" ? "." : dirname(path);
  const files: Record<string, { text: string; place: string }> = {};
  for (const name of sweepPaths(text, place)) {
    const at = isAbsolute(name) || beside === "." ? name : join(beside, name);
    files[name] = { text: await io.read(at), place: at };
  }
  return readSweep(text, place, files as SweepFiles);
}

interface Work {
  readonly sweep: Sweep;
  readonly shard: Shard;
  readonly threads: number;
  readonly rides: SweepFolder;
  readonly io: Io;
}

/** A terminal's line is drawn anew so often, ms; elsewhere lines add up. */
const REDRAWN = 250;
const ELSEWHERE = 30_000;

/** Rides what is not done yet. @returns how many were found done */
async function rideShard({ sweep, shard, threads, rides, io }: Work): Promise<number> {
  const whole = shardRides(sweep, shard);
  const began = Date.now();
  let k = 0;
  let found = 0;
  let ridden = 0;
  let drawnAt = began;
  await rideAll({
    sweep,
    threads: Math.min(threads, whole),
    stop: io.stop,
    async next() {
      for (; k < whole; k++) {
        const ride = shardRide(shard, k);
        if ((await rides.read(ride)) === null) {
          k++;
          return ride;
        }
        found++;
      }
      return undefined;
    },
    async done(row) {
      await rides.write(row);
      ridden++;
    },
    tell(underWay) {
      const now = Date.now();
      const here = ridden + underWay;
      const done = found + ridden;
      if (now - drawnAt < (io.isTerminal ? REDRAWN : ELSEWHERE)) return;
      drawnAt = now;
      const left =
        here > 0 ? `, some ${Math.ceil(((now - began) * (whole - found - here)) / here / 1000)} s to go` : "";
      const text = `sweep: ${done} of ${whole} rides${left}; ctrl-c stops, the same command goes on`;
      if (io.isTerminal) io.redraw(text);
      else io.err(`${text}\n`);
    },
  });
  if (io.isTerminal) io.redraw("");
  return found;
}

function readShard(text: string): Shard {
  const [part, of, ...rest] = text.split("/").map((one) => (/^\d+$/.test(one.trim()) ? Number(one) : Number.NaN));
  if (rest.length > 0 || !(of! >= 1 && of! <= MOST_PARTS) || !(part! >= 1 && part! <= of!))
    throw new InputError("--shard", quoted(text), "a part, from 1 to the number of parts, is expected, such as 3/16");
  return { part: part!, of: of! };
}

function readThreads(text: string): number {
  const value = Number(text);
  if (!(Number.isInteger(value) && value >= 1 && value <= MOST_THREADS))
    throw new InputError("--threads", quoted(text), `a whole number from 1 to ${MOST_THREADS} is expected`);
  return value;
}
