/**
 * Logs of Signal K deltas, one JSON document a line: values by path, in SI units as that standard has them. Lines of
 * other kinds, such as a server's hello, are passed over.
 */
import { z } from "zod";
import { readJson } from "../quantity/index.ts";
import type { GrantedCause } from "./cause.ts";
import { linesOf } from "./cells.ts";
import type { ChannelKind } from "./channel.ts";
import type { LogChoices } from "./choices.ts";
import { bytesOf } from "./encoding.ts";
import { LineReader, type LineState, type LineTaker } from "./line-reader.ts";
import { Cells, chooseCells, chooseSources, type MessagePlan, OPEN_PLAN, planOf } from "./message-plan.ts";
import { prefixTime } from "./nmea-sentence.ts";
import type { ChannelReading, SparseRows } from "./sparse-rows.ts";
import { StampReader } from "./stamp.ts";
import type { Question } from "./table-guess.ts";
import { shown, type Troubles } from "./troubles.ts";

const delta = z.object({
  context: z.string().optional(),
  updates: z.array(
    z.object({
      timestamp: z.string().optional(),
      $source: z.string().optional(),
      source: z
        .looseObject({
          label: z.string().optional(),
          talker: z.unknown().optional(),
          src: z.unknown().optional(),
          type: z.unknown().optional(),
        })
        .optional(),
      values: z.array(z.object({ path: z.string(), value: z.unknown() })).optional(),
    }),
  ),
});
type Update = z.infer<typeof delta>["updates"][number];

const PATHS: Readonly<Record<string, ChannelKind>> = {
  "navigation.speedOverGround": "speed",
  "navigation.courseOverGroundTrue": "course",
  "navigation.headingMagnetic": "heading",
  "navigation.headingTrue": "headingTrue",
  "environment.wind.speedApparent": "windSpeed",
  "environment.wind.angleApparent": "windAngle",
  "environment.wind.speedTrue": "trueWindSpeed",
  "environment.wind.angleTrueWater": "trueWindAngle",
  "environment.wind.directionTrue": "windDirection",
  "environment.depth.belowSurface": "depth",
  "environment.depth.belowTransducer": "depthBelowTransducer",
};

const place = z.object({ latitude: z.number().min(-90).max(90), longitude: z.number().min(-180).max(180) });

/** What a path that ends in load, tension, force or pull is: of the rode by its other words, of another thing, or neither told. */
export function loadOf(path: string): "rode" | "open" | null {
  if (!/(^|\.)(load|tension|force|pull)$/i.test(path)) return null;
  // Loads of batteries, engines, processors and sails are none of the rode's.
  if (
    /^(electrical|propulsion|tanks|environment|navigation|communication|notifications|design|performance)\./i.test(path)
  )
    return null;
  return RODE.test(path) || !path.includes(".") ? "rode" : "open";
}

const RODE = /anchor|rode|chain|mooring|ground|warp|bow|cell|pull|tow|dyna|bridle|snubber|winch|windlass|quay|rig\b/i;

/** The readings of one path; a load is what one of the paths told holds, or one that names the rode, N. */
export function pathReadings(path: string, value: unknown, loads: readonly string[] = []): readonly ChannelReading[] {
  if (path === "navigation.position") {
    const found = place.safeParse(value);
    // 0° N 0° E is where receivers without a fix say they are.
    if (!found.success || (found.data.latitude === 0 && found.data.longitude === 0)) return [];
    return [
      { kind: "latitude", value: found.data.latitude },
      { kind: "longitude", value: found.data.longitude },
    ];
  }
  if (typeof value !== "number" || !Number.isFinite(value)) return [];
  const kind = PATHS[path];
  if (kind !== undefined)
    return [{ kind, value: kind === "windAngle" || kind === "trueWindAngle" ? clockwise(value) : value }];
  const isLoad = loads.length > 0 ? loads.includes(path) : loadOf(path) === "rode";
  return isLoad ? [{ kind: "load", value, from: path }] : [];
}

/** Signal K counts wind angles to port below zero; sentences and this program count clockwise. */
function clockwise(angle: number): number {
  return angle < 0 ? angle + 2 * Math.PI : angle;
}

/** A log of Signal K deltas, and where its load stands. */
export interface SignalKGuess {
  readonly kind: "signalk";
  /** Paths of the boat met in the head of the file and how often. */
  readonly paths: Readonly<Record<string, number>>;
  /** True when updates state their time. */
  readonly timed: boolean;
  readonly questions: readonly Question[];
  readonly remarks: readonly GrantedCause[];
  /** Null while a question stands open. */
  readonly plan: MessagePlan | null;
}

/** Judges the head of a log of deltas; null when it holds none. */
export function guessSignalK(text: string, told: LogChoices = {}): SignalKGuess | null {
  const met = new Map<string, number>();
  const lines: Delta[] = [];
  let deltas = 0;
  let written = 0;
  let timed = false;
  let self: string | null = null;
  for (const line of linesOf(text, 2000)) {
    if (line.text.trim() === "") continue;
    written++;
    const read = readDelta(line.text);
    if (typeof read === "string") continue;
    if (read.self !== null) self ??= vesselOf(read.self);
    if (read.updates.length === 0) continue;
    deltas++;
    lines.push(read);
    for (const update of read.updates) {
      if (update.timestamp !== undefined || !Number.isNaN(read.logged)) timed = true;
      if (read.context !== undefined) met.set(read.context, (met.get(read.context) ?? 0) + 1);
    }
  }
  if (deltas === 0 || deltas < written * 0.3) return null;
  const questions: Question[] = [];
  const own = chooseVessel(met, self, lines, told, questions);
  const paths: Record<string, number> = {};
  const sources = new Map<string, Map<string, number>>();
  let others = 0;
  for (const read of lines) {
    if (!isOwn(read.context, own)) {
      others++;
      continue;
    }
    for (const update of read.updates)
      for (const { path } of update.values ?? []) {
        paths[path] = (paths[path] ?? 0) + 1;
        if (PATHS[path] === undefined && path !== "navigation.position" && loadOf(path) === null) continue;
        const spoke = sources.get(path) ?? new Map<string, number>();
        const source = sourceOf(update);
        sources.set(path, spoke.set(source, (spoke.get(source) ?? 0) + 1));
      }
  }
  const cells = Object.keys(paths).filter((path) => loadOf(path) === "rode");
  const open = Object.keys(paths).filter((path) => loadOf(path) === "open");
  if (told.loadPath === undefined && cells.length === 0 && open.length > 0)
    questions.push({
      about: "load",
      question: { kind: "perhapsTheLoad", paths: open.map(shown) },
      answers: [...open.map((path) => `--load-path ${path}`), "--load-path none"],
    });
  const { loads, sum } = chooseCells(cells, told, "paths", questions);
  const contested = new Map(
    [...sources].filter(([path]) => loadOf(path) === null || loads.length === 0 || loads.includes(path)),
  );
  const chosen = chooseSources(contested, told.sources ?? [], questions);
  const remarks: GrantedCause[] = [
    ...(others > 0 ? [{ kind: "otherVessels", others, deltas: lines.length } as const] : []),
    ...(told.loadPath === undefined && cells.length > 0 && open.length > 0
      ? [{ kind: "notTheLoad", paths: open.map(shown) } as const]
      : []),
  ];
  return {
    kind: "signalk",
    paths,
    timed,
    questions,
    remarks,
    plan: questions.length > 0 ? null : planOf(loads, sum, chosen, own),
  };
}

/** The vessel the log was kept on: told, said by the server, `vessels.self`, or the only one; asked otherwise. */
function chooseVessel(
  met: ReadonlyMap<string, number>,
  self: string | null,
  lines: readonly Delta[],
  told: LogChoices,
  questions: Question[],
): string | null {
  if (told.context !== undefined) return vesselOf(told.context);
  if (self !== null) return self;
  const named = new Set([...met.keys()].filter((context) => context.startsWith("vessels.")).map(vesselOf));
  if (named.has("self") || lines.some((read) => read.context === undefined)) return "self";
  if (named.size < 2) return [...named][0] ?? null;
  const words = new Map<string, Set<string>>();
  for (const { context, updates } of lines) {
    const paths = words.get(vesselOf(context!)) ?? new Set<string>();
    for (const { path } of updates.flatMap((update) => update.values ?? [])) paths.add(path);
    words.set(vesselOf(context!), paths);
  }
  const first = [...named].reduce((best, name) => (words.get(name)!.size > words.get(best)!.size ? name : best));
  questions.push({
    about: "vessel",
    question: {
      kind: "severalVessels",
      vessels: named.size,
      most: shown(first),
      quantities: words.get(first)!.size,
    },
    answers: [first, ...[...named].filter((name) => name !== first).slice(0, 5)].map(
      (name) => `--context vessels.${name}`,
    ),
  });
  return null;
}

const vesselOf = (context: string): string => context.replace(/^vessels\./, "");

/** A delta that names no vessel, or `vessels.self`, is of the boat the log was kept on. */
function isOwn(context: string | undefined, self: string | null): boolean {
  if (context === undefined || context === "vessels.self" || context === "self" || context === "") return true;
  return self !== null && vesselOf(context) === self;
}

/** The device of an update, by name. */
function sourceOf({ $source, source }: Update): string {
  if ($source !== undefined) return $source;
  if (source === undefined) return "";
  const part = source.talker ?? source.src;
  return `${source.label ?? source.type ?? ""}${part === undefined ? "" : `.${part}`}`;
}

type Delta = z.infer<typeof delta> & { readonly logged: number; readonly self: string | null };

/** One line as a delta, or what was expected of it. */
function readDelta(text: string): Delta | string {
  const start = text.indexOf("{");
  if (start < 0) return "a delta as JSON on one line is expected";
  let json: unknown;
  try {
    json = readJson(text.slice(start), "");
  } catch {
    return "a whole JSON document on one line is expected";
  }
  if (typeof json === "object" && json !== null && !("updates" in json)) {
    const { self } = json as { self?: unknown };
    return { updates: [], logged: Number.NaN, self: typeof self === "string" ? self : null };
  }
  const read = delta.safeParse(json);
  if (!read.success)
    return `a delta with updates of paths and values is expected (${read.error.issues[0]?.path.join(".") ?? ""})`;
  return { ...read.data, logged: prefixTime(text.slice(0, start)), self: null };
}

/** Makes the reader of a log of deltas. */
export function signalKReader(options: { plan?: MessagePlan; capacity?: number; from?: LineState } = {}): LineReader {
  const plan = options.plan ?? OPEN_PLAN;
  return new LineReader(
    plan.channels.map((channel) => channel.name),
    new DeltaTaker(plan, options.from?.own as OwnState | undefined),
    options.capacity,
    options.from,
  );
}

interface OwnState {
  readonly sources: Readonly<Record<string, string>>;
  readonly cell: string | null;
}

/** Lets through what is of the boat and from the source its path is read from. */
export class DeltaFilter {
  private readonly plan: MessagePlan;
  private readonly sources: Map<string, string>;
  private readonly cells: Cells;

  constructor(plan: MessagePlan, from?: OwnState) {
    this.plan = plan;
    this.sources = new Map(Object.entries(from?.sources ?? plan.sources));
    this.cells = new Cells(plan, from?.cell ?? null);
  }

  /** Readings of an update, each under its channel; how many are of other sources. */
  readings(
    context: string | undefined,
    update: Update,
  ): { taken: { channel: string; value: number }[]; others: number } {
    const taken: { channel: string; value: number }[] = [];
    let others = 0;
    const { plan } = this;
    const own = isOwn(context, plan.self);
    for (const { path, value } of update.values ?? []) {
      const readings = pathReadings(path, value, plan.loads);
      if (readings.length === 0) continue;
      if (!own || !this.isOfSource(path, sourceOf(update))) {
        others += readings.length;
        continue;
      }
      for (const reading of readings) {
        if (reading.kind !== "load") {
          taken.push({ channel: reading.kind, value: reading.value });
          continue;
        }
        const load = this.cells.take(path, reading.value);
        if (load === undefined) others++;
        else if (load !== null) taken.push(load);
      }
    }
    return { taken, others };
  }

  state(): OwnState {
    return { sources: Object.fromEntries(this.sources), cell: this.cells.met };
  }

  private isOfSource(path: string, source: string): boolean {
    const chosen = this.sources.get(path);
    if (chosen === undefined) this.sources.set(path, source);
    return chosen === undefined || chosen === source;
  }
}

/** All readings of one line that pass the filter, whatever their times; what was expected where it is no delta. */
export function deltaReadings(
  text: string,
  filter: DeltaFilter,
): readonly { channel: string; value: number }[] | string {
  const read = readDelta(text);
  if (typeof read === "string") return read;
  return read.updates.flatMap((update) => filter.readings(read.context, update).taken);
}

class DeltaTaker implements LineTaker {
  private readonly stamps = new StampReader("ymd");
  private readonly filter: DeltaFilter;

  constructor(plan: MessagePlan, from?: OwnState) {
    this.filter = new DeltaFilter(plan, from);
  }

  take(text: string, line: number, rows: SparseRows, troubles: Troubles): void {
    const read = readDelta(text);
    if (typeof read === "string") {
      troubles.rejected++;
      troubles.note(line, text, read);
      return;
    }
    for (const update of read.updates) {
      const { taken, others } = this.filter.readings(read.context, update);
      troubles.others += others;
      if (taken.length === 0) continue;
      const time =
        update.timestamp === undefined
          ? read.logged
          : this.stamps.read(bytesOf(update.timestamp), 0, update.timestamp.length);
      if (!Number.isNaN(time)) rows.at(time, line);
      if (!rows.timed) {
        troubles.unreadable += taken.length;
        troubles.note(line, text, "an update with a timestamp is expected before the first reading");
        continue;
      }
      for (const { channel, value } of taken)
        if (!rows.add(channel, value, line)) troubles.standIn(line, String(value));
    }
  }

  state(): OwnState {
    return this.filter.state();
  }
}
