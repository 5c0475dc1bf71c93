/**
 * Many rides as one list that is never written out: every rig with every boat in every weather with every seed. A ride has a
 * number, from which all of it follows, so that any part of the list can be ridden anywhere and put together again.
 */
import type { Rig } from "../rode/index.ts";
import { type Boat, USUAL_AIR, type WaveSpectrum } from "../sea/index.ts";
import type { RideQuestion } from "./ride.ts";
import { type GustsName, gustSpectrum, withCurrent } from "./ride-inputs.ts";
import type { WindTurn } from "./wind-in-time.ts";

export const SWEEP_FORMAT = "rodebench/sweep@1";

export interface SweepWeather {
  readonly name: string;
  /** Mean wind, m/s at 10 m, and its changes. */
  readonly wind: number;
  readonly shifts: readonly WindTurn[];
  readonly gusts: GustsName;
  readonly sea: WaveSpectrum | null;
  /** m/s toward the boat; null: the rig's own. */
  readonly current: number | null;
}

/** Rigs, boats and weathers, each to be ridden with each and with several seeds. */
export interface Sweep {
  readonly name: string;
  readonly rigs: readonly Rig[];
  readonly boats: readonly Boat[];
  readonly weathers: readonly SweepWeather[];
  /** First seed, and how many in a row; every weather is drawn with each. */
  readonly seeds: { readonly first: number; readonly count: number };
  /** s */
  readonly duration: number;
  /** Length of the storm whose largest loads are told, s. */
  readonly storm: number;
  readonly elements: number;
}

/** Where a ride of a sweep stands in it: places in its lists. */
export interface SweepPlace {
  readonly rig: number;
  readonly boat: number;
  readonly weather: number;
  readonly seed: number;
}

/** One part of n, 1 first: the rides whose number leaves part − 1 when divided by n, so that parts cost alike. */
export interface Shard {
  readonly part: number;
  readonly of: number;
}

/** A sweep that is not cut into parts. */
export const WHOLE: Shard = { part: 1, of: 1 };

/** Combinations of rig, boat and weather. */
export function sweepCases(sweep: Sweep): number {
  return sweep.rigs.length * sweep.boats.length * sweep.weathers.length;
}

/** How many rides a sweep has. */
export function sweepRides(sweep: Sweep): number {
  return sweepCases(sweep) * sweep.seeds.count;
}

/** Rides of one part. */
export function shardRides(sweep: Sweep, { part, of }: Shard): number {
  return Math.max(0, Math.ceil((sweepRides(sweep) - (part - 1)) / of));
}

/** Number of the k-th ride of a part, 0 first. */
export const shardRide = ({ part, of }: Shard, k: number): number => part - 1 + k * of;

/** Seeds run slowest, so that what is done first says something of every case. */
export function sweepPlace(sweep: Sweep, ride: number): SweepPlace {
  const cases = sweepCases(sweep);
  const one = ride % cases;
  const { boats, weathers, seeds } = sweep;
  return {
    weather: one % weathers.length,
    boat: Math.floor(one / weathers.length) % boats.length,
    rig: Math.floor(one / (weathers.length * boats.length)),
    seed: seeds.first + Math.floor(ride / cases),
  };
}

/** What the ride of a number asks. */
export function sweepQuestion(sweep: Sweep, ride: number): RideQuestion {
  const place = sweepPlace(sweep, ride);
  const weather = sweep.weathers[place.weather]!;
  const rig = sweep.rigs[place.rig]!;
  return {
    rig: weather.current === null ? rig : withCurrent(rig, weather.current),
    boat: sweep.boats[place.boat]!,
    air: USUAL_AIR,
    wind: [{ time: 0, speed: weather.wind, toward: 0 }, ...weather.shifts],
    gusts: gustSpectrum(weather.gusts, weather.wind),
    sea: weather.sea,
    duration: sweep.duration,
    seed: place.seed,
    elements: sweep.elements,
  };
}
