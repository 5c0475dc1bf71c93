/** Uncertainty of what sizing answers, first order, of the rig's own inputs and those of the load and the surge. */
import { CHAIN_STRETCH_U } from "../gear/index.ts";
import { isRope, movedRig, type Rig, type RigMove, rigInputs, settle } from "../rode/index.ts";
import { combined, jacobian, type UncertainInput } from "../statistics/index.ts";
import { type CatenaryEndQuestion, catenaryEnd, readAt } from "./catenary-end.ts";
import { facts } from "./facts.gen.ts";
import { COARSE, type SteadyLoad, type Surge, surgePeak } from "./snatch.ts";

/** Standard uncertainties of the inputs beside the rig's own; a field left out is taken as exact. */
export interface InputsU {
  /** Of the steady load, N. */
  readonly load?: number;
  /** m/s, kg, m */
  readonly speed?: number;
  readonly mass?: number;
  readonly distance?: number;
  /** Relative, of the stretch of every rope under a load. */
  readonly stretch?: number;
}

/** Values with standard uncertainties, first order. */
export interface Certain {
  readonly value: number;
  /** null where there is no answer beside the estimate of `cannotMove`. */
  readonly u: number | null;
  readonly cannotMove: string | null;
  /** Share of u² of each input; they add up to 1. */
  readonly shares: readonly { readonly name: string; readonly share: number }[];
}

/** An input, and what of the rig it moves; none for those of the load and the surge. */
type Input = UncertainInput & { readonly input?: keyof RigMove };

/** Share of an uncertainty over which a run in time is differenced: its peaks are good to a thousandth, not to nine digits. */
export const RUN_SHARE = 0.5;

function firstOrder(
  value: number,
  inputs: readonly Input[],
  model: (rig: RigMove, moved: (name: string) => number) => number,
  share?: number,
): Certain | null {
  const uncertain = inputs.filter((input) => input.u > 0);
  if (uncertain.length === 0) return null;
  const first = jacobian(
    (x, out) => {
      const move: { -readonly [input in keyof RigMove]: number } = {};
      // Two inputs may move one thing: a rope by its own curve, and by how quickly it is worked.
      uncertain.forEach(({ input }, i) => {
        if (input !== undefined) move[input] = (move[input] ?? 0) + x[i]!;
      });
      out[0] = model(move, (name) => x[uncertain.findIndex((each) => each.name === name)] ?? 0);
    },
    1,
    uncertain,
    share,
  );
  if (first.kind !== "jacobian")
    return { value, u: null, cannotMove: first.kind === "cannotMove" ? first.input : null, shares: [] };
  const { u, shares } = combined(first);
  return {
    value,
    u: u[0]!,
    cannotMove: null,
    shares: uncertain.map(({ name }, i) => ({ name, share: shares[i]![0]! })),
  };
}

/** What the rig itself is unsure of; `stretch` where the rig does not state its own. */
function inputsOf(rig: Rig, stretch = 0): Input[] {
  const own = rigInputs(rig);
  const soft = rig.rode.some((part) => part.kind === "line" && isRope(part));
  if (rig.uncertainty.stretch !== undefined || !soft) return own;
  return [...own, { name: "stretch of the rope", input: "stretch", value: 0, u: stretch }];
}

/** What a surge adds to that: rope worked quickly is stiffer than its curve, and chain stretches as its links are guessed. */
export function quickInputs(rig: Rig): Input[] {
  const lines = rig.rode.filter((part) => part.kind === "line");
  return [
    ...(lines.some(isRope)
      ? [{ name: "rope worked quickly", input: "stretch" as const, value: 0, u: facts.rope.quick.u }]
      : []),
    ...(lines.some((line) => line.material === "chain")
      ? [{ name: "stretch of the chain", input: "metalStretch" as const, value: 0, u: CHAIN_STRETCH_U }]
      : []),
  ];
}

/** Tension at the bow at the peak of a snatch, N. @param drawnU its uncertainty from how few waves were drawn, N */
export function snatchCertainty(
  rig: Rig,
  load: SteadyLoad,
  surge: Surge,
  u: InputsU,
  peak: number,
  drawnU = 0,
): Certain | null {
  const inputs = [
    ...inputsOf(rig, u.stretch),
    ...quickInputs(rig),
    { name: "drawing of the waves", value: 0, u: drawnU },
    { name: "steady load", value: 0, u: u.load ?? 0 },
    { name: "speed", value: 0, u: surge.kind === "speed" ? (u.speed ?? 0) : 0 },
    { name: "mass that moves", value: 0, u: surge.kind === "speed" ? (u.mass ?? 0) : 0 },
    { name: "distance", value: 0, u: surge.kind === "distance" ? (u.distance ?? 0) : 0 },
  ];
  return firstOrder(
    peak,
    inputs,
    (move, moved) => {
      const there = movedRig(rig, move);
      if (there === null) return Number.NaN;
      const mean = settle(there, { at: load.at, newtons: load.newtons + moved("steady load") });
      if (mean.kind === "noEquilibrium") return Number.NaN;
      const found = surgePeak(there, mean.horizontal, surgeMoved(surge, moved), surge.kind === "waves" ? COARSE : {});
      return found?.kind === "peak"
        ? Math.max(found.bow, mean.bow.tension) + moved("drawing of the waves")
        : Number.NaN;
    },
    RUN_SHARE,
  );
}

function surgeMoved(surge: Surge, moved: (name: string) => number): Surge {
  if (surge.kind === "speed")
    return { ...surge, speed: Math.max(0, surge.speed + moved("speed")), mass: surge.mass + moved("mass that moves") };
  if (surge.kind === "distance") return { ...surge, distance: Math.max(0, surge.distance + moved("distance")) };
  return surge;
}

/** Load past which catenary gives less than is asked, N, read at the end the question names. */
export function catenaryEndCertainty(rig: Rig, question: CatenaryEndQuestion, load: number): Certain | null {
  return firstOrder(load, inputsOf(rig), (move) => {
    const there = movedRig(rig, move);
    if (there === null) return Number.NaN;
    const fade = catenaryEnd(there, question);
    return fade.kind === "fades" ? readAt(fade.settled, question.at) : Number.NaN;
  });
}
