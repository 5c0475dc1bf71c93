/**
 * Draws from a density known by its logarithm and gradient: Hamiltonian Monte Carlo that goes on until it would turn back
 * (Hoffman & Gelman, J. Mach. Learn. Res. 15, 2014, 1593), with the next place chosen among all of the path by its weight
 * and the U-turn looked for over the summed momentum, also across the halves of each doubling (Betancourt,
 * arXiv:1701.02434, A.4).
 *
 * Warm-up: the step size by dual averaging toward a mean acceptance; the scale of each parameter (a diagonal metric) from
 * windows that double: 15 % of the warm-up to find the place, 75 % of windows, 10 % for the step size alone. All arrays
 * are made once; a draw allocates nothing.
 */
import { logAdd } from "./log-sum.ts";
import type { Rng } from "./rng.ts";

/** ln of the density, up to a constant, at `at`; writes its gradient. Not finite where the density is zero. */
export type LogDensity = (at: Float64Array, gradient: Float64Array) => number;

/** How a chain is run. */
export interface ChainOptions {
  readonly warmUp: number;
  readonly draws: number;
  /** Mean acceptance the step size is tuned to; nearer 1 takes smaller steps. */
  readonly acceptance?: number;
  /** Most doublings of a path; a path of 2^10 steps that has not turned is cut. */
  readonly deepest?: number;
  /** Called after every draw, warm-up included, with how many are done; false stops the chain there. */
  readonly onDraw?: (done: number) => boolean;
}

/** One chain of draws, with what its warm-up settled on. */
export interface Chain {
  /** draws · parameters numbers, draw after draw. */
  readonly draws: Float64Array;
  readonly parameters: number;
  /** Draws made after the warm-up: fewer than asked for when it was stopped. */
  readonly length: number;
  /** Paths on which the energy ran away by more than 1000: places the steps are too coarse for. */
  readonly divergent: number;
  /** Paths cut at the deepest doubling. */
  readonly cut: number;
  readonly stepSize: number;
  readonly meanAcceptance: number;
  /** Gradients asked for after the warm-up. */
  readonly gradients: number;
  /** E-BFMI: how freely the energy moves from draw to draw; below 0.3 the tails are hardly reached. */
  readonly energyMixing: number;
}

const RUN_AWAY = 1000;

/** Place, momentum and gradient. */
interface State {
  readonly q: Float64Array;
  readonly p: Float64Array;
  readonly g: Float64Array;
  value: number;
}

interface Scratch {
  readonly proposal: Float64Array;
  proposalValue: number;
  readonly proposalGradient: Float64Array;
  readonly velocityLeftEnd: Float64Array;
  readonly velocityRightBegin: Float64Array;
  readonly momentumLeftEnd: Float64Array;
  readonly momentumRightBegin: Float64Array;
  readonly rhoLeft: Float64Array;
  readonly rhoRight: Float64Array;
}

/** One chain, from `start`, which must have a density above zero. */
export function sampleChain(density: LogDensity, start: ArrayLike<number>, rng: Rng, options: ChainOptions): Chain {
  const walker = new Walker(density, start, rng, options.acceptance ?? 0.8, options.deepest ?? 10);
  const { warmUp, draws } = options;
  const n = start.length;
  const out = new Float64Array(draws * n);
  const onDraw = options.onDraw ?? (() => true);
  const windows = windowEnds(warmUp);
  walker.findStepSize();
  let done = 0;
  let stopped = false;
  for (; done < warmUp && !stopped; done++) {
    walker.next();
    walker.adaptStep();
    if (done >= windows.from && done < windows.to) {
      walker.remember();
      if (windows.ends.has(done + 1)) walker.newMetric();
    }
    stopped = !onDraw(done + 1);
  }
  walker.settle();
  let length = 0;
  while (length < draws && !stopped) {
    walker.next();
    out.set(walker.here.q, length * n);
    length++;
    stopped = !onDraw(warmUp + length);
  }
  return {
    draws: length === draws ? out : out.slice(0, length * n),
    parameters: n,
    length,
    divergent: walker.divergent,
    cut: walker.cut,
    stepSize: walker.stepSize,
    meanAcceptance: length === 0 ? 0 : walker.acceptanceSum / length,
    gradients: walker.gradients,
    energyMixing: walker.energyMixing(),
  };
}

/** Windows of 25, 50, 100 …, the last one taking what is left. */
function windowEnds(warmUp: number): { from: number; to: number; ends: Set<number> } {
  const from = warmUp < 20 ? warmUp : Math.min(75, Math.round(0.15 * warmUp));
  const to = warmUp - Math.min(50, Math.round(0.1 * warmUp));
  const ends = new Set<number>();
  let at = from;
  for (let size = 25; at < to; size *= 2) {
    at = at + size + 2 * size > to ? to : at + size;
    ends.add(at);
  }
  return { from, to, ends };
}

class Walker {
  readonly here: State;
  stepSize = 1;
  divergent = 0;
  cut = 0;
  gradients = 0;
  acceptanceSum = 0;
  readonly #density: LogDensity;
  readonly #rng: Rng;
  readonly #n: number;
  readonly #target: number;
  readonly #deepest: number;
  /** Variance of each parameter, the inverse mass. */
  readonly #variance: Float64Array;
  readonly #forward: State;
  readonly #backward: State;
  /** The state the tree walks with; forward or backward end. */
  #end: State;
  #direction = 1;
  #energy = 0;
  #pathAcceptance = 0;
  #pathSteps = 0;
  #ranAway = false;
  #logWeight = 0;
  readonly #scratch: Scratch[];
  readonly #rho: Float64Array;
  readonly #rhoNew: Float64Array;
  readonly #velocityForward: Float64Array;
  readonly #velocityBackward: Float64Array;
  readonly #velocityBegin: Float64Array;
  readonly #velocityEnd: Float64Array;
  readonly #momentumBegin: Float64Array;
  readonly #momentumEnd: Float64Array;
  readonly #velocityForwardOld: Float64Array;
  readonly #velocityBackwardOld: Float64Array;
  readonly #momentumForwardOld: Float64Array;
  readonly #momentumBackwardOld: Float64Array;
  readonly #proposal: State;
  // Welford's sums of the window; dual averaging; energies.
  #count = 0;
  readonly #mean: Float64Array;
  readonly #squares: Float64Array;
  #mu = 0;
  #adapted = 0;
  #hBar = 0;
  #logStepBar = 0;
  #energyBefore = Number.NaN;
  #energyMean = 0;
  #energySquares = 0;
  #energySteps = 0;
  #energies = 0;

  constructor(density: LogDensity, start: ArrayLike<number>, rng: Rng, target: number, deepest: number) {
    const n = start.length;
    const vector = () => new Float64Array(n);
    const state = (): State => ({ q: vector(), p: vector(), g: vector(), value: 0 });
    this.#density = density;
    this.#rng = rng;
    this.#n = n;
    this.#target = target;
    this.#deepest = deepest;
    this.#variance = vector().fill(1);
    this.here = state();
    this.here.q.set(start);
    this.here.value = density(this.here.q, this.here.g);
    this.#forward = state();
    this.#backward = state();
    this.#end = this.#forward;
    this.#proposal = state();
    this.#scratch = Array.from({ length: deepest + 1 }, () => ({
      proposal: vector(),
      proposalValue: 0,
      proposalGradient: vector(),
      velocityLeftEnd: vector(),
      velocityRightBegin: vector(),
      momentumLeftEnd: vector(),
      momentumRightBegin: vector(),
      rhoLeft: vector(),
      rhoRight: vector(),
    }));
    this.#rho = vector();
    this.#rhoNew = vector();
    this.#velocityForward = vector();
    this.#velocityBackward = vector();
    this.#velocityBegin = vector();
    this.#velocityEnd = vector();
    this.#momentumBegin = vector();
    this.#momentumEnd = vector();
    this.#velocityForwardOld = vector();
    this.#velocityBackwardOld = vector();
    this.#momentumForwardOld = vector();
    this.#momentumBackwardOld = vector();
    this.#mean = vector();
    this.#squares = vector();
  }

  /** Doubles or halves the step until one step's acceptance crosses the target; dual averaging goes on from there. */
  findStepSize(): void {
    let direction = 0;
    for (let turn = 0; turn < 60; turn++) {
      copy(this.here, this.#forward);
      this.#kick(this.#forward);
      const before = this.#hamiltonian(this.#forward);
      this.#leapfrog(this.#forward, this.stepSize);
      const change = before - this.#hamiltonian(this.#forward);
      const up = Number.isFinite(change) && change > Math.log(this.#target) ? 1 : -1;
      if (direction === 0) direction = up;
      if (up !== direction) break;
      this.stepSize *= direction === 1 ? 2 : 0.5;
    }
    this.#mu = Math.log(10 * this.stepSize);
    this.#adapted = 0;
    this.#hBar = 0;
    this.#logStepBar = 0;
  }

  /** Dual averaging (Hoffman & Gelman, section 3.2; γ 0.05, t₀ 10, κ 0.75). */
  adaptStep(): void {
    const acceptance = this.#pathSteps === 0 ? 0 : this.#pathAcceptance / this.#pathSteps;
    this.#adapted++;
    const share = 1 / (this.#adapted + 10);
    this.#hBar = (1 - share) * this.#hBar + share * (this.#target - acceptance);
    const logStep = this.#mu - (Math.sqrt(this.#adapted) / 0.05) * this.#hBar;
    const weight = this.#adapted ** -0.75;
    this.#logStepBar = weight * logStep + (1 - weight) * this.#logStepBar;
    this.stepSize = Math.exp(logStep);
  }

  remember(): void {
    this.#count++;
    for (let i = 0; i < this.#n; i++) {
      const change = this.here.q[i]! - this.#mean[i]!;
      this.#mean[i] = this.#mean[i]! + change / this.#count;
      this.#squares[i] = this.#squares[i]! + change * (this.here.q[i]! - this.#mean[i]!);
    }
  }

  /** The window's variances, drawn a little toward a small one, as few draws tell them badly. */
  newMetric(): void {
    const n = this.#count;
    if (n > 1) {
      for (let i = 0; i < this.#n; i++) {
        this.#variance[i] = (n / (n + 5)) * (this.#squares[i]! / (n - 1)) + 1e-3 * (5 / (n + 5));
      }
    }
    this.#count = 0;
    this.#mean.fill(0);
    this.#squares.fill(0);
    this.findStepSize();
  }

  /** Ends the warm-up: the averaged step size stands from here. */
  settle(): void {
    if (this.#adapted > 0) this.stepSize = Math.exp(this.#logStepBar);
    this.divergent = 0;
    this.cut = 0;
    this.gradients = 0;
    this.acceptanceSum = 0;
    this.#energyBefore = Number.NaN;
    this.#energies = 0;
    this.#energyMean = 0;
    this.#energySquares = 0;
    this.#energySteps = 0;
  }

  energyMixing(): number {
    return this.#energySquares > 0 ? this.#energySteps / this.#energySquares : Number.NaN;
  }

  /** One draw: `here` moves on. */
  next(): void {
    const n = this.#n;
    const here = this.here;
    this.#kick(here);
    this.#energy = this.#hamiltonian(here);
    this.#tellEnergy(this.#energy);
    copy(here, this.#forward);
    copy(here, this.#backward);
    copy(here, this.#proposal);
    for (let i = 0; i < n; i++) {
      const velocity = this.#variance[i]! * here.p[i]!;
      this.#velocityForward[i] = velocity;
      this.#velocityBackward[i] = velocity;
      this.#rho[i] = here.p[i]!;
    }
    this.#pathAcceptance = 0;
    this.#pathSteps = 0;
    this.#ranAway = false;
    let logWeight = 0;
    let depth = 0;
    for (; depth < this.#deepest; depth++) {
      const forward = this.#rng.uniform() > 0.5;
      this.#direction = forward ? 1 : -1;
      this.#end = forward ? this.#forward : this.#backward;
      // Ends of the old path where the halves meet.
      this.#velocityForwardOld.set(this.#velocityForward);
      this.#velocityBackwardOld.set(this.#velocityBackward);
      this.#momentumForwardOld.set(this.#forward.p);
      this.#momentumBackwardOld.set(this.#backward.p);
      this.#rhoNew.fill(0);
      const scratch = this.#scratch[depth]!;
      const whole = this.#build(
        depth,
        scratch,
        this.#velocityBegin,
        this.#velocityEnd,
        this.#momentumBegin,
        this.#momentumEnd,
        this.#rhoNew,
      );
      if (!whole) break;
      (forward ? this.#velocityForward : this.#velocityBackward).set(this.#velocityEnd);
      const added = this.#logWeight;
      // Toward the new half with the chance of its weight over the old one's: farther on than by plain weights.
      if (added > logWeight || this.#rng.uniform() < Math.exp(added - logWeight)) {
        this.#proposal.q.set(scratch.proposal);
        this.#proposal.g.set(scratch.proposalGradient);
        this.#proposal.value = scratch.proposalValue;
      }
      logWeight = logAdd(logWeight, added);
      // Whole path; old path with the new half's first momentum; new half with the old path's last.
      let onward = this.#straight(this.#velocityBackward, this.#velocityForward, this.#rho, this.#rhoNew);
      const oldFar = forward ? this.#velocityBackwardOld : this.#velocityForwardOld;
      const oldNear = forward ? this.#velocityForwardOld : this.#velocityBackwardOld;
      const oldNearMomentum = forward ? this.#momentumForwardOld : this.#momentumBackwardOld;
      onward &&= this.#straight(oldFar, this.#velocityBegin, this.#rho, this.#momentumBegin);
      onward &&= this.#straight(oldNear, this.#velocityEnd, this.#rhoNew, oldNearMomentum);
      for (let i = 0; i < n; i++) this.#rho[i] = this.#rho[i]! + this.#rhoNew[i]!;
      if (!onward) break;
    }
    if (this.#ranAway) this.divergent++;
    if (depth === this.#deepest) this.cut++;
    this.acceptanceSum += this.#pathSteps === 0 ? 0 : this.#pathAcceptance / this.#pathSteps;
    copy(this.#proposal, here);
  }

  /**
   * A half of 2^depth steps onward from the end, leaving its chosen place in `into`, its weight in #logWeight, its first and
   * last velocities and momenta, and its momenta summed onto `rho`.
   *
   * @returns false when it ran away or turned within itself
   */
  #build(
    depth: number,
    into: Scratch,
    velocityBegin: Float64Array,
    velocityEnd: Float64Array,
    momentumBegin: Float64Array,
    momentumEnd: Float64Array,
    rho: Float64Array,
  ): boolean {
    const n = this.#n;
    if (depth === 0) {
      const end = this.#end;
      this.#leapfrog(end, this.#direction * this.stepSize);
      const energy = this.#hamiltonian(end);
      const change = Number.isFinite(energy) ? this.#energy - energy : Number.NEGATIVE_INFINITY;
      this.#pathSteps++;
      this.#pathAcceptance += change > 0 ? 1 : Math.exp(change);
      this.#logWeight = change;
      if (-change > RUN_AWAY) {
        this.#ranAway = true;
        return false;
      }
      into.proposal.set(end.q);
      into.proposalGradient.set(end.g);
      into.proposalValue = end.value;
      for (let i = 0; i < n; i++) {
        const p = end.p[i]!;
        const velocity = this.#variance[i]! * p;
        velocityBegin[i] = velocity;
        velocityEnd[i] = velocity;
        momentumBegin[i] = p;
        momentumEnd[i] = p;
        rho[i] = rho[i]! + p;
      }
      return true;
    }
    // The first quarter's arrays are this depth's; the second's chosen place lies in the scratch of the depth below.
    const own = this.#scratch[depth]!;
    const below = this.#scratch[depth - 1]!;
    own.rhoLeft.fill(0);
    own.rhoRight.fill(0);
    if (
      !this.#build(
        depth - 1,
        below,
        velocityBegin,
        own.velocityLeftEnd,
        momentumBegin,
        own.momentumLeftEnd,
        own.rhoLeft,
      )
    )
      return false;
    const leftWeight = this.#logWeight;
    into.proposal.set(below.proposal);
    into.proposalGradient.set(below.proposalGradient);
    into.proposalValue = below.proposalValue;
    if (
      !this.#build(
        depth - 1,
        below,
        own.velocityRightBegin,
        velocityEnd,
        own.momentumRightBegin,
        momentumEnd,
        own.rhoRight,
      )
    )
      return false;
    const rightWeight = this.#logWeight;
    const total = logAdd(leftWeight, rightWeight);
    if (this.#rng.uniform() < Math.exp(rightWeight - total)) {
      into.proposal.set(below.proposal);
      into.proposalGradient.set(below.proposalGradient);
      into.proposalValue = below.proposalValue;
    }
    this.#logWeight = total;
    let onward = this.#straight(velocityBegin, velocityEnd, own.rhoLeft, own.rhoRight);
    onward &&= this.#straight(velocityBegin, own.velocityRightBegin, own.rhoLeft, own.momentumRightBegin);
    onward &&= this.#straight(own.velocityLeftEnd, velocityEnd, own.rhoRight, own.momentumLeftEnd);
    for (let i = 0; i < n; i++) rho[i] = rho[i]! + own.rhoLeft[i]! + own.rhoRight[i]!;
    return onward;
  }

  /** Whether both ends still go along with the summed momentum, given as two parts. */
  #straight(begin: Float64Array, end: Float64Array, rho: Float64Array, more: Float64Array): boolean {
    let atBegin = 0;
    let atEnd = 0;
    for (let i = 0; i < this.#n; i++) {
      const r = rho[i]! + more[i]!;
      atBegin += begin[i]! * r;
      atEnd += end[i]! * r;
    }
    return atBegin > 0 && atEnd > 0;
  }

  #leapfrog(state: State, step: number): void {
    const n = this.#n;
    for (let i = 0; i < n; i++) {
      const p = state.p[i]! + 0.5 * step * state.g[i]!;
      state.p[i] = p;
      state.q[i] = state.q[i]! + step * this.#variance[i]! * p;
    }
    state.value = this.#density(state.q, state.g);
    this.gradients++;
    for (let i = 0; i < n; i++) state.p[i] = state.p[i]! + 0.5 * step * state.g[i]!;
  }

  #kick(state: State): void {
    for (let i = 0; i < this.#n; i++) state.p[i] = this.#rng.normal() / Math.sqrt(this.#variance[i]!);
  }

  #hamiltonian(state: State): number {
    let kinetic = 0;
    for (let i = 0; i < this.#n; i++) kinetic += state.p[i]! * state.p[i]! * this.#variance[i]!;
    return 0.5 * kinetic - state.value;
  }

  #tellEnergy(energy: number): void {
    if (!Number.isNaN(this.#energyBefore)) this.#energySteps += (energy - this.#energyBefore) ** 2;
    this.#energyBefore = energy;
    this.#energies++;
    const change = energy - this.#energyMean;
    this.#energyMean += change / this.#energies;
    this.#energySquares += change * (energy - this.#energyMean);
  }
}

function copy(from: State, to: State): void {
  to.q.set(from.q);
  to.p.set(from.p);
  to.g.set(from.g);
  to.value = from.value;
}
