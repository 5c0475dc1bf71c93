/** How a log of messages (sentences, deltas) is read: whose they are, which source each quantity is taken from, which cells hold the load. */
import { CHANNELS, type Channel, type ChannelKind } from "./channel.ts";
import type { LogChoices } from "./choices.ts";
import type { Question } from "./table-guess.ts";
import { shown } from "./troubles.ts";

/** How the messages of a log are read. */
export interface MessagePlan {
  /** Channels a row is laid out in; those silent throughout take no room. */
  readonly channels: readonly Channel[];
  /** Names of the load cells (transducers of XDR, paths of deltas) in the order of their channels; empty: the first met. */
  readonly loads: readonly string[];
  /** The cells are added up into one load. */
  readonly sum: boolean;
  /** What each group of sentences, or each path, is taken from. What stands in none is taken from the first source met. */
  readonly sources: Readonly<Record<string, string>>;
  /** The vessel whose deltas are read; null: none states a vessel. */
  readonly self: string | null;
}

/** Kinds of channel messages can fill beside loads. */
export const MESSAGE_KINDS: readonly ChannelKind[] = [
  "angle",
  "latitude",
  "longitude",
  "speed",
  "course",
  "heading",
  "headingTrue",
  "windSpeed",
  "windAngle",
  "trueWindSpeed",
  "trueWindAngle",
  "windDirection",
  "depth",
  "depthBelowTransducer",
];

/** The plan of a log whose sources and cells are taken as they come: the first of each. */
export const OPEN_PLAN: MessagePlan = planOf([], false, {}, null);

export function planOf(
  loads: readonly string[],
  sum: boolean,
  sources: Readonly<Record<string, string>>,
  self: string | null,
): MessagePlan {
  const { unit } = CHANNELS.load;
  const cells = sum || loads.length < 2 ? [loads.length === 0 ? "load" : loads.join(" + ")] : loads;
  const channels = [
    ...cells.map(
      (from, k): Channel => ({ name: k === 0 ? "load" : `load-${k + 1}`, kind: "load", from, fromUnit: unit }),
    ),
    ...MESSAGE_KINDS.map((kind): Channel => ({ name: kind, kind, from: kind, fromUnit: CHANNELS[kind].unit })),
  ];
  return { channels, loads, sum, sources, self };
}

/** Which of several cells hold the load; asked where nothing tells. */
export function chooseCells(
  names: readonly string[],
  told: LogChoices,
  of: "transducers" | "paths",
  questions: Question[],
): { loads: readonly string[]; sum: boolean } {
  if (told.loadPath !== undefined) return { loads: told.loadPath === "none" ? [NO_LOAD] : [told.loadPath], sum: false };
  if (names.length < 2 || told.loads !== undefined)
    return { loads: names, sum: told.loads === "sum" && names.length > 1 };
  questions.push({
    about: "several loads",
    question: { kind: "severalCells", of, names: names.map(shown) },
    answers: [
      ...names.map((name) => `--load-path ${name.includes(" ") ? `'${name}'` : name}`),
      "--loads sum",
      "--loads each",
    ],
  });
  return { loads: names, sum: false };
}

/** Stands for no cell at all: none is called so. */
export const NO_LOAD = "\u0000none";

/** Which of several sources of one quantity is taken; asked where nothing tells. */
export function chooseSources(
  /** For each group, how often each source spoke. */
  groups: ReadonlyMap<string, ReadonlyMap<string, number>>,
  told: readonly string[],
  questions: Question[],
): Record<string, string> {
  const sources: Record<string, string> = {};
  const asked = new Map<string, { names: string[]; groups: string[]; first: string; often: number }>();
  for (const [group, spoke] of groups) {
    const names = [...spoke.keys()];
    const chosen = names.length === 1 ? names[0] : told.find((name) => spoke.has(name));
    if (chosen !== undefined) {
      sources[group] = chosen;
      continue;
    }
    const first = names.reduce((best, name) => (spoke.get(name)! > spoke.get(best)! ? name : best));
    const key = JSON.stringify([...names].sort());
    const same = asked.get(key);
    if (same) same.groups.push(group);
    else asked.set(key, { names, groups: [group], first, often: spoke.get(first)! });
  }
  for (const { names, groups: of, first, often } of asked.values())
    questions.push({
      about: "several sources",
      question: { kind: "severalSources", of, names: names.map(shown), most: shown(first), readings: often },
      answers: names.map((name) => `--source ${name.includes(" ") ? `'${name}'` : name}`),
    });
  return sources;
}

/** Sums the latest reading of each cell, as soon as each has spoken anew; hands each on under its own channel otherwise. */
export class Cells {
  private readonly plan: MessagePlan;
  private readonly places = new Map<string, string>();
  private readonly fresh = new Map<string, number>();
  private first: string | null;

  /** @param first the cell met first, where none was told */
  constructor(plan: MessagePlan, first: string | null) {
    this.plan = plan;
    this.first = first;
    plan.loads.forEach((name, k) => {
      this.places.set(name, plan.sum || k === 0 ? "load" : `load-${k + 1}`);
    });
  }

  get met(): string | null {
    return this.first;
  }

  /** The channel and value of a cell's reading; null: not yet a sum; undefined: of another cell. */
  take(name: string, newtons: number): { readonly channel: string; readonly value: number } | null | undefined {
    const { plan, fresh } = this;
    if (plan.loads.length === 0) {
      this.first ??= name;
      return name === this.first ? { channel: "load", value: newtons } : undefined;
    }
    const channel = this.places.get(name);
    if (channel === undefined) return undefined;
    if (!plan.sum) return { channel, value: newtons };
    fresh.set(name, newtons);
    if (fresh.size < plan.loads.length) return null;
    const value = [...fresh.values()].reduce((sum, one) => sum + one, 0);
    fresh.clear();
    return { channel, value };
  }
}
