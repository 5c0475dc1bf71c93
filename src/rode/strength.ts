/** What each part of a settled rode carries against what it is said to stand. */
import type { Rig } from "./model.ts";
import { partLoads } from "./rode-shape.ts";
import type { SettledTrace } from "./settled-trace.ts";

/** What one part carries, and what it is said to stand. */
export interface PartStrength {
  /** Place in the rode, 1 next to the anchor. */
  readonly part: number;
  readonly name: string;
  /** Highest tension within the part, N. */
  readonly load: number;
  /** Working load limit, N; null where neither the rig nor the catalogue states one. */
  readonly workingLoad: number | null;
  /** Minimum breaking load, N; null likewise. */
  readonly breakingLoad: number | null;
  /** The heavier limit the load is past; null where it is past none that is known. */
  readonly past: "breakingLoad" | "workingLoad" | null;
}

/** A row for every part of the rode, from the anchor. The mechanics know nothing of strength: an answer past it stands. */
export function strengthOf(rig: Rig, traced: SettledTrace): PartStrength[] {
  const loads = partLoads(traced);
  return rig.rode.map(({ name, workingLoad = null, breakingLoad = null }, i) => {
    const load = loads[i]!;
    const past =
      breakingLoad !== null && load > breakingLoad
        ? "breakingLoad"
        : workingLoad !== null && load > workingLoad
          ? "workingLoad"
          : null;
    return { part: i + 1, name, load, workingLoad, breakingLoad, past };
  });
}

/** The lowest working load limit of a rig's parts, N; null where none is known. */
export function lowestWorkingLoad({ rode }: Pick<Rig, "rode">): number | null {
  const known = rode.flatMap(({ workingLoad }) => (workingLoad === undefined ? [] : [workingLoad]));
  return known.length === 0 ? null : Math.min(...known);
}
