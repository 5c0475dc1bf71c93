import { apart, type PlaneFit } from "./direction.ts";
import type { Known } from "./found-movements.ts";
import { settled } from "./known-stretch.ts";
import type { StretchModel } from "./stretch.ts";
import { placeOf } from "./stretches.ts";

/** A stretch and the directions it may have: one that was stated, or either way along the line the track shows. */
export interface Choice {
  readonly model: StretchModel;
  readonly ways: readonly Known[];
}

/** Stretches farther apart than this tell each other's direction, m: the boat went round one anchor. */
const ROUND = 10;
/** A direction by that of a neighbour: the boat was not as far from the anchor on both sides, rad. */
const ABOUT = 0.2;
/** Directions that differ more contradict each other, rad. */
const CONTRARY = 1.2;
/** A contradiction costs as much as this in ln of chance. */
const COSTS = 20;
/** More combinations than this many stretches have are not tried. */
const MOST = 8;

/** A boat that goes back while the load falls dragged her anchor one way, or was let off the other: both are looked at. */
export function bothWays(model: StretchModel, { direction }: PlaneFit): Known[] {
  if (direction === null) return [];
  return [0, Math.PI].map((turn) => settled(model, { value: direction.value + turn, u: direction.u, by: "track" }));
}

/**
 * The directions that fit the places best, those of neighbours fitting together: a boat that went from one side of her
 * anchor to another lies there as far from it as before, so that the second direction is the first one mirrored in the
 * middle between the two places.
 */
export function agreed(choices: readonly Choice[]): Known[] {
  let best: Known[] = [];
  let most = Number.NEGATIVE_INFINITY;
  const sure = choices.filter((c) => c.ways.length > 0);
  const count = sure.length > MOST ? 1 : 2 ** sure.length;
  for (let code = 0; code < count; code++) {
    const ways = sure.map((c, i) => c.ways[(code >> i) & 1] ?? null);
    if (ways.some((w) => w === null)) continue;
    let evidence = 0;
    ways.forEach((way, i) => {
      evidence += way!.evidence;
      const mirrored = i > 0 ? mirror(ways[i - 1]!, way!.model) : null;
      if (mirrored !== null && Math.abs(apart(way!.direction.value, mirrored)) > CONTRARY) evidence -= COSTS;
    });
    if (evidence > most) [most, best] = [evidence, ways as Known[]];
  }
  // What a stretch does not tell of itself its neighbour does.
  const rest = choices.filter((c) => c.ways.length === 0);
  const told = rest.flatMap(({ model }) => {
    for (const near of best) {
      const value = mirror(near, model);
      if (value !== null)
        return [settled(model, { value, u: Math.hypot(near.direction.u, ABOUT), by: near.direction.by })];
    }
    return [];
  });
  return [...best, ...told].sort((a, b) => a.model.stretch.from - b.model.stretch.from);
}

/** Direction of a stretch by that of another, rad; null where the boat lay in much the same place. */
function mirror(known: Known, model: StretchModel): number | null {
  const [was, is] = [known.model, model].map((m) => placeOf(m.grid, m.stretch.from, m.stretch.to));
  if (!was || !is) return null;
  const [east, north] = [is.east - was.east, is.north - was.north];
  return Math.hypot(east, north) > ROUND ? 2 * Math.atan2(east, north) + Math.PI - known.direction.value : null;
}
