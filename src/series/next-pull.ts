/**
 * The next best pull: which one brings down most what is not known of the question, an hour. What is not known is the sum
 * of the variances of the differences asked about; a pull with row x and information w = i(z)/σ² takes from each
 *
 *   w (cᵀ P⁻¹ x)² / (1 + w xᵀ P⁻¹ x)
 *
 * with the precision P of what is believed (Sherman & Morrison 1950, recalled). i(z) is taken over what is believed of the
 * load it would give way at.
 */
import { DEGREES } from "../quantity/index.ts";
import { normalAbove, normalQuantile } from "../statistics/index.ts";
import { type Belief, beliefOf, dot, informationAt, rowOf, solve } from "./belief.ts";
import { limitsOf } from "./power.ts";
import type { Series } from "./series.ts";
import type { Cell } from "./table.ts";

/** Why a pull stands where it does. */
export type NextReason =
  /** Most of what is not known hangs on this anchor, of which fewest pulls are held. */
  | { readonly kind: "leastPulled"; readonly pulls: number }
  /** An angle far from the middle of the others tells most of what an angle does. */
  | { readonly kind: "farAngle" }
  /** It probably ends while the anchor holds, and then tells little. */
  | { readonly kind: "likelyEnded"; readonly chance: number }
  | { readonly kind: "evenly" };

/** A pull that could come next, with what it brings. */
export interface NextPull {
  readonly anchor: string;
  /** rad */
  readonly angle: number;
  /** By what share the ± of the question shrinks. */
  readonly gain: number;
  readonly gainPerHour: number;
  /** Chance that it ends while the anchor holds. */
  readonly ended: number;
  readonly reason: NextReason;
}

/** Pulls that could come next, the best first; none where nothing is believed. */
export function nextPulls(series: Series, table: readonly Cell[]): NextPull[] {
  const belief = beliefOf(series);
  if (belief === null) return [];
  const limits = limitsOf(series, table);
  const contrasts = contrastsOf(series, belief.size);
  const before = contrasts.reduce((sum, c) => sum + dot(c, solve(belief.factor, c)), 0);
  const hours = series.pullTime / 3600;
  const list = series.anchors.flatMap(({ name }) =>
    series.angles.map((angle, i) => {
      const row = rowOf(series, name, angle, series.question === "afterVeer");
      const { information, ended } = expectedAt(belief, row, limits[i]!);
      const reached = solve(belief.factor, row);
      const own = dot(row, reached);
      const taken = contrasts.reduce(
        (sum, c) => sum + (information * dot(c, reached) ** 2) / (1 + information * own),
        0,
      );
      const gain = 1 - Math.sqrt(Math.max(0, before - taken) / before);
      return { anchor: name, angle, gain, gainPerHour: gain / hours, ended };
    }),
  );
  const sorted = list.sort((a, b) => b.gainPerHour - a.gainPerHour);
  return sorted.map((one) => ({ ...one, reason: reasonOf(series, one) }));
}

/** Ends of the spread over which the load it would give way at is looked at: evenly shared middles of a normal law. */
const LOOKS = Array.from({ length: 9 }, (_, i) => normalQuantile((i + 0.5) / 9));

function expectedAt({ mean, factor, sigma }: Belief, row: Float64Array, limit: number) {
  const eta = dot(row, mean);
  const sd = Math.sqrt(dot(row, solve(factor, row)));
  let information = 0;
  let ended = 0;
  for (const look of LOOKS) {
    const z = (Math.log(limit) - eta - sd * look) / sigma;
    information += informationAt(z) / sigma ** 2 / LOOKS.length;
    ended += normalAbove(z) / LOOKS.length;
  }
  return { information, ended };
}

/** The differences the question is about, as weights of the terms. */
function contrastsOf({ question, anchors }: Series, size: number): Float64Array[] {
  const k = anchors.length;
  const unit = (...pairs: readonly (readonly [number, number])[]) => {
    const c = new Float64Array(size);
    for (const [at, value] of pairs) c[at] = value;
    return c;
  };
  if (question === "letsGo") return [unit([k + 1, 1])];
  if (question === "afterVeer") return [unit([k + 2, 1])];
  return anchors.flatMap((_, a) => anchors.slice(a + 1).map((_, b) => unit([1 + a, 1], [2 + a + b, -1])));
}

/** More than this chance of being ended is what to say of a pull. */
const MOSTLY = 0.6;

function reasonOf(series: Series, one: Omit<NextPull, "reason">): NextReason {
  if (one.ended > MOSTLY) return { kind: "likelyEnded", chance: one.ended };
  const count = (anchor: string) => series.pulls.filter((pull) => pull.anchor === anchor).length;
  const own = count(one.anchor);
  if (series.question === "letsGo") {
    const middle = series.angles.reduce((sum, angle) => sum + angle, 0) / series.angles.length;
    const farthest = Math.max(...series.angles.map((angle) => Math.abs(angle - middle)));
    if (Math.abs(Math.abs(one.angle - middle) - farthest) * DEGREES < 1e-6) return { kind: "farAngle" };
  }
  if (series.anchors.some(({ name }) => count(name) > own)) return { kind: "leastPulled", pulls: own };
  return { kind: "evenly" };
}
