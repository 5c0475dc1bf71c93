/** Why a mark was made and why a load counts as held: causes and numbers, which `words` turns into sentences. */
import type { Measured } from "./trace.ts";

/** Why a mark was made. */
export type MarkCause =
  /** The load is all but gone. */
  | { readonly kind: "slack" }
  /** The load stayed level for so long, s, changing by this share of itself a minute. */
  | { readonly kind: "flat"; readonly seconds: number; readonly perMinute: number }
  /** The load rises and falls clear of both sides. */
  | { readonly kind: "peak" }
  /** A reading so many times the noise from its neighbours; in a slow log a short peak looks alike. */
  | { readonly kind: "standsAlone"; readonly times: number; readonly slowLog: boolean }
  | Fall
  /** The anchor went so long, s, at this speed, m/s, by load and track together. */
  | { readonly kind: "ploughed"; readonly seconds: number; readonly speed: number }
  /** The anchor went, by load and track together, so many times the ± of its place. */
  | { readonly kind: "went"; readonly times: number }
  /** The pull turned by this angle, rad. */
  | { readonly kind: "turned"; readonly angle: number }
  /** A person marked it and wrote nothing with it. */
  | { readonly kind: "byHand" }
  /** A person marked a drag; its load is the mean of so many seconds before, s. */
  | { readonly kind: "byHandMeanBefore"; readonly seconds: number }
  /** As a person, or an earlier reduction, wrote it. */
  | { readonly kind: "written"; readonly text: string };

/** A fall of the load by a share of itself within some seconds, and what it is taken for. */
type Fall = { readonly share: number; readonly seconds: number } & (
  | {
      /** The anchor went; or no track tells the fall from an easing. */
      readonly kind: "fellAndWent" | "fellUntracked";
      /** How many times the scatter the fall is; null where nothing scatters. */
      readonly clear: number | null;
    }
  /** Nothing shows that the anchor went; part of a slower fall; or to slack, where it stayed. */
  | { readonly kind: "fellAndStayed" | "fellInPart" | "fellToSlack" }
  /** Slower than a drag may be, s. */
  | { readonly kind: "fellSlowly"; readonly longest: number }
);

const isNumber = (value: unknown): boolean => typeof value === "number" && Number.isFinite(value);
const isBoolean = (value: unknown): boolean => typeof value === "boolean";
const isText = (value: unknown): boolean => typeof value === "string";
const isNumberOrNull = (value: unknown): boolean => value === null || isNumber(value);

const fell = { share: isNumber, seconds: isNumber };

/** What each kind of cause has besides its kind. */
const FIELDS: {
  readonly [K in MarkCause["kind"]]: Readonly<
    Record<Exclude<keyof Extract<MarkCause, { kind: K }>, "kind">, (value: unknown) => boolean>
  >;
} = {
  slack: {},
  flat: { seconds: isNumber, perMinute: isNumber },
  peak: {},
  standsAlone: { times: isNumber, slowLog: isBoolean },
  fellAndWent: { ...fell, clear: isNumberOrNull },
  fellUntracked: { ...fell, clear: isNumberOrNull },
  fellAndStayed: fell,
  fellInPart: fell,
  fellToSlack: fell,
  fellSlowly: { ...fell, longest: isNumber },
  ploughed: { seconds: isNumber, speed: isNumber },
  went: { times: isNumber },
  turned: { angle: isNumber },
  byHand: {},
  byHandMeanBefore: { seconds: isNumber },
  written: { text: isText },
};

/** A cause as a book keeps it, checked; a text is taken as written; null where it is none. */
export function readMarkCause(kept: unknown): MarkCause | null {
  if (typeof kept === "string") return kept === "" ? null : { kind: "written", text: kept };
  if (typeof kept !== "object" || kept === null || !("kind" in kept)) return null;
  const { kind } = kept;
  if (typeof kind !== "string" || !Object.hasOwn(FIELDS, kind)) return null;
  const fields: Readonly<Record<string, (value: unknown) => boolean>> = FIELDS[kind as MarkCause["kind"]];
  const isWhole = Object.entries(fields).every(([name, fits]) => fits((kept as Record<string, unknown>)[name]));
  return isWhole ? (kept as MarkCause) : null;
}

/** A stretch in which the anchor may have moved by more than the hold rule allows. */
export interface OpenStretch {
  /** s, on the log's own clock. */
  readonly from: number;
  readonly seconds: number;
  /** How far the anchor went by the track, m. */
  readonly way: Measured;
}

/** Why a load counts as held, or as the one at which the anchor gave way. */
export type HeldCause =
  /** Held for so long, s; `most`, m, is what the anchor moved less than meanwhile, null without a track. */
  | {
      readonly kind: "held";
      readonly seconds: number;
      readonly most: number | null;
      /** The movement that the hold rule allows, m, where `most` is more; null where it is less. */
      readonly rule: number | null;
      readonly gaveWayAtLess: boolean;
      readonly open: OpenStretch | null;
    }
  /** Held for so long, s; then the anchor gave way. */
  | { readonly kind: "heldThenGaveWay"; readonly seconds: number; readonly drag: MarkCause }
  | { readonly kind: "gaveWay"; readonly drag: MarkCause; readonly open: OpenStretch | null };

/** Why what was held is not known: the track leaves it open, or nothing was held for the time asked, s. */
export type NotHeldCause =
  | { readonly kind: "open"; readonly open: OpenStretch }
  | { readonly kind: "nothingHeld"; readonly heldFor: number };
