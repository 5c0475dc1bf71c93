/** A value with what is not known of it: ± where first order tells it, brackets where draws tell it otherwise. */
import { DEGREES, type Dimension, formatQuantity, type UnitSystem } from "../quantity/index.ts";
import {
  type AnswerUncertainty,
  type Certainty,
  isUneven,
  type SettledUncertainty,
  type Spread,
  UNCERTAIN_NAMES,
} from "../rode/index.ts";
import type { Bounds } from "../statistics/index.ts";
import { boundsText, shareOfDraws, spreadWords } from "../words/index.ts";
import { labelled } from "./text-table.ts";

/** `2000 N`, `2000 ± 40 N`, `2000 N (1900 N to 2600 N)`, `2000 N (from 1900 N)`; `(no bounds)` where draws have neither. */
export function valueText(
  value: number,
  dimension: Dimension,
  units: UnitSystem,
  u?: number | undefined,
  bounds?: Bounds | undefined,
  digits?: number,
): string {
  const show = (each: number, more: { u?: number; digits?: number } = {}) =>
    formatQuantity(each, dimension, { system: units, ...more });
  if (bounds !== undefined && isUneven(value, u ?? 0, bounds)) {
    return `${show(value, { digits: 3 })} (${boundsText(bounds, dimension, { system: units })})`;
  }
  return show(value, u !== undefined && u > 0 ? { u } : digits === undefined ? {} : { digits });
}

/** How sure an equilibrium is, as what is shown asks for it by name. */
export interface ShownUncertainty {
  readonly u: Certainty | null;
  readonly bounds: Spread["bounds"] | null;
}

export function shownUncertainty(uncertainty: SettledUncertainty | null): ShownUncertainty {
  return { u: uncertainty?.firstOrder ?? null, bounds: uncertainty?.spread?.bounds ?? null };
}

/** The lines that say what the draws found beside the values: lift-off, draws without an answer, what brackets are. */
export function spreadText(uncertainty: SettledUncertainty | null, shown: string): string {
  if (uncertainty === null) return "";
  const line = (name: string, says: string) => `${labelled(name, says)}\n`;
  if (uncertainty.firstOrder === null)
    return line(
      "uncertainty",
      `not known: beside the estimate of ${uncertainty.cannotMove ?? "the rig"} there is no equilibrium`,
    );
  const { lifted, without } = spreadWords(uncertainty);
  return [
    /\([^)]*\d[^)]*\)|no bounds/.test(shown)
      ? line("in brackets", "where 95 of 100 draws of what is not known lie")
      : "",
    lifted === null ? "" : line("lifted", lifted),
    without === null ? "" : line("no equilibrium", without),
  ].join("");
}

/** The lines below a number that was found: what brackets are, and draws without an answer. */
export function answerSpreadText(sure: AnswerUncertainty | null): string {
  if (sure === null) return "";
  if (sure.u === null)
    return `${labelled("uncertainty", `not known: beside the estimate of ${sure.cannotMove} there is no answer`)}\n`;
  if (sure.spread === null || sure.spread.without === 0) return "";
  return `${labelled("no answer", `in ${shareOfDraws(sure.spread.without, sure.spread.draws)} draws; an end beyond them is left open`)}\n`;
}

export function answerUncertaintyFields({ u, cannotMove, spread }: AnswerUncertainty): object {
  return {
    value: u,
    ...(cannotMove === null ? {} : { cannotMove }),
    draws: spread && {
      count: spread.draws,
      without: spread.without,
      interval95: [spread.bounds.low, spread.bounds.high],
    },
  };
}

/** Names in JSON answers, and whether a quantity is an angle. */
const FIELDS = {
  anchorTension: ["anchor", "tension_N"],
  anchorAngle: ["anchor", "angle_deg"],
  angleToBottom: ["anchor", "angleToBottom_deg"],
  bowTension: ["bow", "tension_N"],
  bowAngle: ["bow", "angle_deg"],
  horizontal: ["horizontal_N"],
  span: ["span_m"],
  grounded: ["grounded_m"],
  sag: ["sag_m"],
} as const satisfies Record<keyof Certainty, readonly string[]>;

type Tree = { [name: string]: unknown };

/** `uncertainty` and what draws say, as fields of a JSON answer; none where nothing is uncertain. */
export function uncertaintyFields(uncertainty: SettledUncertainty | null): { uncertainty?: object } {
  if (uncertainty === null) return {};
  const { firstOrder, cannotMove, spread } = uncertainty;
  return {
    uncertainty: {
      ...(firstOrder === null ? { cannotMove } : tree((name) => firstOrder[name] * scale(name))),
      draws: spread && {
        count: spread.draws,
        without: spread.without,
        lifted: spread.lifted,
        interval95: tree((name) => {
          const { low, high } = spread.bounds[name];
          return [low === null ? null : low * scale(name), high === null ? null : high * scale(name)];
        }),
      },
    },
  };
}

function scale(name: keyof Certainty): number {
  return name === "anchorAngle" || name === "angleToBottom" || name === "bowAngle" ? DEGREES : 1;
}

function tree(of: (name: keyof Certainty) => unknown): Tree {
  const fields: Tree = {};
  for (const name of UNCERTAIN_NAMES) {
    const [group, field] = FIELDS[name] as readonly [string, string?];
    if (field === undefined) fields[group] = of(name);
    else fields[group] = { ...(fields[group] as Tree | undefined), [field]: of(name) };
  }
  return fields;
}
