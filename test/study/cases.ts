import { kinds, type RecordOf } from "../../src/record/index.ts";
import type { PullCase } from "../../src/study/index.ts";

type Studied = "pull" | "series" | "day" | "site" | "seabed" | "anchor" | "rigVersion";

/** A record with nothing known but what is told of it. */
export function record<K extends Studied>(kind: K, id: string, fields: Partial<RecordOf<K>>): RecordOf<K> {
  const blank = Object.fromEntries(Object.keys(kinds[kind]).map((name) => [name, null]));
  return { ...blank, ...fields, id, hidden: false } as unknown as RecordOf<K>;
}

/** The demonstration's first rig: 20 m of chain, then 17 m of rope, filed for 6 m of water. */
export const trialRode = `format: rodebench/rig@1
name: Trial rode
setting: { medium: water, depth: 6 m, rollerHeight: 1.35 m, bottomFriction: 0.6 }
rode:
  - chain: { grade: "30", size: 10 mm, length: 20 m }
  - rope: { fibre: polyamide, lay: three-strand, diameter: 14 mm, length: 17 m }
uncertainty: { massPerLength: 3 %, rise: 0.3 m }
`;

export function caseOf(pull: Partial<RecordOf<"pull">>, rest: Partial<PullCase> = {}): PullCase {
  return {
    pull: record("pull", "p1", pull),
    series: null,
    day: record("day", "d1", { date: "2024-05-15", testers: "two" }),
    site: record("site", "s1", { name: "Ternhead Flats" }),
    seabed: record("seabed", "b1", { name: "soft mud" }),
    anchor: record("anchor", "a1", { name: "Scoop, 15 kg", shape: "scoop", mass_kg: 15 }),
    rigFile: trialRode,
    depthByLevel: null,
    log: null,
    ...rest,
  };
}
