/**
 * What holds the upper end of a moving rode. Its place is a function of three coordinates q and of time, p(q, t), so that
 * a path, a mass and a boat that yaws are one thing to the solver.
 *
 * Arrays: p and dp/dt|q 3 numbers; `place` writes dp/dq row by row into 9. Time comes as an array of one number: a number handed
 * to a function that is not known beforehand is made anew in memory, and these are asked in every turn of every step.
 */
export interface Bow {
  /** q is known as a function of time and written by `path`; forces and mass do not matter then. */
  readonly led: boolean;
  /** Where q is at a time, its speed and acceleration (led bows only). */
  path(t: Float64Array, q: Float64Array, rate: Float64Array, acceleration: Float64Array): void;
  /** Place of the bow, what of its speed does not come from q, and how it moves with q. */
  place(q: Float64Array, t: Float64Array, p: Float64Array, drift: Float64Array, byQ: Float64Array): void;
  /** Inertia for q̈, row by row, at q. */
  inertia(q: Float64Array, out: Float64Array): void;
  /**
   * Force on q but for the rode's; `damping` receives −∂force/∂(dq/dt) and `stiffness` −∂force/∂q, row by row, as far as they
   * matter to the solver (approximations only slow it).
   */
  force(
    q: Float64Array,
    rate: Float64Array,
    t: Float64Array,
    out: Float64Array,
    damping: Float64Array,
    stiffness: Float64Array,
  ): void;
}

/** A place, its speed and its acceleration at a time, 3 numbers each. */
export type Path = (t: number, place: Float64Array, speed: Float64Array, acceleration: Float64Array) => void;

/** A bow that follows a path whatever the rode pulls. */
export function ledBow(path: Path): Bow {
  return {
    led: true,
    path: (t, place, speed, acceleration) => path(t[0]!, place, speed, acceleration),
    place: straight,
    inertia: (_, out) => identity(out, 1),
    force: (_q, _rate, _t, out, damping, stiffness) => {
      out.fill(0);
      damping.fill(0);
      stiffness.fill(0);
    },
  };
}

/** Forces on a body that is free in x, y and z, written into `out`, N. */
export type BodyForce = (q: Float64Array, rate: Float64Array, t: number, out: Float64Array) => void;

export interface FreeBody {
  /** kg along x, y and z; Infinity: held where it is. */
  readonly mass: readonly [number, number, number];
  readonly force: BodyForce;
  /** N per m/s, taken off the force: 0 where left out. */
  readonly damping?: number;
}

/** A body without a size at the upper end: a mass on a rode. */
export function bodyBow({ mass, force, damping = 0 }: FreeBody): Bow {
  return {
    led: false,
    path: () => {},
    place: straight,
    inertia: (_, out) => {
      out.fill(0);
      for (let i = 0; i < 3; i++) out[4 * i] = Number.isFinite(mass[i]!) ? mass[i]! : HELD;
    },
    force: (q, rate, t, out, damp, stiffness) => {
      force(q, rate, t[0]!, out);
      damp.fill(0);
      stiffness.fill(0);
      for (let i = 0; i < 3; i++) {
        out[i]! -= damping * rate[i]!;
        damp[4 * i] = damping;
      }
    },
  };
}

/** A mass that no force of a rode moves by anything that can be read off, kg. */
const HELD = 1e15;

function straight(q: Float64Array, _t: Float64Array, p: Float64Array, drift: Float64Array, byQ: Float64Array): void {
  p.set(q);
  drift.fill(0);
  identity(byQ, 1);
}

function identity(out: Float64Array, value: number): void {
  out.fill(0);
  out[0] = value;
  out[4] = value;
  out[8] = value;
}
