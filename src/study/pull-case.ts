/** A pull with the records it is judged by: gathered from a book, in the browser and out of it alike. */

import type { RecordOf } from "../record/index.ts";
import { median } from "../statistics/index.ts";
import type { DeploymentRecord } from "./deployment.ts";
import type { LogVerdict } from "./verdict.ts";

type Recorded<K extends "pull" | "series" | "day" | "site" | "seabed" | "anchor" | "rigVersion"> = RecordOf<K>;

/** The records of a book that evidence rests on, in any order. */
export interface StudyRecords {
  readonly pull: readonly Recorded<"pull">[];
  readonly series: readonly Recorded<"series">[];
  readonly day: readonly Recorded<"day">[];
  readonly site: readonly Recorded<"site">[];
  readonly seabed: readonly Recorded<"seabed">[];
  readonly anchor: readonly Recorded<"anchor">[];
  readonly rigVersion: readonly Recorded<"rigVersion">[];
}

/** One pull, and what its records point to; null where they point nowhere. */
export interface PullCase {
  readonly pull: Recorded<"pull">;
  readonly series: Recorded<"series"> | null;
  readonly day: Recorded<"day"> | null;
  readonly site: Recorded<"site"> | null;
  readonly seabed: Recorded<"seabed"> | null;
  readonly anchor: Recorded<"anchor"> | null;
  /** Text of the rig file of the version deployed. */
  readonly rigFile: string | null;
  /** Depth by soundings of other pulls and the level of the day, for a pull without one of its own. */
  readonly depthByLevel: DeploymentRecord["depthByLevel"];
  /** What the pull's log says; null where it has none, or it was not reduced. */
  readonly log: LogVerdict | null;
}

/**
 * Cases of some pulls, in the order given.
 * @param logs verdicts of the logs that were reduced, by the pull's id
 */
export function pullCases(
  records: StudyRecords,
  pulls: readonly Recorded<"pull">[] = records.pull,
  logs: ReadonlyMap<string, LogVerdict> = new Map(),
): PullCase[] {
  const index = <R extends { readonly id: string }>(list: readonly R[]) => {
    const byId = new Map(list.map((one) => [one.id, one]));
    return (id: string | null | undefined): R | null => (id ? (byId.get(id) ?? null) : null);
  };
  const [day, site, seabed] = [index(records.day), index(records.site), index(records.seabed)];
  const [anchor, version, series] = [index(records.anchor), index(records.rigVersion), index(records.series)];
  const found = (pull: Recorded<"pull">) => {
    const [ofDay, ofSeabed] = [day(pull.day), seabed(pull.seabed)];
    return { pull, day: ofDay, seabed: ofSeabed, site: site(ofSeabed?.site ?? ofDay?.site) };
  };
  const soundings = depthsBelowDatum(records.pull.map(found));
  return pulls.map((pull): PullCase => {
    const about = found(pull);
    return {
      ...about,
      series: series(pull.series),
      anchor: anchor(pull.anchor),
      rigFile: version(pull.rigVersion)?.file ?? null,
      depthByLevel: typeof pull.depth_m === "number" ? null : byLevel(soundings, about),
      log: logs.get(pull.id) ?? null,
    };
  });
}

type Ground = Pick<PullCase, "pull" | "day" | "seabed" | "site">;

/** Where soundings of one pull say something of another: the same seabed, or, where none is told, the same site. */
const groundOf = ({ seabed, site }: Ground): string | null => seabed?.id ?? site?.id ?? null;

/** Depth less the level of its day, m, of every pull that has both, by ground. */
function depthsBelowDatum(pulls: readonly Ground[]): Map<string, number[]> {
  const depths = new Map<string, number[]>();
  for (const one of pulls) {
    const ground = groundOf(one);
    const level = one.day?.waterLevel_m;
    if (ground === null || typeof level !== "number" || typeof one.pull.depth_m !== "number" || one.pull.hidden)
      continue;
    depths.set(ground, [...(depths.get(ground) ?? []), one.pull.depth_m - level]);
  }
  return depths;
}

function byLevel(soundings: Map<string, number[]>, one: Ground): PullCase["depthByLevel"] {
  const ground = groundOf(one);
  const level = one.day?.waterLevel_m;
  const depths = ground === null ? undefined : soundings.get(ground);
  if (depths === undefined || typeof level !== "number") return null;
  const middle = median(depths);
  const value = middle + level;
  if (!(value > 0)) return null;
  const u = Math.sqrt(depths.reduce((sum, depth) => sum + (depth - middle) ** 2, 0) / Math.max(1, depths.length - 1));
  return { value, u, soundings: depths.length };
}
