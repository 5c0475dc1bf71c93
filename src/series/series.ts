/** A series of pulls as it is asked for: the question, the boat, the rodes aboard, the sites and the days. SI and radians. */
import type { Pull } from "../holding/index.ts";
import type { Part } from "../rode/index.ts";
import type { HoldRule } from "../study/index.ts";
import type { Tide } from "./tide.ts";

/** What the series is to tell. */
export type QuestionKind =
  /** Which of these anchors holds more. */
  | "compare"
  /** At which angle an anchor lets go: how holding falls with the angle. */
  | "letsGo"
  /** Whether an anchor holds as much after a veer. */
  | "afterVeer";
/** What a series can ask. */
export const QUESTIONS = ["compare", "letsGo", "afterVeer"] as const satisfies readonly QuestionKind[];

/** An anchor to be pulled. */
export interface SeriesAnchor {
  readonly name: string;
  /** kg */
  readonly mass?: number;
}

/** Thrust of the boat made fast, N, by engine speed, Hz; points of her own, in rising order. */
export interface ThrustPoint {
  readonly speed: number;
  readonly newtons: number;
}

/** The boat that pulls. */
export interface PullingBoat {
  readonly name: string;
  /** m */
  readonly length: number;
  readonly draught: number;
  readonly rollerHeight: number;
  readonly thrust: readonly ThrustPoint[];
}

/** A rode aboard, whole: parts from the anchor to its end. */
export interface AboardRode {
  readonly name: string;
  readonly parts: readonly Part[];
}

/** Where is pulled. */
export interface SeriesSite {
  readonly name: string;
  /** Depths to be found there, at the datum the tide is told from, m. */
  readonly depth: { readonly least: number; readonly most: number };
  readonly seabed?: string;
  /** How far from the anchor the boat may lie with all of her length, m. */
  readonly room?: number;
  /** rad */
  readonly bottomSlope: number;
  readonly bottomFriction: number;
  readonly waterDensity: number;
  readonly tide: Tide;
}

/** Hours of one day at one site, s since 1970. */
export interface SeriesDay {
  readonly date: string;
  readonly site: string;
  readonly from: number;
  readonly to: number;
  /** Offset of the day's clock from UT, s. */
  readonly offset: number;
}

/** A series as it is asked for. */
export interface Series {
  readonly name: string;
  readonly question: QuestionKind;
  readonly anchors: readonly SeriesAnchor[];
  /** Angles of the pull at the anchor above the bottom, rad. */
  readonly angles: readonly number[];
  /** Loads at the anchor, N, rising: the steps of a pull. The angle is that under the last. */
  readonly loads: readonly number[];
  /** Ratio of holding that is to be told, above 1; for an angle, a change of ln H a degree. */
  readonly tell: number;
  readonly repeats: number;
  /** Time a load is held, and of a whole pull with setting, raising and moving on, s. */
  readonly hold: number;
  readonly pullTime: number;
  /** When a load counts as held. */
  readonly holdRule: HoldRule;
  /** Time to change the anchor, s. */
  readonly changeTime: number;
  /** Standard uncertainty of an angle read, rad. */
  readonly gaugeU: number;
  /** Share of a working load limit that is not passed. */
  readonly workingLoadShare: number;
  /** Water left under the boat, m. */
  readonly underKeel: number;
  readonly boat: PullingBoat;
  readonly rodes: readonly AboardRode[];
  readonly sites: readonly SeriesSite[];
  readonly days: readonly SeriesDay[];
  readonly seed: number;
  /** Anchors one after another within a block, or changed for every pull. */
  readonly changes: "few" | "free";
  /** What is held already. */
  readonly pulls: readonly Pull[];
}

/** What the codes of a series' pulls are known by: the order they number comes of both. */
export const signOf = ({ name, seed }: Pick<Series, "name" | "seed">): string => `${name} ${seed}`;
