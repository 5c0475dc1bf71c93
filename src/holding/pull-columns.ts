/** Pulls as the model reads them: columns of numbers, grouped by what is known of each load. */
import { DEGREES } from "../quantity/index.ts";
import { ABOVE, BELOW, BETWEEN, EXACT } from "./law.ts";
import { observations } from "./observations.ts";
import type { Pull } from "./pull.ts";

export interface PullColumns {
  readonly length: number;
  /** Place among the pulls of each row, and row of each pull. */
  readonly pullOf: Int32Array;
  readonly rowOf: Int32Array;
  /** Rows are exact up to the first, held on up to the second, never held up to the third, between two loads beyond. */
  readonly exactTo: number;
  readonly aboveTo: number;
  readonly belowTo: number;
  readonly kind: Uint8Array;
  /** Cell of each row: rows of one cell share all but the angle in their centre. */
  readonly cell: Int32Array;
  /** Degrees by which the angle lies above the reference; 0 where it is no term. */
  readonly angle: Float64Array;
  /** ln of loads, N; `high` is the exact one again. */
  readonly low: Float64Array;
  readonly high: Float64Array;
  /** Standard deviation of the error of ln load. */
  readonly error: Float64Array;
  /** Degrees by which the angle at the anchor grows with each unit of ln load. */
  readonly rise: Float64Array;
  /** Degrees by which the angle at the lower load of two lies above that at the upper. */
  readonly gap: Float64Array;
  /** No pull has an error or an angle of its own load. */
  readonly plain: boolean;
}

const ORDER = [EXACT, ABOVE, BELOW, BETWEEN];

/**
 * @param reference angle the intercept is meant at, degrees; undefined where the angle is no term
 * @param cellOf cell of each pull
 */
export function pullColumns(pulls: readonly Pull[], reference: number | undefined, cellOf: Int32Array): PullColumns {
  const angled = reference !== undefined;
  const seen = observations(pulls.map(({ hold }) => hold));
  const n = pulls.length;
  const pullOf = Int32Array.from(
    Array.from({ length: n }, (_, i) => i).sort(
      (a, b) => ORDER.indexOf(seen.kind[a]!) - ORDER.indexOf(seen.kind[b]!) || a - b,
    ),
  );
  const rowOf = new Int32Array(n);
  for (let row = 0; row < n; row++) rowOf[pullOf[row]!] = row;
  const ordered = (of: (pull: Pull, i: number) => number) => Float64Array.from(pullOf, (i) => of(pulls[i]!, i));
  const kind = Uint8Array.from(pullOf, (i) => seen.kind[i]!);
  const upTo = (last: number): number => kind.reduce((sum, one) => sum + (one <= last ? 1 : 0), 0);
  const error = ordered(({ loadError }) => loadError ?? 0);
  const rise = ordered(({ angleRise }) => (angled ? (angleRise ?? 0) * DEGREES : 0));
  const gap = ordered(({ anchorAngle, angleHeld }) =>
    angled && angleHeld !== undefined ? (angleHeld - anchorAngle!) * DEGREES : 0,
  );
  return {
    length: n,
    pullOf,
    rowOf,
    exactTo: upTo(EXACT),
    aboveTo: upTo(ABOVE),
    belowTo: upTo(BELOW),
    kind,
    cell: Int32Array.from(pullOf, (i) => cellOf[i]!),
    angle: ordered(({ anchorAngle }) => (angled ? anchorAngle! * DEGREES - reference : 0)),
    low: ordered((_, i) => seen.low[i]!),
    high: ordered((_, i) => seen.high[i]!),
    error,
    rise,
    gap,
    plain: [error, rise].every((column) => column.every((value) => value === 0)),
  };
}
