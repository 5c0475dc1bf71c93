/**
 * The loop of a rope that states one (gear/loop.ts), added to the tension of its elements' stretch law T_s.
 *
 * Viscous: T = T_s + t k u·(ṙ₂ − ṙ₁)/L, k the law's slope. Maxwell: Q is carried over the step with T_s taken as straight in
 * time between its last value and where forces are worked out, δ later, which solves dQ/dt = r dT_s/dt − Q/t exactly:
 *
 *     Q = Q₀ e^(−δ/t) + r φ (T_s − T_s₀)        φ = (1 − e^(−δ/t)) t/δ
 *
 * A line pushes nowhere: T is no less than nothing.
 */
import { FULL_BLOCK, SYMMETRIC_BLOCK } from "../numeric/index.ts";
import { ELEMENT_SLOTS, FIRST_BAND, LAST_BAND, LENGTH } from "./elements.ts";
import { AT_TIME, BY_PLACE, BY_RATE, type RodeState, STEP, TIME } from "./rode-state.ts";

/** The tension of element `k` by its stretch law, N, and the law's slope there, N, at nodes that lie at `place`. */
function byLaw(state: RodeState, k: number, place: Float64Array): void {
  const { slots, band } = state.elements;
  const i = 3 * k;
  for (let c = 0; c < 3; c++) along[c] = place[i + 3 + c]! - place[i + c]!;
  const l = Math.sqrt(along[0]! ** 2 + along[1]! ** 2 + along[2]! ** 2);
  for (let c = 0; c < 3; c++) along[c]! *= l > 0 ? 1 / l : 0;
  const strain = l / slots[ELEMENT_SLOTS * k + LENGTH]! - 1;
  found[LAW] = 0;
  found[SLOPE] = 0;
  if (!(strain > 0)) return;
  let b = slots[ELEMENT_SLOTS * k + FIRST_BAND]!;
  const last = slots[ELEMENT_SLOTS * k + LAST_BAND]!;
  while (b < last && strain >= band[b + 3]!) b += 3;
  found[SLOPE] = band[b + 2]!;
  found[LAW] = band[b + 1]! + band[b + 2]! * (strain - band[b]!);
}

/** Direction of an element, and what `byLaw` found: no number is made anew where loops are worked out. */
const along = new Float64Array(3);
const found = new Float64Array(2);
const [LAW, SLOPE] = [0, 1];

/** Adds the loops to tensions, forces and the solver's blocks, once those of the stretch laws stand. */
export function addLoops(state: RodeState): void {
  const { elements, at, rate, force, tension, numbers, loopHeld, loopLaw } = state;
  const { diagonal, beside } = state.system;
  const loops = elements.loops;
  const since = numbers[AT_TIME]! - numbers[TIME]!;
  for (let j = 0; j < loops.element.length; j++) {
    const k = loops.element[j]!;
    const i = 3 * k;
    byLaw(state, k, at);
    const law = found[LAW]!;
    const slope = found[SLOPE]!;
    const length = elements.slots[ELEMENT_SLOTS * k + LENGTH]!;
    const t = loops.time[j]!;
    const decay = Math.exp(-since / t);
    const share = loops.stiffer[j]! * (since > 0 ? ((1 - decay) * t) / since : 1);
    let speed = 0;
    for (let c = 0; c < 3; c++) speed += along[c]! * (rate[i + 3 + c]! - rate[i + c]!);
    const viscous = (loops.viscous[j]! * slope) / length;
    let more = viscous * speed + loopHeld[j]! * decay + share * (law - loopLaw[j]!);
    let hardens = numbers[BY_RATE]! * viscous + (numbers[BY_PLACE]! * share * slope) / length;
    if (law === 0 || law + more < 0) {
      // Slack: what the law itself would pull and stiffen is taken back.
      more = -law;
      hardens = (-numbers[BY_PLACE]! * slope) / length;
    }
    tension[k] = law + more;
    const d = SYMMETRIC_BLOCK * k;
    const b = FULL_BLOCK * k;
    for (let r = 0, s = 0; r < 3; r++) {
      force[i + r]! += more * along[r]!;
      force[i + 3 + r]! -= more * along[r]!;
      for (let c = 0; c < 3; c++) {
        const by = hardens * along[r]! * along[c]!;
        beside[b + 3 * r + c]! -= by;
        if (c < r) continue;
        diagonal[d + s]! += by;
        diagonal[d + SYMMETRIC_BLOCK + s]! += by;
        s++;
      }
    }
  }
}

/** Lets every loop remember the step that was taken, its nodes now at `state.place`. */
export function followLoops(state: RodeState): void {
  const { loopHeld, loopLaw } = state;
  const { loops } = state.elements;
  const h = state.numbers[STEP]!;
  for (let j = 0; j < loops.element.length; j++) {
    byLaw(state, loops.element[j]!, state.place);
    const law = found[LAW]!;
    const t = loops.time[j]!;
    const decay = Math.exp(-h / t);
    loopHeld[j] = loopHeld[j]! * decay + loops.stiffer[j]! * (((1 - decay) * t) / h) * (law - loopLaw[j]!);
    loopLaw[j] = law;
  }
}

/** Lets every loop be at rest at the state's places: nothing is kept from before. */
export function restLoops(state: RodeState): void {
  const { loops } = state.elements;
  for (let j = 0; j < loops.element.length; j++) {
    byLaw(state, loops.element[j]!, state.place);
    state.loopHeld[j] = 0;
    state.loopLaw[j] = found[LAW]!;
  }
}
