import type { AnchorPath } from "../anchor/index.ts";
import type { Plateau } from "./plateaus.ts";
import type { SetDistance } from "./set-and-reset.ts";
import type { Measured } from "./trace.ts";

/** Load against the anchor's movement: how far it had gone by the end of each plateau, since the rode bit. */
export interface WayAtLoad {
  readonly plateau: string;
  /** s */
  readonly at: number;
  readonly load: Measured;
  /** m, along the pull. */
  readonly way: Measured;
}

/** A row a plateau of the pull whose set distance is known; none without a track. */
export function wayAtLoads(path: AnchorPath | null, plateaus: readonly Plateau[], set: SetDistance): WayAtLoad[] {
  if (path === null || set.kind !== "measured") return [];
  return plateaus.flatMap((plateau) => {
    if (plateau.to <= set.from) return [];
    const moved = path.moved({ from: set.from, to: plateau.to });
    return moved === null
      ? []
      : [{ plateau: plateau.id, at: plateau.to, load: plateau.load, way: { value: moved.value, u: moved.u } }];
  });
}
