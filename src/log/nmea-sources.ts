/**
 * Which device a sentence comes from, and whether it is the one its quantity is read from: two receivers, two compasses
 * or a repeater beside them must not be blended. A device is known by the source of a tag block (NMEA 0183 4.0), else by
 * its talker. The talkers of satellite systems (GP, GN, GL, GA, GB, GQ) are one receiver as long as no sentence type
 * comes from two of them.
 */
import { Cells, type MessagePlan } from "./message-plan.ts";
import type { Sentence } from "./nmea-sentence.ts";
import type { ChannelReading } from "./sparse-rows.ts";

const GROUP: Readonly<Record<string, string>> = {
  RMC: "position",
  GGA: "position",
  GNS: "position",
  GLL: "position",
  VTG: "position",
  MWV: "wind",
  VWR: "wind",
  VWT: "wind",
  MWD: "wind over the ground",
  MDA: "wind over the ground",
  HDG: "heading",
  HDM: "heading",
  HDT: "true heading",
  VHW: "heading of the log",
  DPT: "depth",
  DBT: "depth",
  DBS: "depth",
};

/** The device of a sentence, by name. */
export function sourceOf(sentence: Sentence): string {
  return /\\(?:[^\\]*,)?s:([^,*\\]+)/.exec(sentence.prefix)?.[1] ?? sentence.talker;
}

const isSatellites = (source: string): boolean => /^G[PNLABQ]$/.test(source);

/** Counts who tells what. */
export class SourceCount {
  readonly names = new Set<string>();
  private readonly types = new Map<string, Map<string, number>>();

  count(sentence: Sentence): void {
    const { type } = sentence;
    if (GROUP[type] === undefined) return;
    const source = sourceOf(sentence);
    this.names.add(source);
    const spoke = this.types.get(type) ?? new Map<string, number>();
    this.types.set(type, spoke.set(source, (spoke.get(source) ?? 0) + 1));
  }

  /** How often each source told each group. */
  groups(): Map<string, Map<string, number>> {
    const groups = new Map<string, Map<string, number>>();
    for (const [type, spoke] of this.types) {
      const group = groups.get(GROUP[type]!) ?? new Map<string, number>();
      for (const [source, n] of spoke) group.set(source, (group.get(source) ?? 0) + n);
      groups.set(GROUP[type]!, group);
    }
    const place = groups.get("position");
    if (place !== undefined && [...place.keys()].filter(isSatellites).length > 1 && !this.twoReceivers()) {
      const one = new Map<string, number>();
      for (const [source, n] of place) {
        const name = isSatellites(source) ? RECEIVER : source;
        one.set(name, (one.get(name) ?? 0) + n);
      }
      groups.set("position", one);
    }
    return groups;
  }

  private twoReceivers(): boolean {
    return [...this.types].some(
      ([type, spoke]) => GROUP[type] === "position" && [...spoke.keys()].filter(isSatellites).length > 1,
    );
  }
}

/** Stands for all talkers of satellite systems together. */
const RECEIVER = "G*";

/** Lets through what comes from the source its group is read from, and loads under the channel of their cell. */
export class SentenceFilter {
  private readonly sources: Map<string, string>;
  private readonly cells: Cells;

  constructor(plan: MessagePlan, from?: { sources?: Readonly<Record<string, string>>; cell?: string | null }) {
    this.sources = new Map(Object.entries(from?.sources ?? plan.sources));
    this.cells = new Cells(plan, from?.cell ?? null);
  }

  isOfSource(sentence: Sentence, readings: readonly ChannelReading[]): boolean {
    const group = GROUP[sentence.type];
    if (group === undefined) return true;
    const source = sourceOf(sentence);
    const chosen = this.sources.get(group);
    if (chosen !== undefined) return chosen === source || (chosen === RECEIVER && isSatellites(source));
    // A group nobody had told before is read from whoever tells it first.
    if (readings.length > 0) this.sources.set(group, source);
    return true;
  }

  /** Null: not yet a sum; undefined: of a cell that is not read. */
  place(reading: ChannelReading): { readonly channel: string; readonly value: number } | null | undefined {
    return reading.kind === "load"
      ? this.cells.take(reading.from ?? "", reading.value)
      : { channel: reading.kind, value: reading.value };
  }

  state(): { sources: Record<string, string>; cell: string | null } {
    return { sources: Object.fromEntries(this.sources), cell: this.cells.met };
  }
}
