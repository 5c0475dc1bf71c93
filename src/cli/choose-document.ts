/** The JSON answer of `choose`: SI, the unit in the field's name. */
import { DEGREES } from "../quantity/index.ts";
import { settledFields } from "../rode/index.ts";
import { type Choice, facts, type LimitWind, type NotWeighed, type Plan, type Weighed } from "../sizing/index.ts";
import { CAUTION, notWeighedLine } from "../words/index.ts";
import { giveFields } from "./shock-document.ts";

export const CHOICE_FORMAT = "rodebench/choice@1";

export function choiceDocument(plan: Plan, choice: Choice): object {
  const { load, criteria, candidates, table } = choice;
  return {
    format: CHOICE_FORMAT,
    plan: plan.name,
    load: {
      at: load.at,
      mean_N: load.mean,
      peak_N: load.peak,
      ...(plan.load.kind === "wind"
        ? { wind_m_per_s: plan.load.wind, by: plan.load.by, boat: plan.load.boat.name }
        : {}),
    },
    criteria,
    candidates: candidates.map((one, i) => ({
      ...candidateFields(one),
      notBeaten: choice.notBeaten.includes(i),
      ...limitFields(choice.limitWinds[i]),
    })),
    table: table.map(({ wind, load: newtons, cells }) => ({
      ...(wind === undefined ? {} : { wind_m_per_s: wind }),
      load_N: newtons,
      cells: cells.map((cell) =>
        cell === null
          ? null
          : {
              anchorAngle_deg: cell.anchorAngle * DEGREES,
              grounded_m: cell.grounded,
              span_m: cell.span,
              catenaryGive_m_per_N: cell.weight,
              give_m_per_N: cell.whole,
            },
      ),
    })),
    assumed: { chainHeapShare: facts.locker.chainSolid, ropeHeapShare: facts.locker.ropeSolid },
    caution: CAUTION,
  };
}

function candidateFields(one: Weighed | NotWeighed): object {
  const stowed = { weight_kg: one.stowed.weight, locker_m3: one.stowed.volume };
  if (one.kind === "notWeighed")
    return { name: one.name, kind: one.kind, why: notWeighedLine(one.why, "metric"), ...stowed };
  return {
    name: one.name,
    kind: one.kind,
    mean: settledFields(one.mean),
    peak: settledFields(one.peak),
    peakFrom: one.peakFrom,
    uncertainty:
      one.u === null
        ? { cannotMove: one.cannotMove }
        : { anchorAngle_deg: one.u.anchorAngle * DEGREES, span_m: one.u.span, peak_N: one.u.peak },
    strengths: one.strengths.map(({ part, name, load, workingLoad, breakingLoad }) => ({
      part,
      name,
      load_N: load,
      ...(workingLoad === undefined ? {} : { workingLoadShare: workingLoad }),
      ...(breakingLoad === undefined ? {} : { breakingLoadShare: breakingLoad }),
    })),
    weakest: one.weakest === null ? null : one.weakest.part,
    workingLoadShare: one.workingLoad,
    breakingLoadShare: one.breakingLoad,
    strengthShare: one.inUse?.share ?? null,
    strengthPart: one.inUse?.part ?? null,
    ropeShare: one.ropeShare,
    give: one.give === null ? null : giveFields(one.give),
    givePerLoad_m_per_N: one.perLoad,
    ...stowed,
    price: one.price,
    passed: one.passed,
  };
}

/** The wind in which the first limit is reached; null beyond the strongest looked at, 0 where it is passed in the lightest. */
function limitFields(limit: LimitWind | undefined): object {
  if (limit === undefined) return {};
  return { limitWind_m_per_s: { reached: limit.wind, beyond: null, always: 0 }[limit.kind] };
}
