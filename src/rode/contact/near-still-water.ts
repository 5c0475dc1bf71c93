/** Where a rode in a current that touches nothing after it has left the anchor or the bottom lies in still water: near there. */
import type { CompiledRode } from "../compile.ts";
import { GROUNDED } from "../march.ts";
import { solve } from "../solve.ts";
import { SOLVED, solution, state } from "../solve-state.ts";
import type { Near } from "./close-legs.ts";
import { TO_BOW } from "./walk.ts";

/**
 * @param kind what is stated, one of the STATED_ values
 * @returns null where it does not settle without current
 */
export function nearStillWater(rode: CompiledRode, kind: number, target: number): Near | null {
  if (rode.hasBuoyant || solve(rode, kind, target) !== SOLVED) return null;
  const H = solution[0]!;
  const excess = solution[1]!;
  const value = excess >= 0 ? excess : -restingPlaces(rode, state[GROUNDED]!);
  return value === 0 ? null : { H, legs: [{ stage: { kind: "anchor", H }, value, stop: TO_BOW }] };
}

/** What rests, as the coordinate of resting.ts: metres of line, and 1 a point among them. */
function restingPlaces(rode: CompiledRode, grounded: number): number {
  let [left, sum] = [grounded, 0];
  for (let part = 0; part < rode.count && left > 0; part++) {
    if (rode.isLine[part] === 0) sum += 1;
    else {
      const l = Math.min(left, rode.length[part]!);
      sum += l;
      left -= l;
    }
  }
  return sum;
}
