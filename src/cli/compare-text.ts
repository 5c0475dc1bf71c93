/** The text answer of `compare`. */
import type {
  Between,
  Compared,
  Conclusion,
  Fitted,
  HoldingVerdict,
  Inquired,
  NoMaximum,
  Step,
} from "../holding/index.ts";
import { holdRulesOf, loadAtChance } from "../holding/index.ts";
import {
  formatQuantity,
  inUnit,
  roundToUncertainty,
  significant,
  type UnitSystem,
  unitFor,
} from "../quantity/index.ts";
import { CAUTION, holdRulesLine, sayChance, sayHoldingVerdict, sayLaw, sayMore, sayPriors } from "../words/index.ts";
import type { PullsRead } from "./compare-input.ts";
import { textTable, wrapped } from "./text-table.ts";

/** Steps of a curve and rows left out that a terminal is shown; all are in `--json`. */
const SHOWN = 12;

export function comparedText(
  read: PullsRead,
  compared: Compared,
  inquired: Inquired | undefined,
  verdicts: readonly HoldingVerdict[],
  units: UnitSystem,
  weather = "",
): string {
  const show = shower(units);
  const n = compared.pulls.length;
  const parts = [
    `${n} ${n === 1 ? "pull" : "pulls"} of ${compared.anchors.length} ${compared.anchors.length === 1 ? "anchor" : "anchors"}${leftOutText(read)}\n${remarksText(read)}${rulesText(read, units)}`,
    sentencesText(read, compared, inquired, verdicts, units),
    pullsText(compared, show),
    ...compared.anchors.map(({ anchor, by, curve }) => curveText(anchor, by, curve, show)),
    testText(compared),
    endingsText(compared),
    fitsText(compared),
  ];
  if (inquired?.kind === "concluded") parts.push(conclusionText(inquired, show));
  parts.push(weather, `${CAUTION}\n`);
  return parts.filter((part) => part !== "").join("\n");
}

function leftOutText({ leftOut }: PullsRead): string {
  if (leftOut.length === 0) return "";
  const rows = leftOut.slice(0, SHOWN).map(({ row, why }) => `\n  row ${row} is left out: ${why}`);
  const more = leftOut.length > SHOWN ? `\n  and ${leftOut.length - SHOWN} more` : "";
  return `; ${leftOut.length} left out${rows.join("")}${more}`;
}

/** What is to be said of the clocks of pulls, one a line. */
export function remarksText({ remarks = [] }: Pick<PullsRead, "remarks">): string {
  const rows = remarks.slice(0, SHOWN).map(({ row, why }) => `Remark on row ${row}: ${why}\n`);
  return `${rows.join("")}${remarks.length > SHOWN ? `and ${remarks.length - SHOWN} more remarks\n` : ""}`;
}

function rulesText({ pulls }: PullsRead, units: UnitSystem): string {
  const line = holdRulesLine(holdRulesOf(pulls), units);
  return line === null ? "" : `${line}.\n`;
}

/** All sentences, in order; of many pairs the first dozen of each kind. */
function sentencesText(
  read: PullsRead,
  compared: Compared,
  inquired: Inquired | undefined,
  verdicts: readonly HoldingVerdict[],
  units: UnitSystem,
): string {
  const sentences = sentencesOf(read, compared, inquired, verdicts, units);
  const kinds = new Map<string, number>();
  const lines: string[] = [];
  for (const [k, { kind }] of verdicts.entries()) {
    const count = (kinds.get(kind) ?? 0) + 1;
    kinds.set(kind, count);
    if (count <= SHOWN) lines.push(`- ${sentences[k]}\n`);
    else if (count === SHOWN + 1) lines.push("- … and more of this kind: see --json\n");
  }
  return lines.join("");
}

export function sentencesOf(
  read: PullsRead,
  compared: Compared,
  inquired: Inquired | undefined,
  verdicts: readonly HoldingVerdict[],
  units: UnitSystem,
): string[] {
  const part = inquired?.kind === "concluded" ? inquired.pulls : compared.pulls;
  const places = new Map(compared.pulls.map((pull, i) => [pull, read.rows[i]]));
  const pullName = (pull: number): string => `row ${places.get(part[pull]!) ?? "?"}`;
  return verdicts.map((verdict) => sayHoldingVerdict(verdict, { units, pullName }));
}

type Show = ReturnType<typeof shower>;

function pullsText({ anchors }: Compared, show: Show): string {
  return `What the pulls say by themselves\n${textTable(
    ["anchor", "pulls", "gave way", "held on", "between", "never held", "half held to", "highest"],
    anchors.map((about) => [
      about.anchor,
      String(about.pulls),
      String(about.gaveWay),
      String(about.heldOn),
      String(about.between),
      String(about.neverHeld),
      halfText(about.curve, show),
      show.load(about.highest),
    ]),
  )}`;
}

function halfText(curve: readonly Step[], show: Show): string {
  const half = loadAtChance(curve, 0.5);
  return half === undefined ? "not reached" : show.load(half);
}

function curveText(anchor: string, by: "kaplanMeier" | "turnbull", curve: readonly Step[], show: Show): string {
  if (curve.length === 0) return "";
  const rows = curve
    .slice(0, SHOWN)
    .map(({ load, from, atRisk, gaveWay, chance, low, high }) => [
      from === undefined || from === load ? show.load(load) : `${show.load(from)} to ${show.load(load)}`,
      by === "kaplanMeier" ? String(atRisk) : atRisk.toFixed(1),
      by === "kaplanMeier" ? String(gaveWay) : gaveWay.toFixed(1),
      chance.toFixed(2),
      low === undefined || high === undefined ? "-" : `${low.toFixed(2)} to ${high.toFixed(2)}`,
    ]);
  const more = curve.length > SHOWN ? `… ${curve.length - SHOWN} more steps: see --json\n` : "";
  const name = by === "kaplanMeier" ? "Kaplan–Meier" : "Turnbull; where between two loads it falls is not known";
  return `${anchor}: chance of holding more than a load (${name})\n${textTable(["load", "still pulled", "gave way", "chance", "95 %"], rows)}${more}`;
}

function testText({ logRank, anchors }: Compared): string {
  if (anchors.length < 2) return "";
  if (logRank === undefined) return "Log-rank test: nothing to compare\n";
  const { chi2, df, p, pPermuted, by } = logRank;
  const permuted = pPermuted === undefined ? "" : `, by permutation p ${probability(pPermuted)}`;
  return `Log-rank test that all anchors are alike${by === "scores" ? " (scores of loads known between two)" : ""}: chi-squared ${chi2.toFixed(2)}, ${df} df, p ${probability(p)}${permuted}\n`;
}

function probability(p: number): string {
  return p < 0.001 ? "below 0.001" : significant(p, 2);
}

function endingsText({ anchors }: Compared): string {
  const rows = anchors.flatMap(({ anchor, endings }) =>
    endings.map(({ ending, count, of, share, low, high }) => [
      anchor,
      ending,
      `${count} of ${of}`,
      percentPlain(share),
      `${percentPlain(low)} to ${percentPlain(high)}`,
    ]),
  );
  if (rows.length === 0) return "";
  return `How they ended (exact limits)\n${textTable(["anchor", "ending", "pulls", "share", "95 %"], rows)}`;
}

const percentPlain = (share: number): string => `${Math.round(100 * share)} %`;

const NONE: Record<NoMaximum["kind"], string> = {
  noneGaveWay: "no best fit: no pull gave way",
  noneHeld: "no best fit: no pull held anything",
  noScatter: "no best fit: the pulls can be met without scatter",
  endless: "no best fit: the pulls leave some term without an end",
};

function fitsText({ fits }: Compared): string {
  if (fits.length === 0) return "";
  const lines = fits.map(({ law, random, fit }: Fitted): string => {
    const head = sayLaw(law);
    if (fit.kind === "noMaximum") return `  ${head}: ${NONE[fit.why.kind]}\n`;
    const found = fit.kind === "noSpreadBetweenGroups" ? fit.without : fit;
    if (found.kind !== "fitted") return "";
    const terms = [
      ...found.terms.map(({ name, value, u }) => `${name} ${plusMinus(value, u)}`),
      `scale ${plusMinus(Math.exp(found.logScale.value), Math.exp(found.logScale.value) * found.logScale.u)}`,
      ...(found.logRandom === undefined
        ? []
        : [
            `between ${random}s ${plusMinus(Math.exp(found.logRandom.value), Math.exp(found.logRandom.value) * found.logRandom.u)}`,
          ]),
    ];
    const none = fit.kind === "noSpreadBetweenGroups" ? ` (no spread between ${random}s is seen)` : "";
    return `${wrapped(`${head}, ln likelihood ${found.logLikelihood.toFixed(2)}${none}: ${terms.join(", ")}`, 2, 4)}\n`;
  });
  return `Likelihood fits of ln(load / N)\n${lines.join("")}`;
}

function plusMinus(value: number, u: number): string {
  const rounded = roundToUncertainty(value, u);
  return `${rounded.value} ± ${rounded.u}`;
}

function conclusionText(inquired: Extract<Inquired, { kind: "concluded" }>, show: Show): string {
  const { conclusion, posterior, law, laws, ahead, sensitivity, more } = inquired;
  const { holds, pairs } = conclusion;
  const chances = holds[0]?.chances ?? [];
  const sized = holds.some(({ sizeFor }) => sizeFor !== undefined);
  const lines = [
    `Concluded from ${posterior.length} draws (${sayLaw(law)}; R-hat at most ${posterior.rHatWorst.toFixed(3)}, at least ${Math.round(posterior.effectiveLeast)} effective, ${posterior.divergent} ran away)\n`,
    `What each holds at a site and day not pulled at yet${conditionsText(conclusion, show)}\n`,
    textTable(
      [
        "anchor",
        ...(holds.some(({ mass }) => mass !== undefined) ? ["mass"] : []),
        "half hold",
        ...chances.map(({ chance }) => `${Math.round(1000 * chance) / 10} % hold`),
        ...(holds.some(({ perKilogram }) => perKilogram !== undefined) ? ["per kg"] : []),
        ...(holds.some(({ perFlukeArea }) => perFlukeArea !== undefined) ? ["per m² of fluke"] : []),
        ...(sized ? ["size for it"] : []),
        "best",
      ],
      holds.map((one) => [
        one.anchor,
        ...(holds.some(({ mass }) => mass !== undefined) ? [show.mass(one.mass)] : []),
        show.between(one.median),
        ...one.chances.map((chance) => show.between(chance)),
        ...(holds.some(({ perKilogram }) => perKilogram !== undefined) ? [show.per(one.perKilogram, "N/kg")] : []),
        ...(holds.some(({ perFlukeArea }) => perFlukeArea !== undefined) ? [show.per(one.perFlukeArea, "N/m²")] : []),
        ...(sized ? [show.size(one.sizeFor)] : []),
        sayChance(one.ranks[0] ?? 1),
      ]),
    ),
  ];
  if (pairs.length > 0) {
    const shown = pairs.slice(0, 3 * SHOWN);
    lines.push(
      "\nPairs: chance that the first holds more\n",
      textTable(
        ["first", "second", "in the mean", "in one pull", "times as much", "priors halved", "doubled"],
        shown.map(({ first, second, moreInTheMean, moreInOnePull, ratio }, k) => [
          first,
          second,
          sayChance(moreInTheMean),
          sayChance(moreInOnePull),
          `${significant(ratio.middle, 2)} (${significant(ratio.low, 2)} to ${significant(ratio.high, 2)})`,
          ...[0, 1].map((s) => sayChance(sensitivity[s]!.pairs[k]!.moreInTheMean)),
        ]),
      ),
      ...(pairs.length > shown.length ? [`… ${pairs.length - shown.length} more pairs: see --json\n`] : []),
    );
  }
  if (conclusion.angle !== undefined) {
    const { mean, sd, low, high } = conclusion.angle;
    const each = roundToUncertainty(100 * Math.expm1(mean), 100 * sd);
    lines.push(
      `\nEach degree at the anchor changes holding by ${each.value} ± ${each.u} % (95 %: ${(100 * Math.expm1(low)).toFixed(1)} to ${(100 * Math.expm1(high)).toFixed(1)} %)\n`,
    );
  }
  if (conclusion.massExponent !== undefined) {
    const { mean, sd } = conclusion.massExponent;
    lines.push(`Holding grows as mass to the power ${plusMinus(mean, sd)}\n`);
  }
  if (ahead !== undefined) {
    lines.push(
      `Laws, by leaving one pull out: ${laws.map(({ law: one, elpd }) => `${sayLaw(one)} ${elpd.toFixed(1)}`).join(", ")}; difference ${plusMinus(ahead.difference, Math.max(ahead.se, 1e-9))}\n`,
    );
  }
  lines.push(
    `Believed before any pull: ${sayPriors(posterior.model.priors, { testers: posterior.model.testers !== undefined })}\n`,
  );
  for (const { first, second, answer } of more) lines.push(`${first} and ${second}: ${sayMore(answer)}\n`);
  return lines.join("");
}

function conditionsText({ conditions }: Conclusion, show: Show): string {
  const parts = [
    ...(conditions.anchorAngle === undefined ? [] : [`angle ${show.angle(conditions.anchorAngle)} at the anchor`]),
    ...(conditions.mass === undefined ? [] : [`mass ${show.mass(conditions.mass)}`]),
    ...(conditions.seabed === undefined ? [] : [conditions.seabed]),
  ];
  return parts.length === 0 ? "" : `: ${parts.join(", ")}`;
}

function shower(system: UnitSystem) {
  const unit = unitFor("force", system);
  const to = (value: number, u: number): string =>
    roundToUncertainty(inUnit(value, unit, "force"), inUnit(u, unit, "force")).value;
  return {
    load: (newtons: number): string => formatQuantity(newtons, "force", { system, digits: 3 }),
    mass: (mass: number | undefined): string =>
      mass === undefined ? "-" : formatQuantity(mass, "mass", { system, digits: 3 }),
    angle: (angle: number): string => formatQuantity(angle, "angle", { system, digits: 2 }),
    between: ({ middle, low, high }: Between): string => {
      const u = (high - low) / 4;
      return `${to(middle, u)} ${unit} (${to(low, u)} to ${to(high, u)})`;
    },
    per: (value: Between | undefined, name: string): string =>
      value === undefined
        ? "-"
        : `${significant(value.middle, 2)} ${name} (${significant(value.low, 2)} to ${significant(value.high, 2)})`,
    size: (value: Between | undefined): string =>
      value === undefined
        ? "-"
        : [value.middle, value.low, value.high]
            .map((mass) => formatQuantity(mass, "mass", { system, digits: 2 }))
            .reduce((all, text, k) => (k === 0 ? text : k === 1 ? `${all} (${text}` : `${all} to ${text})`), ""),
  };
}
