/** The options of `shock` as what is asked, SI; each wrong one told in a line. */
import { InputError, parseQuantity, quoted } from "../quantity/index.ts";
import { bowSurge, inertiaOf, readBoat, readSea } from "../sea/index.ts";
import type { FadeQuestion, InputsU, LoadEnd, RopeEnds, SteadyLoad, Surge } from "../sizing/index.ts";
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

/** What a surge was made of, in words, beside what it is. */
export interface AskedSurge {
  readonly surge: Surge;
  readonly said: readonly string[];
}

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
export function asksFrom(text: string, at: LoadEnd): FadeQuestion {
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

/** A speed with the mass that moves, a distance, or the largest surge of a boat in a sea; null when none is asked. */
export async function surgeFrom(options: ShockOptions, io: Io): Promise<AskedSurge | null> {
  const { speed, distance, waves, boat, mass } = options;
  const given = [speed, distance, waves].filter((one) => one !== undefined);
  if (given.length > 1)
    throw new InputError("--speed", given.map(quoted).join(" and "), "one of --speed, --distance, --waves is expected");
  if (mass !== undefined && boat !== undefined)
    throw new InputError("--mass", quoted(mass), "either --mass or --boat is expected, not both");
  if (mass !== undefined && speed === undefined)
    throw new InputError("--mass", quoted(mass), "a --speed is expected with it");
  if (waves !== undefined) {
    if (boat === undefined) throw new InputError("--waves", quoted(waves), "a --boat is expected with it");
    const read = readBoat(await io.read(boat), placeOf(boat));
    const surge = bowSurge(
      read,
      readSea(waves, "jonswap", Number.POSITIVE_INFINITY, "--waves"),
      Number.POSITIVE_INFINITY,
    );
    return {
      surge: { kind: "distance", distance: surge.largestAmplitude },
      said: [`distance: the largest surge of ${surge.waves} in that sea, deep water, by docs/weather.md`],
    };
  }
  if (distance !== undefined) {
    if (boat !== undefined) throw new InputError("--boat", quoted(boat), "a --speed or --waves is expected with it");
    return {
      surge: { kind: "distance", distance: positive(distance, "length", "--distance", "a distance above zero") },
      said: [],
    };
  }
  if (speed === undefined) {
    if (boat !== undefined) throw new InputError("--boat", quoted(boat), "a --speed or --waves is expected with it");
    return null;
  }
  const metresPerSecond = positive(speed, "speed", "--speed", "a speed above zero");
  if (metresPerSecond > 10) throw new InputError("--speed", quoted(speed), "a surge of at most 10 m/s is expected");
  if (boat !== undefined) {
    const inertia = inertiaOf(readBoat(await io.read(boat), placeOf(boat))).surge;
    return {
      surge: { kind: "speed", speed: metresPerSecond, mass: inertia.value },
      said: [`mass that moves: ${inertia.how}`],
    };
  }
  if (mass === undefined)
    throw new InputError("--mass", "", "the mass that moves is expected with --speed, such as --mass 8t, or a --boat");
  const kilograms = parseQuantity(mass, "mass", "--mass");
  if (!(kilograms > 0)) throw new InputError("--mass", quoted(mass), "a mass above zero is expected");
  return { surge: { kind: "speed", speed: metresPerSecond, mass: kilograms }, said: [] };
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
