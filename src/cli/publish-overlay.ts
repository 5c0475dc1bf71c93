import { existsSync, readdirSync, statSync } from "node:fs";
import { basename, join, resolve } from "node:path";
import { Command, Option } from "commander";
import { makeFolders } from "../book/index.ts";
import {
  CORNERS,
  type Cut,
  clipFrames,
  FRAMES_HEAD,
  type FrameRate,
  filmOf,
  frameCount,
  frameLine,
  MOST_FRAMES,
  nanosecondsOf,
  rateText,
  readCuts,
  readFrameRate,
  readFrameSize,
  type Sync,
  secondsText,
  wholeClip,
} from "../publish/index.ts";
import { InputError, parseQuantity, quoted } from "../quantity/index.ts";
import { CODECS, checkClip, writeClip } from "./clip-with-alpha.ts";
import { pictures } from "./figure-tools.ts";
import type { Io } from "./io.ts";
import { type LogOptions, withLogOptions } from "./log-options.ts";
import { answerJson, placeOf, rigAt, type Shown, shown } from "./options.ts";
import { workLine } from "./progress.ts";

interface Options extends Shown, LogOptions {
  readonly rig: string;
  readonly readAt: "anchor" | "bow";
  readonly clipRate: string;
  readonly mark: string;
  readonly markFrame: string;
  readonly frames?: string;
  readonly cuts?: string;
  readonly size: string;
  readonly place: (typeof CORNERS)[number];
  readonly share: string;
  readonly loadU?: string;
  readonly to: string;
  readonly clip?: string;
  readonly codec: keyof typeof CODECS;
}

/** `rodebench publish overlay`: load, angle and rode in time with a clip, as transparent pictures. */
export function publishOverlayCommand(io: Io): Command {
  const command = new Command("overlay")
    .description("load, angle and the rode moving, in time with a clip: transparent pictures, and a clip with alpha")
    .argument("<log>", "log of a load cell; - for standard input")
    .requiredOption("--rig <file>", "the rode that was pulled on")
    .requiredOption("--clip-rate <rate>", "frames a second of the clip, exactly: 25, 30000/1001")
    .requiredOption("--to <folder>", "a new or empty folder for the pictures")
    .addOption(new Option("--read-at <end>", "end the cell sat at").choices(["anchor", "bow"]).default("bow"))
    .option("--mark <time>", "when the clip's start mark is in the log, from its first reading", "0 s")
    .option("--mark-frame <number>", "frame of the clip in which that mark is seen, the first being 0", "0")
    .option("--frames <number>", "frames of the clip (default: to the end of the log)")
    .option(
      "--cuts <list>",
      "stretches of the clip that are in the film, such as 0..250,900..1200 (the last not in it)",
    )
    .option("--size <width x height>", "size of a frame, pixels", "1920x1080")
    .addOption(new Option("--place <corner>", "where it stands").choices(CORNERS).default("below-left"))
    .option("--share <share>", "of the frame's width it takes", "35 %")
    .option("--load-u <load>", "standard uncertainty of a load read")
    .option("--clip <file>", "a clip with alpha too (.mov), by ffmpeg where it is installed")
    .addOption(new Option("--codec <name>", "of that clip").choices(Object.keys(CODECS)).default("prores"));
  return shown(withLogOptions(command)).action((path: string, options: Options) => overlay(path, options, io));
}

async function overlay(path: string, options: Options, io: Io): Promise<void> {
  const rate = readFrameRate(options.clipRate, "--clip-rate");
  const place = placeFrom(options);
  const mark = parseQuantity(options.mark, "time", "--mark");
  const sync: Sync = {
    rate,
    markFrame: whole(options.markFrame, "--mark-frame"),
    markNs: BigInt(Math.round(mark * 1e9)),
  };
  const loadU = options.loadU === undefined ? undefined : parseQuantity(options.loadU, "force", "--load-u");
  if (loadU !== undefined && !(loadU >= 0))
    throw new InputError("--load-u", quoted(options.loadU!), "a standard uncertainty not below zero is expected");
  if (options.clip !== undefined) checkClip(options.clip);
  const draw = await pictures(options.to);
  const rig = await rigAt(options.rig, io);
  const { reducedLog } = await import("./reduced-log.ts");
  const { series } = await reducedLog(path, io, options);
  const log = { time: series.time, load: series.load };
  const film = filmOf({ log, rig, at: options.readAt, ...(loadU === undefined ? {} : { loadU }) });
  if (film.kind !== "film")
    throw film.kind === "noLoad"
      ? new InputError(placeOf(path), "no load above zero", "the log of a pull is expected")
      : new InputError(
          placeOf(options.rig),
          "no equilibrium under the log's highest load",
          "the rode of that log is expected",
        );
  const cuts = cutsFrom(options, sync, log.time);
  const count = frameCount(cuts);
  if (count > MOST_FRAMES)
    throw new InputError("--frames", String(count), `at most ${MOST_FRAMES} frames are expected`);
  const folder = resolve(io.cwd, options.to);
  if (existsSync(folder) && (!statSync(folder).isDirectory() || readdirSync(folder).length > 0))
    throw new InputError(options.to, "there is something already", "a new or empty folder is expected");
  makeFolders(folder);

  const line = workLine(`${count} frames`, io);
  const table = [FRAMES_HEAD];
  let [last, bytes] = ["", new Uint8Array()];
  let frame = 0;
  for (const clipFrame of clipFrames(cuts)) {
    if (io.stop.aborted) break;
    const now = film.frame(clipFrame, { sync, place, units: options.units });
    if (now.svg !== last) [last, bytes] = [now.svg, new Uint8Array(draw(now.svg, place.width).png)];
    await io.write(join(options.to, `frame-${String(frame).padStart(6, "0")}.png`), bytes);
    table.push(frameLine(frame, clipFrame, sync, now));
    frame++;
    line.show(frame, count);
  }
  line.end();
  await io.write(join(options.to, "frames.csv"), table.join(""));
  const stopped = frame < count;
  if (options.clip !== undefined && !stopped)
    await writeClip(
      join(folder, "frame-%06d.png"),
      rateText(rate),
      options.codec,
      resolve(io.cwd, options.clip),
      io.stop,
    );
  answer(path, { ...options, count, frame, stopped, rate, width: place.width, height: place.height }, io);
}

interface Told extends Omit<Options, "rate"> {
  readonly count: number;
  readonly frame: number;
  readonly stopped: boolean;
  readonly rate: FrameRate;
  readonly width: number;
  readonly height: number;
}

function answer(path: string, told: Told, io: Io): void {
  const { to, clip, frame, count, stopped, rate, width, height } = told;
  const seconds = secondsText(nanosecondsOf(frame, rate));
  const file = clip === undefined || stopped ? null : clip;
  if (told.json)
    answerJson(io, {
      format: "rodebench/overlay-published@1",
      ...{ folder: to, frames: frame, of: count, stopped, width_px: width, height_px: height },
      rate: { frames: Number(rate.frames), per_s: Number(rate.per) },
      length_s: Number(seconds),
      clip: file,
    });
  else
    io.out(
      `${to}: ${stopped ? `stopped after ${frame} of ${count}` : frame} frames of ${basename(placeOf(path))}, ${width} × ${height}, ${rateText(rate)} a second, ${seconds} s\n${join(to, "frames.csv")}: when each frame is, in the clip and in the log\n${file === null ? "" : `${file}: a clip with alpha\n`}`,
    );
}

function placeFrom({ size, place, share }: Options) {
  const part = parseQuantity(share, "ratio", "--share");
  if (!(part >= 0.1 && part <= 0.9))
    throw new InputError("--share", quoted(share), "a share from 10 % to 90 % is expected");
  return { ...readFrameSize(size, "--size"), corner: place, share: part };
}

function whole(text: string, place: string): number {
  const number = Number(text);
  if (text.trim() === "" || !Number.isSafeInteger(number) || number < 0 || number > 1e8)
    throw new InputError(place, quoted(text), "a whole number from 0 is expected");
  return number;
}

/** The cut list, or the clip whole: as long as stated, or to the end of the log. */
function cutsFrom({ cuts, frames }: Options, sync: Sync, time: Float64Array): readonly Cut[] {
  if (cuts !== undefined) {
    if (frames !== undefined)
      throw new InputError("--frames", quoted(frames), "--cuts or --frames is expected, not both");
    return readCuts(cuts, "--cuts");
  }
  if (frames !== undefined) {
    const to = whole(frames, "--frames");
    if (to === 0) throw new InputError("--frames", quoted(frames), "a number of frames above zero is expected");
    return [{ from: 0, to }];
  }
  const clip = wholeClip(time, sync);
  if (clip === null)
    throw new InputError("--mark", "the clip begins after the log ends", "a mark within the log is expected");
  return [clip];
}
