/** The options of `shock` as what is asked, SI; each wrong one told in a line. */
import { formatQuantity, InputError, parseQuantity, quoted } from "../quantity/index.ts";
import type { Rig } from "../rode/index.ts";
import { type Boat, inertiaOf, readBoat, readSea } from "../sea/index.ts";
import {
  type CatenaryEndQuestion,
  type InputsU,
  type LoadEnd,
  type RopeEnds,
  type SteadyLoad,
  type Surge,
  speedBehind,
  surgeInWaves,
} from "../sizing/index.ts";
import { derivationWords, noEquilibriumLine } from "../words/index.ts";
import { NoAnswer } from "./exit.ts";
import type { Io } from "./io.ts";
import { loadsFrom } from "./ladder.ts";
import { endFrom, placeOf, positive, type Shown } from "./options.ts";

export interface ShockOptions extends Shown {
  readonly pull?: string;
  readonly at?: string;
  readonly u?: string;
  readonly loads?: string;
  readonly asks?: string;
  readonly speed?: string;
  readonly speedU?: string;
  readonly mass?: string;
  readonly massU?: string;
  readonly distance?: string;
  readonly distanceU?: string;
  readonly boat?: string;
  readonly waves?: string;
  readonly peak?: string;
  readonly peakU?: string;
  readonly stretchU: string;
  readonly rope?: string;
  readonly snubber?: string;
  readonly map?: string;
  readonly slack?: string;
  readonly bridle?: string;
  readonly within?: true;
  readonly hookMass?: string;
  readonly ends: RopeEnds;
  readonly period?: string;
  readonly peakLimit?: string;
  readonly ropeShare: string;
  readonly gearShare: string;
  readonly hookLimit?: string;
  readonly cleatLimit?: string;
  readonly angleLimit?: string;
  readonly loopShare: string;
}

/** What a surge was made of, in words, beside what it is; `u` where it was found and not stated. */
export interface AskedSurge {
  readonly surge: Surge;
  readonly said: readonly string[];
  readonly u?: number;
  readonly peakReadU?: number;
}

/** How options ask for a surge, before the rig is known: waves are those of its depth, a peak is read backwards on it. */
export type SurgeAsked = (rig: Rig) => AskedSurge;

export function steadyFrom(options: ShockOptions): SteadyLoad {
  if (options.pull === undefined)
    throw new InputError(
      "--pull",
      "",
      "the steady load that holds the boat is expected, such as --pull 1.5kN --at bow",
    );
  return { at: endFrom(options.at), newtons: positive(options.pull, "force", "--pull", "a load above zero") };
}

/** Loads of the table: as asked, or some multiples of the steady one. */
export function rungsFrom(options: ShockOptions, steady: SteadyLoad): readonly number[] {
  if (options.loads === undefined) return [1, 1.5, 2, 3, 4, 6].map((times) => times * steady.newtons);
  const loads = loadsFrom(options.loads, "--loads");
  if (loads.length > 200) throw new InputError("--loads", quoted(options.loads), "at most 200 loads are expected");
  return loads;
}

const ASKS =
  'a give per load, such as "1 ft per 100 lbf", or a share of a need up to a load, such as "50 % of 1 m up to 5 kN", is expected';

/** `1 ft per 100 lbf`, `0.5 m/kN`, or `50 % of 1 m up to 5 kN`. */
export function asksFrom(text: string, at: LoadEnd): CatenaryEndQuestion {
  const place = "--asks";
  const ofNeed = /^(.+?)\s+of\s+(.+?)\s+up\s+to\s+(.+)$/.exec(text.trim());
  if (ofNeed !== null) {
    const share = parseQuantity(ofNeed[1]!, "ratio", place);
    if (!(share > 0 && share <= 1))
      throw new InputError(place, quoted(ofNeed[1]), "a share from 0 to 100 % is expected");
    return {
      ask: "ofNeed",
      share,
      need: positive(ofNeed[2]!, "length", place, "a movement above zero"),
      upTo: positive(ofNeed[3]!, "force", place, "a load above zero"),
      at,
    };
  }
  // A fraction of an inch has a stroke of its own: the load begins after the last.
  const perLoad = /^(.+?)\s+per\s+(.+)$/.exec(text.trim()) ?? /^(.+)\/\s*([^/]+)$/.exec(text.trim());
  if (perLoad === null) throw new InputError(place, quoted(text), ASKS);
  const load = /^\d/.test(perLoad[2]!.trim()) ? perLoad[2]! : `1 ${perLoad[2]!.trim()}`;
  const give = positive(perLoad[1]!, "length", place, "a movement above zero");
  return { ask: "perLoad", give: give / positive(load, "force", place, "a load above zero"), at };
}

/** A speed with the mass that moves, a distance, the sea around the rig, or a peak that was read; null when none is asked. */
export async function surgeFrom(options: ShockOptions, io: Io): Promise<SurgeAsked | null> {
  const { speed, distance, waves, peak, boat, mass } = options;
  const given = [speed, distance, waves, peak].filter((one) => one !== undefined);
  if (given.length > 1)
    throw new InputError(
      "--speed",
      given.map(quoted).join(" and "),
      "one of --speed, --distance, --waves, --peak is expected",
    );
  if (mass !== undefined && boat !== undefined)
    throw new InputError("--mass", quoted(mass), "either --mass or --boat is expected, not both");
  if (mass !== undefined && speed === undefined && peak === undefined)
    throw new InputError("--mass", quoted(mass), "a --speed or a --peak is expected with it");
  if (waves !== undefined && boat === undefined)
    throw new InputError("--waves", quoted(waves), "a --boat is expected with it");
  if (boat !== undefined && (distance !== undefined || given.length === 0))
    throw new InputError("--boat", quoted(boat), "a --speed, --waves or --peak is expected with it");
  const read = boat === undefined ? null : readBoat(await io.read(boat), placeOf(boat));
  if (waves !== undefined) return (rig) => inWaves(waves, read!, rig);
  if (distance !== undefined) {
    const metres = positive(distance, "length", "--distance", "a distance above zero");
    const period = periodFrom(options);
    const surge: Surge = { kind: "distance", distance: metres, ...(period === undefined ? {} : { period }) };
    return () => ({ surge, said: period === undefined ? ["a stroke there and back in 4 s"] : [] });
  }
  if (speed !== undefined) {
    const metresPerSecond = positive(speed, "speed", "--speed", "a speed above zero");
    if (metresPerSecond > 10) throw new InputError("--speed", quoted(speed), "a surge of at most 10 m/s is expected");
    const moving = massFrom(mass, read, "--speed");
    return () => ({ surge: { kind: "speed", speed: metresPerSecond, mass: moving.value }, said: moving.said });
  }
  if (peak === undefined) return null;
  const newtons = positive(peak, "force", "--peak", "a load above zero");
  const moving = massFrom(mass, read, "--peak");
  return (rig) => behindPeak(newtons, moving, options, rig);
}

function massFrom(
  mass: string | undefined,
  boat: Boat | null,
  place: string,
): { readonly value: number; readonly said: readonly string[] } {
  if (boat !== null) {
    const inertia = inertiaOf(boat).surge;
    return { value: inertia.value, said: [`mass that moves: ${derivationWords(inertia.from)}`] };
  }
  if (mass === undefined)
    throw new InputError("--mass", "", `the mass that moves is expected with ${place}, such as --mass 8t, or a --boat`);
  const kilograms = parseQuantity(mass, "mass", "--mass");
  if (!(kilograms > 0)) throw new InputError("--mass", quoted(mass), "a mass above zero is expected");
  return { value: kilograms, said: [] };
}

function inWaves(waves: string, boat: Boat, rig: Rig): AskedSurge {
  const depth = rig.setting.medium === "water" ? rig.setting.depth : Number.POSITIVE_INFINITY;
  return {
    surge: surgeInWaves(boat, readSea(waves, "jonswap", depth, "--waves"), depth),
    said: [
      `waves from ahead in ${depth === Number.POSITIVE_INFINITY ? "deep water" : "the rig's depth"}: the most probable largest of 1000, from peaks of 100 that were drawn; the rode may resist`,
    ],
  };
}

/** The speed behind a peak that was read. */
function behindPeak(
  newtons: number,
  moving: { readonly value: number; readonly said: readonly string[] },
  options: ShockOptions,
  rig: Rig,
): AskedSurge {
  const peakU = options.peakU === undefined ? 0 : parseQuantity(options.peakU, "force", "--peak-u");
  if (!(peakU >= 0)) throw new InputError("--peak-u", quoted(options.peakU), "zero or more is expected");
  const behind = speedBehind(
    rig,
    steadyFrom(options),
    { value: newtons, u: peakU },
    moving.value,
    inputsUFrom(options),
  );
  if (behind.kind === "noEquilibrium") throw new NoAnswer(`--pull: ${noEquilibriumLine(behind, options.units)}`);
  if (behind.kind === "noSpeed")
    throw new InputError(
      "--peak",
      quoted(options.peak),
      behind.why === "notAboveMean"
        ? "a peak above the steady load at the bow is expected"
        : "a peak that a surge of at most 10 m/s ends in is expected",
    );
  const show = (speed: number): string => formatQuantity(speed, "speed", { system: options.units, digits: 2 });
  return {
    surge: { kind: "speed", speed: behind.value, mass: moving.value },
    said: [
      ...moving.said,
      `speed: the one that ends in the peak read; by energy alone it would be ${show(behind.byEnergy)}`,
    ],
    peakReadU: peakU,
    ...(behind.u === null ? {} : { u: behind.u }),
  };
}

/** Standard uncertainties of the inputs. */
export function inputsUFrom(options: ShockOptions): InputsU {
  const u = (
    text: string | undefined,
    dimension: "force" | "speed" | "mass" | "length" | "ratio",
    place: string,
  ): number => {
    if (text === undefined) return 0;
    const value = parseQuantity(text, dimension, place);
    if (!(value >= 0)) throw new InputError(place, quoted(text), "zero or more is expected");
    return value;
  };
  const stretch = u(options.stretchU, "ratio", "--stretch-u");
  if (!(stretch < 0.5)) throw new InputError("--stretch-u", quoted(options.stretchU), "less than 50 % is expected");
  return {
    load: u(options.u, "force", "--u"),
    speed: u(options.speedU, "speed", "--speed-u"),
    mass: u(options.massU, "mass", "--mass-u"),
    distance: u(options.distanceU, "length", "--distance-u"),
    stretch,
  };
}

/** The time of a cycle, s. */
export function periodFrom(options: ShockOptions): number | undefined {
  if (options.period === undefined) return undefined;
  const value = parseQuantity(options.period, "time", "--period");
  if (!(value > 0)) throw new InputError("--period", quoted(options.period), "a time above zero is expected");
  return value;
}
