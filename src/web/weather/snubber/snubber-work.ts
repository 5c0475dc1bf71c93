/** In the worker: snatch loads, and snubbers held against limits, one and many. */
import { catalogue } from "../../../gear/index.ts";
import { InputError } from "../../../quantity/index.ts";
import type { NoEquilibrium, Rig } from "../../../rode/index.ts";
import {
  type Certain,
  type MapQuestion,
  type NotSnubbed,
  type NotTaken,
  ropeOf,
  type Snatch,
  type SnubberMap,
  type SteadyLoad,
  type Surge,
  snatch,
  snatchCertainty,
  snubberMap,
  type Tried,
  trySnubber,
} from "../../../sizing/index.ts";
import type { SnubberAsked } from "../state.ts";

export interface SnatchAsked {
  readonly rig: Rig;
  readonly load: SteadyLoad;
  /** Standard uncertainty of the load, N. */
  readonly loadU: number;
  readonly surge: Surge;
}

export interface SnatchAnswer {
  readonly found: Snatch | NotTaken | NoEquilibrium;
  /** Of the tension at the bow at the peak, N. */
  readonly sure: Certain | null;
}

/** The peak of a surging boat on the rode as it is. */
export function snatchOn({ rig, load, loadU, surge }: SnatchAsked): SnatchAnswer {
  const found = snatch(rig, load, surge);
  const sure =
    found.kind === "snatch"
      ? snatchCertainty(rig, load, surge, { load: loadU }, found.peak.bow.tension, found.ridden.drawnU)
      : null;
  return { found, sure };
}

/** What a rope of the catalogue cannot be: its one line. */
export interface Refused {
  readonly kind: "refused";
  readonly line: string;
}

export interface SnubberQuestion extends SnatchAsked {
  readonly snubber: SnubberAsked;
}

const kindOf = ({ slack, bridle }: SnubberAsked): MapQuestion["kind"] => ({
  hooked: "veered",
  ...(slack > 0 ? { slack } : {}),
  ...(bridle === null ? {} : { bridle }),
});

/** Snubbers over length and diameter. */
export function mapOfSnubbers(
  { rig, load, surge, snubber }: SnubberQuestion,
  lengths: Float64Array,
  diameters: Float64Array,
): SnubberMap | NoEquilibrium | Refused {
  const { fibre, lay, ends, limits } = snubber;
  return refusing(() =>
    snubberMap(
      { rig, load, surge, rope: { fibre, lay }, kind: kindOf(snubber), ends, limits, lengths, diameters },
      catalogue,
      "rope",
    ),
  );
}

export interface OneSnubber {
  readonly tried: Tried | NotTaken | NotSnubbed | NoEquilibrium;
  readonly sure: Certain | null;
}

/** The one chosen, exactly, with the ± of its peak. */
export function oneSnubber({ rig, load, loadU, surge, snubber }: SnubberQuestion): OneSnubber | Refused {
  return refusing(() => {
    const { fibre, lay, diameter, length, ends, limits } = snubber;
    const rope = ropeOf({ fibre, lay, diameter }, catalogue, "rope");
    const tried = trySnubber(rig, load, surge, { ...kindOf(snubber), rope, length }, limits, ends);
    if (tried.kind !== "tried") return { tried, sure: null };
    const { mean, peak } = tried.snatch;
    const sure = snatchCertainty(
      tried.snubbed.rig,
      { at: "horizontal", newtons: mean.horizontal },
      surge,
      { load: loadU, stretch: rope.stretchU },
      peak.bow.tension,
      tried.snatch.ridden.drawnU,
    );
    return { tried, sure };
  });
}

function refusing<T>(ask: () => T): T | Refused {
  try {
    return ask();
  } catch (error) {
    if (error instanceof InputError) return { kind: "refused", line: error.message };
    throw error;
  }
}
