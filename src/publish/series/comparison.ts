/** Anchors compared: what the pulls say by themselves, then what is concluded, and what may not be. */
import { drawXy, heldSteps, type Layer, lineStyle, MOST_LINES } from "../../figure/index.ts";
import { type Between, loadAtChance } from "../../holding/index.ts";
import { formatQuantity, inUnit, plotForceUnit, significant } from "../../quantity/index.ts";
import { sayChance, sayHoldingVerdict, sayLaw, sayPriors } from "../../words/index.ts";
import { type Cell, figure, list, paragraph, section, table } from "../report/page.ts";
import type { SeriesReport } from "./series.ts";

const number = (says: string): Cell => ({ says, number: true });

/** Which verdicts tell anchors apart or say that they cannot be; the others tell what weakens that. */
const OF_PAIRS = ["toldApart", "cannotTell", "unsound", "notSampled"];
/** Cautions of one kind told one by one; of more the rest is counted. */
const MOST_OF_A_KIND = 6;

/** What is told first. */
export function inShort(report: SeriesReport): string[] {
  const all = sentences(report);
  return all.filter((_, i) => OF_PAIRS.includes(report.verdicts[i]!.kind));
}

/** What weakens it: all of it, but that many cautions of one kind are counted. */
export function cautions(report: SeriesReport): string {
  const all = sentences(report);
  const kinds = new Map<string, string[]>();
  report.verdicts.forEach(({ kind }, i) => {
    if (!OF_PAIRS.includes(kind)) kinds.set(kind, [...(kinds.get(kind) ?? []), all[i]!]);
  });
  const lines = [...kinds.values()].flatMap((each) =>
    each.length <= MOST_OF_A_KIND
      ? each
      : [...each.slice(0, MOST_OF_A_KIND), `and ${each.length - MOST_OF_A_KIND} more of this kind`],
  );
  return lines.length === 0 ? "" : section("What weakens it", list(lines));
}

function sentences({ verdicts, compared, inquired, numbers, units }: SeriesReport): string[] {
  const part = inquired.kind === "concluded" ? inquired.pulls : compared.pulls;
  const places = new Map(compared.pulls.map((pull, i) => [pull, numbers[i]]));
  const pullName = (pull: number): string => `pull ${places.get(part[pull]!) ?? "?"}`;
  return verdicts.map((verdict) => sayHoldingVerdict(verdict, { units, pullName }));
}

/** What the pulls say by themselves. */
export function byThemselves({ compared, units }: SeriesReport): string {
  const { anchors, logRank } = compared;
  const force = (newtons: number): string => formatQuantity(newtons, "force", { system: units, digits: 3 });
  const head = ["pulls", "gave way", "held on", "between", "never held", "half held to", "highest"];
  const counts = table(
    "Held on: the pull ended while the anchor held. Half held to: the load half its pulls held; not reached where more held on.",
    [{ says: "anchor" }, ...head.map(number)],
    anchors.map((about) => {
      const half = loadAtChance(about.curve, 0.5);
      return {
        cells: [
          { says: about.anchor },
          ...[about.pulls, about.gaveWay, about.heldOn, about.between, about.neverHeld].map((count) =>
            number(String(count)),
          ),
          number(half === undefined ? "not reached" : force(half)),
          number(force(about.highest)),
        ],
      };
    }),
  );
  const test =
    logRank === undefined
      ? ""
      : paragraph(
          `Log-rank test that all anchors are alike: chi-squared ${logRank.chi2.toFixed(2)} with ${logRank.df} degrees of freedom, p ${logRank.p < 0.001 ? "below 0.001" : significant(logRank.p, 2)}.`,
        );
  return section("What the pulls say by themselves", counts, curves({ compared, units }), test);
}

function curves({ compared, units }: Pick<SeriesReport, "compared" | "units">): string {
  const unit = plotForceUnit(units);
  const to = (newtons: number): number => inUnit(newtons, unit, "force");
  const layers = compared.anchors.slice(0, MOST_LINES).map((about, k): Layer => {
    const { x, y } = heldSteps(about, to);
    return { kind: "line", x, y, ...lineStyle(k), label: about.anchor };
  });
  if (layers.length === 0) return "";
  const { svg } = drawXy({
    title: "Chance to hold more than a load",
    description: "A step line for each anchor, falling where one of its pulls gave way",
    x: { label: "load at the anchor", unit, from: 0 },
    y: { label: "chance to hold more", unit: "", from: 0, to: 1 },
    layers,
  });
  const more =
    compared.anchors.length > MOST_LINES ? ` Of ${compared.anchors.length} anchors the first ${MOST_LINES}.` : "";
  return figure(
    svg,
    `Kaplan–Meier, or Turnbull where loads lie between two. A line ends where its last pull does.${more}`,
  );
}

/** What is concluded from draws, with what it rests on. */
export function concluded(report: SeriesReport): string {
  const { inquired, units } = report;
  if (inquired.kind !== "concluded")
    return section("Concluded", paragraph("Nothing is concluded beyond the pulls themselves."));
  const { conclusion, posterior, law } = inquired;
  const force = (newtons: number): string => formatQuantity(newtons, "force", { system: units, digits: 2 });
  const between = ({ middle, low, high }: Between): Cell =>
    number(`${force(middle)} (${force(low)} to ${force(high)})`);
  const chances = conclusion.holds[0]?.chances ?? [];
  const holds = table(
    "At a site and on a day not pulled at yet; in brackets what lies between with 95 %.",
    [
      { says: "anchor" },
      number("half hold"),
      ...chances.map(({ chance }) => number(`${Math.round(100 * chance)} % hold`)),
      number("best of them"),
    ],
    conclusion.holds.map((one) => ({
      cells: [
        { says: one.anchor },
        between(one.median),
        ...one.chances.map(between),
        number(sayChance(one.ranks[0] ?? 1)),
      ],
    })),
  );
  const pairs = table(
    "Chance that the first holds more than the second.",
    [
      { says: "first" },
      { says: "second" },
      number("in the mean"),
      number("in one pull of each"),
      number("times as much"),
    ],
    conclusion.pairs.map(({ first, second, moreInTheMean, moreInOnePull, ratio }) => ({
      cells: [
        { says: first },
        { says: second },
        number(sayChance(moreInTheMean)),
        number(sayChance(moreInOnePull)),
        number(`${significant(ratio.middle, 2)} (${significant(ratio.low, 2)} to ${significant(ratio.high, 2)})`),
      ],
    })),
  );
  return section(
    "Concluded",
    holds,
    conclusion.pairs.length === 0 ? "" : pairs,
    paragraph(
      `From ${posterior.length} draws of one model of all pulls (${sayLaw(law)} loads; R-hat at most ${posterior.rHatWorst.toFixed(3)}). Believed before any pull: ${sayPriors(posterior.model.priors, { testers: posterior.model.testers !== undefined })}.`,
    ),
  );
}

/** What nobody may read out of it. */
export function notConcluded({ compared, inquired, units }: SeriesReport): string {
  const { pulls } = compared;
  const angles = pulls.flatMap(({ anchorAngle }) => (anchorAngle === undefined ? [] : [anchorAngle]));
  const names = (values: readonly (string | undefined)[]): string[] =>
    [...new Set(values.filter((one) => one !== undefined))].sort();
  const beds = names(pulls.map(({ seabed }) => seabed));
  const sites = names(pulls.map(({ site }) => site));
  const told = inquired.kind === "concluded" && inquired.conclusion.pairs.length > 0;
  const degrees = (radians: number): string => formatQuantity(radians, "angle", { digits: 2 });
  return section(
    "What may not be concluded",
    list([
      "That an anchor is safe: a chance of holding one load is not a chance of holding one night.",
      ...(compared.anchors.some(({ heldOn }) => heldOn > 0)
        ? ["How much the pulls that ended while the anchor held would have held: of those only the least is known."]
        : []),
      ...(told
        ? [
            "Which of two anchors is better where their pair is not told apart above: no difference seen is not no difference.",
          ]
        : []),
      beds.length === 0
        ? "Anything of one seabed: none was noted."
        : `Anything of other seabeds than ${beds.join(", ")}${sites.length === 0 ? "" : `, and little of other places than ${sites.join(", ")}`}.`,
      angles.length === 0
        ? "Anything of the angle of the pull: none was noted."
        : `Anything of flatter or steeper pulls than ${degrees(Math.min(...angles))} to ${degrees(Math.max(...angles))} at the anchor.`,
      "Anything of other sizes of these shapes but by the growth with mass that is believed, and nothing of how they set, reset or foul beyond what was noted.",
      `Anything of loads beyond ${formatQuantity(Math.max(...compared.anchors.map(({ highest }) => highest)), "force", { system: units, digits: 3 })}.`,
    ]),
  );
}
