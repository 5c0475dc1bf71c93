/** The JSON answer of `shock`: SI, the unit in the field's name. */
import { DEGREES } from "../quantity/index.ts";
import { settledFields } from "../rode/index.ts";
import {
  type CatenaryEnd,
  type Certain,
  type Give,
  REASONS,
  reasonsOf,
  type Shock,
  type ShockQuestion,
  type Snatch,
  type SnubberMap,
  type Surge,
  type Tried,
  USUAL_STROKE,
} from "../sizing/index.ts";
import { CAUTION, noEquilibriumLine } from "../words/index.ts";

export const SHOCK_FORMAT = "rodebench/shock@1";

export function shockDocument(question: ShockQuestion, answer: Shock, said: readonly string[]): object {
  const { rig, steady, surge } = question;
  return {
    format: SHOCK_FORMAT,
    rig: rig.name,
    steady: { load_N: steady.newtons, at: steady.at, ...settledFields(answer.mean) },
    rows: answer.rows.map(({ settled, give, perLoad, stiffness }) => ({
      ...settledFields(settled),
      give: giveFields(give),
      givePerLoad_m_per_N: perLoad,
      stiffness_N_per_m: stiffness,
    })),
    ...(answer.fade === undefined
      ? {}
      : { catenaryEnd: { ...fadeFields(answer.fade.fade), ...certainFields(answer.fade.certain) } }),
    ...(surge === undefined
      ? {}
      : {
          surge: surgeFields(surge),
        }),
    ...(answer.snatch === undefined
      ? {}
      : { snatch: { ...snatchFields(answer.snatch.answer), ...certainFields(answer.snatch.certain) } }),
    ...(answer.snubber === undefined
      ? {}
      : { snubber: { ...triedFields(answer.snubber.answer), ...certainFields(answer.snubber.certain) } }),
    ...(answer.map === undefined ? {} : { map: mapFields(answer.map) }),
    assumed: said,
    caution: CAUTION,
  };
}

export function giveFields({ movement, work, parts, rest, shares }: Give): object {
  const amount = (one: { movement: number; energy: number }) => ({ movement_m: one.movement, energy_J: one.energy });
  return {
    movement_m: movement,
    work_J: work,
    lifting: amount(shares.lifting),
    kellet: amount(shares.kellet),
    stretchingRope: amount(shares.stretchingRope),
    stretchingChain: amount(shares.stretchingChain),
    frictionAndCurrent: amount(rest),
    parts: parts.map(({ part, name, lift, stretch }) => ({
      part: part + 1,
      name,
      lift: amount(lift),
      stretch: amount(stretch),
    })),
  };
}

function certainFields(certain: Certain | null): object {
  return certain === null ? {} : { uncertainty: { value_N: certain.value, u_N: certain.u, shares: certain.shares } };
}

function fadeFields(fade: CatenaryEnd): object {
  switch (fade.kind) {
    case "fades":
      return { kind: "fades", ...settledFields(fade.settled) };
    case "noEquilibrium":
      return { kind: "noEquilibrium", why: noEquilibriumLine(fade, "metric") };
    default:
      return { kind: fade.kind, from_N: fade.from, to_N: fade.to };
  }
}

function surgeFields(surge: Surge): object {
  if (surge.kind === "speed") return { speed_m_per_s: surge.speed, mass_kg: surge.mass };
  if (surge.kind === "distance") return { distance_m: surge.distance, period_s: surge.period ?? USUAL_STROKE };
  return { distance_m: surge.largest, period_s: surge.period, mass_kg: surge.mass };
}

function snatchFields(answer: Snatch | { kind: "notTaken" }): object {
  if (answer.kind === "notTaken") return { kind: "notTaken" };
  return {
    kind: "snatch",
    ridden: {
      bow_N: answer.ridden.bow,
      anchor_N: answer.ridden.anchor,
      anchorAngle_deg: answer.ridden.anchorAngle * DEGREES,
      moved_m: answer.ridden.moved,
    },
    byEnergy_N: answer.byEnergy,
    peak: settledFields(answer.peak),
    surging_J: answer.surging,
    pushed_J: answer.pushed,
    give: giveFields(answer.give),
    partLoads_N: Array.from(answer.loads),
  };
}

function triedFields(answer: Tried | { kind: "notTaken" } | { kind: "notSnubbed"; why: string }): object {
  if (answer.kind !== "tried")
    return answer.kind === "notSnubbed" ? { kind: answer.kind, why: answer.why } : { kind: answer.kind };
  const { snubbed, loads, verdict, heat, cutNew, atMean, atPeak } = answer;
  const division = ({ legs, loop, distance, turning }: Tried["atPeak"]) => ({
    legs_N: legs,
    loop_N: loop,
    distance_m: distance,
    ...(turning === undefined ? {} : { turning_N_m: turning }),
  });
  return {
    kind: "tried",
    rope: {
      name: snubbed.rope.name,
      diameter_m: snubbed.rope.diameter,
      breakingLoad_N: snubbed.rope.breakingLoad,
      wetBreakingLoad_N: snubbed.rope.wetBreakingLoad,
      from: snubbed.rope.from,
    },
    reach_m: snubbed.reach,
    ...(snubbed.loop === undefined ? {} : { loop_m: snubbed.loop.length }),
    loads: {
      peak_N: loads.peak,
      ropeShare: loads.ropeShare,
      workingLoadShare: loads.workingLoadShare,
      hook_N: loads.hook,
      cleat_N: loads.cleat,
      anchorAngle_deg: loads.anchorAngle * DEGREES,
      loopShare: loads.loopShare,
    },
    atSteady: division(atMean),
    atPeak: division(atPeak),
    verdict: { reason: verdict.reason, passed: reasonsOf(verdict.mask) },
    heat: {
      perCycle_J: heat.perCycle,
      risePerCycle_K: heat.risePerCycle,
      ...(heat.steadyCore === undefined ? {} : { steadyCore_K: heat.steadyCore }),
    },
    cutNew_m: cutNew,
    snatch: snatchFields(answer.snatch),
  };
}

function mapFields(map: SnubberMap): object {
  const rows = (values: ArrayLike<number>) =>
    Array.from(map.diameters, (_, j) =>
      Array.from({ length: map.lengths.length }, (_, i) => {
        const value = values[j * map.lengths.length + i]!;
        return Number.isNaN(value) ? null : value;
      }),
    );
  return {
    lengths_m: Array.from(map.lengths),
    diameters_m: Array.from(map.diameters),
    reason: rows(map.reason).map((row) => row.map((code) => REASONS[code!])),
    passed: rows(map.mask).map((row) => row.map((mask) => reasonsOf(mask!))),
    peak_N: rows(map.peak),
    ropeShare: rows(map.ropeShare),
    workingLoadShare: rows(map.workingLoadShare),
    cleat_N: rows(map.cleat),
    anchorAngle_deg: rows(map.anchorAngle.map((angle) => angle * DEGREES)),
    loopShare: rows(map.loopShare),
    movement_m: rows(map.movement),
  };
}
