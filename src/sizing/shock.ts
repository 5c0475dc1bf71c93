/** Everything `shock` answers of one rode, put together: give over load, where catenary fades, snatch, snubber, map. */
import type { Catalogue } from "../gear/index.ts";
import { type NoEquilibrium, type Rig, type Settled, settle, stiffnessAt } from "../rode/index.ts";
import {
  type CatenaryEnd,
  type CatenaryEndQuestion,
  catenaryEnd,
  type GivePerLoad,
  givePerLoad,
  readAt,
} from "./catenary-end.ts";
import { type Certain, catenaryEndCertainty, type InputsU, snatchCertainty } from "./certainty.ts";
import { type Give, giveBetween } from "./give.ts";
import type { RopeEnds, SnubberLimits } from "./limits.ts";
import { ropeOf } from "./rope-choice.ts";
import { type NotTaken, type Snatch, type SteadyLoad, type Surge, snatch } from "./snatch.ts";
import type { NotSnubbed } from "./snubber.ts";
import type { SnubberKind } from "./snubber-column.ts";
import { type SnubberMap, snubberMap } from "./snubber-map.ts";
import { type Tried, trySnubber } from "./try-snubber.ts";

/** The rig, its steady load and the surge it is asked about. */
export interface ShockQuestion {
  readonly rig: Rig;
  readonly steady: SteadyLoad;
  /** Loads of the table, N, read where the steady one is. */
  readonly loads: readonly number[];
  readonly fade?: CatenaryEndQuestion;
  readonly surge?: Surge;
  readonly u: InputsU;
  /** Where the surge was found from a peak that was read: the standard uncertainty of that, N, in place of all others. */
  readonly peakReadU?: number;
  readonly snubber?: SnubberQuestion;
  readonly map?: { readonly lengths: readonly number[]; readonly diameters: readonly number[] };
}

/** What hangs at the bow; without a size only the map is drawn. */
export interface SnubberQuestion {
  readonly fibre: string;
  readonly lay: string;
  readonly size?: { readonly diameter: number; readonly length: number };
  readonly kind: SnubberKind;
  readonly ends: RopeEnds;
  readonly limits: SnubberLimits;
  readonly period?: number;
}

/** Give of a rode between the mean and one load. */
export interface GiveRow {
  readonly settled: Settled;
  /** From the steady load to this one; turned round below it. */
  readonly give: Give;
  readonly perLoad: GivePerLoad;
  /** dH/dx at the bow, N/m. */
  readonly stiffness: number;
}

/** Where the give of a rode comes from, and what snatches come to. */
export interface Shock {
  readonly kind: "shock";
  readonly mean: Settled;
  readonly rows: readonly GiveRow[];
  readonly fade?: { readonly fade: CatenaryEnd; readonly certain: Certain | null };
  readonly snatch?: { readonly answer: Snatch | NotTaken; readonly certain: Certain | null };
  readonly snubber?: { readonly answer: Tried | NotTaken | NotSnubbed; readonly certain: Certain | null };
  readonly map?: SnubberMap;
}

/** @throws InputError for a rope the catalogue does not have */
export function shockOf(question: ShockQuestion, catalogue: Catalogue): Shock | NoEquilibrium {
  const { rig, steady, u, surge } = question;
  const mean = settle(rig, steady);
  if (mean.kind === "noEquilibrium") return mean;
  const rows: GiveRow[] = [];
  for (const newtons of question.loads) {
    const settled = settle(rig, { at: steady.at, newtons });
    if (settled.kind === "noEquilibrium") return settled;
    const give = giveBetween(rig, mean.horizontal, settled.horizontal);
    if (give.kind === "noEquilibrium") return give;
    const perLoad = givePerLoad(rig, settled.horizontal, steady.at);
    if (perLoad === null) continue;
    rows.push({ settled, give, perLoad, stiffness: stiffnessAt(rig, settled) });
  }
  const level: SteadyLoad = { at: "horizontal", newtons: mean.horizontal };
  return {
    kind: "shock",
    mean,
    rows,
    ...(question.fade === undefined ? {} : { fade: fadeOf(rig, question.fade) }),
    ...(surge === undefined ? {} : bareSnatch(rig, steady, surge, u, question.peakReadU)),
    ...(surge === undefined || question.snubber === undefined
      ? {}
      : snubbing(rig, level, surge, question.snubber, question.map, u, catalogue)),
  };
}

function fadeOf(rig: Rig, question: CatenaryEndQuestion): NonNullable<Shock["fade"]> {
  const fade = catenaryEnd(rig, question);
  const certain = fade.kind === "fades" ? catenaryEndCertainty(rig, question, readAt(fade.settled, question.at)) : null;
  return { fade, certain };
}

function bareSnatch(
  rig: Rig,
  steady: SteadyLoad,
  surge: Surge,
  u: InputsU,
  readU: number | undefined,
): Pick<Shock, "snatch"> {
  const answer = snatch(rig, steady, surge);
  if (answer.kind === "noEquilibrium") return {};
  if (answer.kind === "notTaken") return { snatch: { answer, certain: null } };
  const value = answer.ridden.bow;
  const certain =
    readU === undefined
      ? snatchCertainty(rig, steady, surge, u, value, answer.ridden.drawnU)
      : { value, u: readU, cannotMove: null, shares: [{ name: "the peak as read", share: 1 }] };
  return { snatch: { answer, certain } };
}

function snubbing(
  rig: Rig,
  level: SteadyLoad,
  surge: Surge,
  asked: SnubberQuestion,
  axes: ShockQuestion["map"],
  u: InputsU,
  catalogue: Catalogue,
): Pick<Shock, "snubber" | "map"> {
  const { fibre, lay, size, kind, ends, limits, period } = asked;
  const map =
    axes === undefined
      ? undefined
      : snubberMap({ rig, load: level, surge, rope: { fibre, lay }, kind, ends, limits, ...axes }, catalogue);
  const drawn = map === undefined || map.kind !== "map" ? {} : { map };
  if (size === undefined) return drawn;
  const rope = ropeOf({ fibre, lay, diameter: size.diameter }, catalogue, "rope");
  const answer = trySnubber(rig, level, surge, { ...kind, rope, length: size.length }, limits, ends, period);
  if (answer.kind === "noEquilibrium") return drawn;
  // The rope's own row says how sure its curve is; where it does not, what was said of ropes at large stands.
  const own = { ...u, stretch: rope.stretchU > 0 ? rope.stretchU : (u.stretch ?? 0) };
  const certain =
    answer.kind === "tried"
      ? snatchCertainty(answer.snubbed.rig, level, surge, own, answer.loads.peak, answer.snatch.ridden.drawnU)
      : null;
  return { ...drawn, snubber: { answer, certain } };
}
