import type { Run } from "../../../src/pull/index.ts";
import { endForcesOf, perturbed, type Rig } from "../../../src/rode/index.ts";
import type { Rng } from "../../../src/statistics/index.ts";
import { given } from "./demo.ts";

const degree = Math.PI / 180;

/** What is stated of the rig and of a reading: standard uncertainties. */
export const STATED = { load: 8, angle: 0.35 * degree, movement: 0.004, gaugeZero: 0.5 * degree } as const;

/** 26 m of 1.4 kg/m over a rise of 7.4 m in air; mass per length known to 3 %, rise to 0.1 m. */
export const { rig: statedRig } = given(`format: rodebench/run@1
rig:
  format: rodebench/rig@1
  name: Rig
  setting: { medium: air, rise: 7.4 m }
  rode: [{ line: { length: 26 m, massPerLength: 1.4 kg/m, density: 7850 kg/m3 } }]
  uncertainty: { massPerLength: 3 %, rise: 0.1 m }
loadCellAt: bow
readings: [{ load: 1000, angle: 5 }]
`);

export interface Simulated {
  readonly run: Run;
  readonly rig: Rig;
  /** What the fit is to find, in the units of `Fitted`. */
  readonly truth: {
    readonly massPerLength: number;
    readonly rise: number;
    readonly gaugeZero: number;
    readonly rigGive: number;
  };
  /** Place of the planted error among the angles, or, past them, among the movements; null where none was planted. */
  readonly planted: number | null;
}

export interface Design {
  /** Angles read, and rows of the release (0: none). */
  readonly angles: number;
  readonly release: number;
  /** Size of one planted error, standard uncertainties of its reading, from and to; without: none. */
  readonly planted?: readonly [number, number];
  /** Factor by which readings truly scatter over what is stated. */
  readonly scatter?: number;
}

/**
 * A run whose rig, gauge and every error are drawn from what is stated of them: truths from their priors, each reading's own
 * error and that of its load, and the tape's first reading, which is in all movements alike.
 */
export function simulatedRun(stream: Rng, { angles, release, planted, scatter = 1 }: Design): Simulated {
  const mass = 1 + 0.03 * stream.normal();
  const rise = 0.1 * stream.normal();
  const zero = STATED.gaugeZero * stream.normal();
  const give = 3e-6;
  const endForces = endForcesOf(perturbed(statedRig, mass, rise));
  const at = (load: number) => endForces({ at: "bow", newtons: load })!;
  const off = (u: number) => scatter * u * stream.normal();
  const between = (from: number, to: number, i: number, n: number) => from * (to / from) ** (n > 1 ? i / (n - 1) : 0.5);
  const size = planted === undefined ? 0 : planted[0] + (planted[1] - planted[0]) * stream.uniform();
  const sign = stream.uniform() < 0.5 ? -1 : 1;
  const place = planted === undefined ? null : stream.integer(angles + Math.max(0, release - 1));
  const wild = (i: number) => (i === place ? sign * size : 0);
  const first = off(STATED.movement);
  const top = 2600;
  const topRead = at(top + off(STATED.load)).span;
  const movement = (load: number): number =>
    topRead - at(load + off(STATED.load)).span + give * (top - load) + off(STATED.movement) - first;
  return {
    rig: statedRig,
    planted: place,
    truth: { massPerLength: 1.4 * mass, rise: 7.4 + rise, gaugeZero: zero, rigGive: give },
    run: {
      name: "simulated",
      loadCellAt: "bow",
      angleAt: "anchor",
      uncertainty: STATED,
      readings: Array.from({ length: angles }, (_, i) => {
        const load = between(800, 2500, i, angles);
        const angle = at(load + off(STATED.load)).anchorAngle + zero + off(STATED.angle) + wild(i) * STATED.angle;
        return { load, angle, liftoff: false };
      }),
      release: Array.from({ length: release }, (_, i) => {
        const load = between(top, 800, i, release);
        return {
          load,
          movement: i === 0 ? 0 : movement(load) + wild(angles + i - 1) * STATED.movement,
        };
      }),
    },
  };
}
