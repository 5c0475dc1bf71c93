import { InputError, quoted } from "../../quantity/index.ts";

/**
 * What the reduction looks for. Times are in seconds, shares are of the load named, so that the unit of load never
 * matters; nothing counts readings, so that the rate of the log does not either.
 */
export interface TraceSettings {
  /** Frequency at which the filter's gain is 1/√2, Hz. */
  readonly bandwidth: number;
  /** Time over which readings are averaged before anything is decided, s. */
  readonly grain: number;
  /** A longer silence is a gap, s. */
  readonly longestGap: number;
  readonly spike: {
    /** Longest lone excursion, s. */
    readonly longest: number;
    /** Times the noise it must stand clear. */
    readonly clear: number;
  };
  readonly slack: {
    /** Slack is what lies below this share of the highest load. */
    readonly below: number;
    /** s */
    readonly shortest: number;
    /** A lowest stretch that reads more than this share of the range of loads is not believed to be slack. */
    readonly believed: number;
    /** What the cell truly carries when the rode is slack (rode hanging under it), N, and its standard uncertainty. */
    readonly load: number;
    readonly u: number;
  };
  readonly plateau: {
    /** s */
    readonly shortest: number;
    /** Greatest change of a flat load, as a share of it, in the shortest plateau's time. */
    readonly change: number;
    /** Flat stretches whose levels differ by no more than this share are one plateau. */
    readonly sameLevel: number;
    /** Longest disturbance within one plateau, s. */
    readonly disturbed: number;
  };
  readonly peak: {
    /** Rise from both sides, as a share of the highest load. */
    readonly prominence: number;
    /** How many are listed, highest first. */
    readonly most: number;
    /** Shares of a peak for which the time above is told. */
    readonly shares: readonly number[];
  };
  readonly drag: {
    /** Least loss of load, as a share of the load before. */
    readonly loss: number;
    /** A slower fall is taken for an easing, s. */
    readonly longestFall: number;
    /** Expected number of false alarms that noise alone may give in one trace. */
    readonly falseAlarms: number;
    /** Time within which load must come back after a fall to slack for it to be a drag, s. */
    readonly comesBack: number;
  };
  /** Standard uncertainties of the load cell: relative to the load, and one step of its display, N (the
   * smallest difference between readings when that is more). */
  readonly cell: { readonly relative: number; readonly step: number };
  /** Which way the boat pulls: the bow looks toward the anchor (astern) or away from it. */
  readonly pulls: "astern" | "ahead";
  /** Which way the boat lay from the anchor, rad clockwise from true north, if somebody took it. */
  readonly bearing?: number;
  /** Where the anchor lies on the track's plane, m, if it was marked. */
  readonly anchor?: { readonly east: number; readonly north: number };
  /** Load counts as held when kept this long, s. */
  readonly heldFor: number;
  /** And when the anchor moved by less than this meanwhile, m. */
  readonly heldWithin: number;
}

/** Settings of a reduction where nobody chose others. */
export const usualSettings: TraceSettings = {
  bandwidth: 0.5,
  grain: 0.5,
  longestGap: 3,
  spike: { longest: 0.1, clear: 8 },
  slack: { below: 0.05, shortest: 3, believed: 0.2, load: 0, u: 0 },
  plateau: { shortest: 8, change: 0.02, sameLevel: 0.03, disturbed: 5 },
  peak: { prominence: 0.1, most: 20, shares: [0.9, 0.75, 0.5] },
  drag: { loss: 0.1, longestFall: 4, falseAlarms: 0.05, comesBack: 10 },
  cell: { relative: 0, step: 0 },
  pulls: "astern",
  heldFor: 8,
  heldWithin: 1,
};

/** Settings with some of the usual ones changed; groups are changed field by field. */
export type SettingsChange = {
  readonly [K in keyof TraceSettings]?: TraceSettings[K] extends Record<string, unknown>
    ? Partial<TraceSettings[K]>
    : TraceSettings[K];
};

const ANY_SIGN = new Set(["bearing", "slack.load", "anchor.east", "anchor.north"]);
const MAY_BE_ZERO = new Set([
  "bearing",
  "slack.load",
  "slack.u",
  "cell.relative",
  "cell.step",
  "plateau.sameLevel",
  "plateau.disturbed",
  "anchor.east",
  "anchor.north",
]);

/** @throws InputError naming the setting that is not a number in its range */
export function settingsWith(change: SettingsChange = {}): TraceSettings {
  const out: Record<string, unknown> = { ...usualSettings };
  for (const [name, value] of Object.entries(change)) {
    if (value === undefined) continue;
    const usual = (usualSettings as unknown as Record<string, unknown>)[name];
    out[name] = isGroup(usual) && isGroup(value) ? { ...usual, ...value } : value;
  }
  for (const [name, value] of Object.entries(out)) {
    const fields = isGroup(value)
      ? Object.entries(value).map(([k, v]) => [`${name}.${k}`, v] as const)
      : [[name, value] as const];
    for (const [place, given] of fields) {
      if (place === "pulls") {
        if (given !== "astern" && given !== "ahead")
          throw new InputError(place, quoted(given), "astern or ahead is expected");
        continue;
      }
      for (const one of Array.isArray(given) ? given : [given]) {
        const fits =
          typeof one === "number" &&
          Number.isFinite(one) &&
          (ANY_SIGN.has(place) || (MAY_BE_ZERO.has(place) ? one >= 0 : one > 0));
        if (!fits)
          throw new InputError(
            place,
            quoted(one),
            MAY_BE_ZERO.has(place) ? "a number not below zero is expected" : "a number above zero is expected",
          );
      }
    }
  }
  return out as unknown as TraceSettings;
}

function isGroup(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
