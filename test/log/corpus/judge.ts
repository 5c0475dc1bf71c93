/** A log with what is true of it, and the judgement of what the reader made of it. */
import { Command } from "commander";
import { choicesFrom, type LogOptions, withLogOptions } from "../../../src/cli/log-options.ts";
import { type ChannelKind, type Clock, gatherLog, type LogRows } from "../../../src/log/index.ts";
import { InputError } from "../../../src/quantity/index.ts";
import { endedWords, grantedWords, leftOutWords, loadWarnings, logQuestionWords } from "../../../src/words/index.ts";

/** What must come out: each list is of the rows in which that channel holds a value, in the order of the file. */
export interface Truth {
  readonly clock: Clock;
  /** s and N. */
  readonly load?: readonly (readonly [time: number, newtons: number])[];
  readonly more?: Partial<Record<string, readonly (readonly [time: number, value: number])[]>>;
  /** Kinds that must not come out at all. */
  readonly none?: readonly ChannelKind[];
}

export interface LogCase {
  readonly name: string;
  readonly bytes: string | Uint8Array;
  /** Must be asked first, in such words; then `told` answers it. */
  readonly asks?: RegExp;
  /** Options of the command that answer. */
  readonly told?: readonly string[];
  /** Must be refused, in such words. */
  readonly refused?: RegExp;
  readonly truth?: Truth;
  /** What must be said beside what is read. */
  readonly says?: readonly RegExp[];
}

export type Verdict =
  | { readonly kind: "read" | "asked" | "refused"; readonly words: string }
  | { readonly kind: "wrong"; readonly why: string };

function options(words: readonly string[]) {
  const command = withLogOptions(new Command().exitOverride());
  return choicesFrom(command.parse([...words], { from: "user" }).opts<LogOptions>());
}

export const bytesOfCase = ({ bytes }: Pick<LogCase, "bytes">): Uint8Array =>
  typeof bytes === "string" ? new TextEncoder().encode(bytes) : bytes;

/** Reads as the command does. @returns rows, or the one line of the refusal or question */
export function readCase(bytes: Uint8Array, told: readonly string[] = []): LogRows | string {
  try {
    return gatherLog(bytes, "log", logQuestionWords, options(told));
  } catch (error) {
    if (error instanceof InputError) return error.message;
    throw error;
  }
}

/** All that is said beside the rows. */
export function said(rows: LogRows): string {
  return [
    ...rows.remarks.map(grantedWords),
    ...leftOutWords(rows.troubles),
    ...loadWarnings(rows.seen, rows.troubles, (n) => `${Number(n.toPrecision(4))} N`),
    ...endedWords(rows.ended),
    ...rows.marks.map((mark) => mark.kind),
  ].join("\n");
}

/** Compares with the truth. Loads to one in a thousand and times to 2 ms: the files hold no more digits than that asks. */
export function differs(rows: LogRows, truth: Truth): string | null {
  if (rows.clock !== truth.clock) return `clock ${rows.clock}, not ${truth.clock}`;
  const wanted: [string, readonly (readonly [number, number])[]][] = Object.entries(truth.more ?? {}) as never;
  if (truth.load !== undefined) wanted.unshift(["load", truth.load]);
  for (const [name, list] of wanted) {
    const k = rows.channels.findIndex((channel) => channel.name === name);
    if (k < 0 && list.length > 0) return `no ${name}`;
    const got: [number, number][] = [];
    if (k >= 0) rows.values[k]!.forEach((value, i) => void (Number.isNaN(value) || got.push([rows.time[i]!, value])));
    if (got.length !== list.length) return `${got.length} of ${name}, not ${list.length}`;
    for (const [i, [time, value]] of list.entries()) {
      if (Math.abs(got[i]![0] - time) > 0.002) return `${name} ${i} at ${got[i]![0]} s, not ${time}`;
      const near = name === "latitude" || name === "longitude" ? 2e-6 : 1e-3 * Math.abs(value) + 1e-9;
      if (Math.abs(got[i]![1] - value) > near) return `${name} ${i} is ${got[i]![1]}, not ${value}`;
    }
  }
  const loads = rows.channels.filter((channel) => channel.kind === "load").map((channel) => channel.name);
  const more = loads.filter((name) => !wanted.some(([known]) => known === name));
  if (truth.load !== undefined && more.length > 0) return `${more.join(", ")} beside the load`;
  const wrong = rows.channels.find((channel) => truth.none?.includes(channel.kind));
  return wrong === undefined ? null : `${wrong.kind} read, which the file does not hold`;
}

/** Judges one case by its own words; a file that leaves nothing open must be read at once. */
export function judge(one: LogCase): Verdict {
  const bytes = bytesOfCase(one);
  const first = readCase(bytes);
  if (one.refused !== undefined) {
    if (typeof first !== "string") return { kind: "wrong", why: `read, ${said(first)}` };
    return one.refused.test(first)
      ? { kind: "refused", words: first }
      : { kind: "wrong", why: `refused with "${first}"` };
  }
  if (one.asks !== undefined) {
    if (typeof first !== "string") return { kind: "wrong", why: "read without asking" };
    if (!one.asks.test(first)) return { kind: "wrong", why: `asked "${first}"` };
  }
  const read = one.told === undefined ? first : readCase(bytes, one.told);
  if (typeof read === "string") return { kind: "wrong", why: `not read: "${read}"` };
  const wrong = one.truth === undefined ? null : differs(read, one.truth);
  if (wrong !== null) return { kind: "wrong", why: wrong };
  const words = said(read);
  const unsaid = one.says?.find((pattern) => !pattern.test(words));
  if (unsaid !== undefined) return { kind: "wrong", why: `nothing said of ${unsaid}: "${words}"` };
  return { kind: one.asks === undefined ? "read" : "asked", words: typeof first === "string" ? first : words };
}

/** Judges a composed log: what is open must be asked in the right words, what is not must be read; then the truth must hold. */
export function judgeComposed(one: {
  readonly bytes: Uint8Array;
  readonly must: readonly RegExp[];
  readonly may: readonly RegExp[];
  readonly told: readonly string[];
  readonly truth: Truth;
  readonly says: readonly RegExp[];
  readonly refused?: RegExp;
}): Verdict {
  const first = readCase(one.bytes);
  if (one.refused !== undefined) {
    const words = typeof first === "string" ? first : "read";
    return one.refused.test(words) ? { kind: "refused", words } : { kind: "wrong", why: `not refused: ${words}` };
  }
  if (typeof first === "string") {
    if (![...one.must, ...one.may].some((pattern) => pattern.test(first)))
      return { kind: "wrong", why: `asked what is plain: "${first}"` };
  } else if (one.must.length > 0) return { kind: "wrong", why: `read without asking ${one.must[0]}` };
  const read = typeof first === "string" ? readCase(one.bytes, one.told) : first;
  if (typeof read === "string") return { kind: "wrong", why: `not read when told ${one.told.join(" ")}: "${read}"` };
  const wrong = differs(read, one.truth);
  const words = said(read);
  if (wrong !== null) return { kind: "wrong", why: `${wrong} (said: ${words.replaceAll("\n", "; ")})` };
  const unsaid = one.says.find((pattern) => !pattern.test(words));
  if (unsaid !== undefined) return { kind: "wrong", why: `nothing said of ${unsaid}: "${words}"` };
  return { kind: typeof first === "string" ? "asked" : "read", words };
}
