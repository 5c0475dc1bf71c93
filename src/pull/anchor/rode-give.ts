import type { ConstantState } from "./constant-states.ts";
import type { FixGrid } from "./fix-grid.ts";
import type { Stretch } from "./ramp.ts";

/** How the rode's own give enters the boat's place: by the curve of the pull's rig, or by a shape fitted to the track. */
export interface RodeGive {
  readonly states: (grid: FixGrid, stretch: Stretch) => ConstantState[];
  /** What the rode gives from a quarter of the highest load up to it, m, by each of these states: never less than nothing. */
  readonly rises: readonly number[];
}

/** A rig's curve in its own water is right to so much of itself: depth, length out and weight were not all measured. */
const RIG = 0.15;
/** Below this share of the highest load the zero's own error would make the rode's give. */
const SLACK = 0.03;
/** A rode nobody described: what it gives by lifting and by stretching at the highest load, m. */
const ANY_RODE = [
  { mean: 0.7, u: 0.8 },
  { mean: 0.7, u: 0.8 },
  // Neither shape is that of a rode: what lies between them may bend either way.
  { mean: 0, u: 0.4 },
] as const;
/** How each of them lies at a share of the highest load. */
const SHAPES: readonly ((share: number) => number)[] = [
  (share) => 1 - Math.sqrt(1 / share),
  (share) => share - 1,
  (share) => Math.log(share),
];

/** What a rode gives more is looked at from this share of the highest load on. */
const QUARTER = 0.25;

/**
 * @param give what the rode gives at a load, m; absent: its shapes are fitted. A chain that still lies on the bottom comes
 * short of its length by √2·h^(3/2)·w^(1/2)/(3·T^(1/2)) (the catenary's closed form for T far over w·h, worked out by
 * hand); rope stretches as the load.
 * @param top highest load, N
 */
export function rodeGive(top: number, give?: (newtons: number) => number): RodeGive {
  const given = give ? tabled(give, top) : null;
  return {
    rises: given ? [given(top) - given(QUARTER * top)] : SHAPES.map((shape) => shape(1) - shape(QUARTER)),
    states(grid, { from, to }) {
      const least = SLACK * top;
      const shaped = (shape: (newtons: number) => number): Float64Array =>
        Float64Array.from({ length: to - from }, (_, i) => grid.shaped(from + i, (f) => shape(Math.max(f, least))));
      return given
        ? [{ column: shaped((f) => given(f)), mean: 1, u: RIG }]
        : SHAPES.map((shape, i) => ({ column: shaped((f) => shape(f / top)), ...ANY_RODE[i]! }));
    },
  };
}

/** Rows of the table: a rode's equilibrium is worked out for each, not for each second of a log. */
const ROWS = 80;

/** The curve from the highest load down, m, read between rows that lie even in the logarithm of the load. */
function tabled(give: (newtons: number) => number, top: number): (newtons: number) => number {
  const low = Math.log(SLACK * top);
  const each = (Math.log(3 * top) - low) / ROWS;
  const rows = Float64Array.from({ length: ROWS + 1 }, (_, k) => give(Math.exp(low + k * each)) - give(top));
  return (newtons) => {
    const at = Math.min(ROWS - 1e-9, Math.max(0, (Math.log(newtons) - low) / each));
    const k = Math.floor(at);
    return rows[k]! + (at - k) * (rows[k + 1]! - rows[k]!);
  };
}
