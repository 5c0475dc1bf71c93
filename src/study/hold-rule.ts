/**
 * The hold rule: a load counts as held when it is kept so long, the anchor moving by less meanwhile. A series states it in
 * the text of its file, which a book keeps as the series' protocol.
 */
import { usualSettings } from "../pull/index.ts";
import { type Dimension, InputError, parseQuantity, quoted, readDocument } from "../quantity/index.ts";
import { bounds, expects, type RecordOf } from "../record/index.ts";

/** Format of a series file. */
export const SERIES_FORMAT = "rodebench/series@1";

/** s, and m with 95 % chance where a track tells it. */
export interface HoldRule {
  readonly heldFor: number;
  readonly heldWithin: number;
}

/** The rule where nobody stated another. */
export const usualHoldRule: HoldRule = { heldFor: usualSettings.heldFor, heldWithin: usualSettings.heldWithin };

/** The fields of a series file that state it. */
export interface HoldRuleFields {
  readonly heldFor?: string | number | undefined;
  readonly heldWithin?: string | number | undefined;
}

/**
 * What such fields state; what they leave out is left out.
 * @param place of the group they stand in
 * @throws InputError for a time or a length that is none, or out of the bounds of a book's record
 */
export function holdRuleStated({ heldFor, heldWithin }: HoldRuleFields, place: string): Partial<HoldRule> {
  const read = (name: "heldFor" | "heldWithin", given: string | number, dimension: Dimension): number => {
    const value = parseQuantity(given, dimension, `${place}.${name}`);
    const field = name === "heldFor" ? "heldFor_s" : "heldWithin_m";
    const { least, most } = bounds.series[field];
    if (!(value >= least && value <= most)) throw new InputError(`${place}.${name}`, quoted(given), expects[field]);
    return value;
  };
  return {
    ...(heldFor === undefined ? {} : { heldFor: read("heldFor", heldFor, "time") }),
    ...(heldWithin === undefined ? {} : { heldWithin: read("heldWithin", heldWithin, "length") }),
  };
}

/** Whether a series' protocol is the text of a series file. */
export const isPlan = (protocol: string | null | undefined): protocol is string =>
  protocol?.includes(SERIES_FORMAT) === true;

/** A series, as far as it states a hold rule. */
export type SeriesWithRule = Partial<Pick<RecordOf<"series">, "heldFor_s" | "heldWithin_m" | "protocol">>;

/** Read once for each series: many pulls are of one, and its plan is a file of its own. */
const known = new WeakMap<SeriesWithRule, Partial<HoldRule>>();

/** What a series states of it: its record before the text of its plan, as far as that can be read. */
export function holdRuleOfSeries(series: SeriesWithRule): Partial<HoldRule> {
  const before = known.get(series);
  if (before !== undefined) return before;
  const { heldFor_s: heldFor, heldWithin_m: heldWithin, protocol } = series;
  const rule = {
    ...ofProtocol(protocol),
    ...(typeof heldFor === "number" ? { heldFor } : {}),
    ...(typeof heldWithin === "number" ? { heldWithin } : {}),
  };
  known.set(series, rule);
  return rule;
}

function ofProtocol(protocol: string | null | undefined): Partial<HoldRule> {
  if (!isPlan(protocol)) return {};
  try {
    const file = readDocument(protocol, "protocol") as { readonly pulls?: HoldRuleFields | null } | null;
    return holdRuleStated(file?.pulls ?? {}, "protocol: pulls");
  } catch (error) {
    if (error instanceof InputError) return {};
    throw error;
  }
}
