import { Command, InvalidArgumentError, Option } from "commander";
import {
  anchorsInWind,
  type Conditions,
  compare,
  comparedFields,
  holdingVerdicts,
  holdRulesOf,
  inquire,
  LAWS,
  type Law,
  PRIOR_FIELDS,
  PRIOR_RANGE,
  type Priors,
  type RandomTerm,
  TERMS,
  USUAL_PLAN,
  USUAL_PRIORS,
} from "../holding/index.ts";
import { InputError, nearestName, parseQuantity, quoted } from "../quantity/index.ts";
import type { Ports } from "../record/index.ts";
import { rng } from "../statistics/index.ts";
import { chainsOf } from "./chains.ts";
import { pullsAt } from "./compare-input.ts";
import { comparedText, sentencesOf } from "./compare-text.ts";
import { inWindFields, inWindText, windAsked } from "./compare-wind.ts";
import type { Io } from "./io.ts";
import { answerJson, positive, type Shown, seedFrom, shown } from "./options.ts";

interface Options extends Shown {
  readonly terms?: string;
  readonly random?: string;
  readonly law?: Law[];
  readonly at?: string;
  readonly chance?: number[];
  readonly load?: string;
  readonly prior?: string[];
  readonly series?: string;
  readonly beside?: string[];
  readonly boat?: string;
  readonly rig?: string;
  readonly wind?: string;
  readonly withinSites?: true;
  readonly seed: string;
  readonly sampling: boolean;
}

/** Permutations of the log-rank test; of very many pulls fewer, whose p is as good as the large-sample one anyway. */
const PERMUTATIONS = 9999;
const MANY_PULLS = 2000;

export function compareCommand(io: Io, ports?: Ports): Command {
  return shown(
    new Command("compare")
      .argument("<pulls>", "book, table of pulls (CSV with a header) or data package; - for a table on standard input")
      .option(
        "--terms <names>",
        `terms of the fits, of ${TERMS.join(",")} (default: anchor and what every pull states)`,
      )
      .option(
        "--random <names>",
        "spread between sites, days and testers: site,day,tester or none (default: what every pull names)",
      )
      .addOption(
        new Option("--law <law>", "law of the load at which an anchor gives way; may be given again")
          .choices(LAWS)
          .argParser((law: string, before: Law[] | undefined) => [...(before ?? []), known(law, LAWS, "--law")]),
      )
      .option("--at <conditions>", 'what is asked about, such as "angle 5 deg, mass 15 kg, seabed mud"')
      .option("--chance <share>", "chance of holding asked for, such as 0.9; may be given again", chanceFrom)
      .option("--load <load>", "what size of each shape would hold this load with the first chance")
      .option("--prior <name=value>", 'another prior, such as "anchors=0.5"; may be given again', gathered)
      .option("--series <name>", "of a book, the pulls of one series")
      .option("--beside <folder>", "a data package of another tester; may be given again", gathered)
      .option("--boat <file>", "with --rig and --wind: the chance that the load of a wind stays below what is held")
      .option("--rig <file>", "the rode she lies to")
      .option("--wind <from..to/step>", 'mean winds at 10 m, such as "10..40/5kn"')
      .option("--within-sites", "log-rank test within sites")
      .option("--seed <number>", "seed of draws and permutations", "1")
      .option("--no-sampling", "leave out what needs draws"),
  ).action(async (path: string, options: Options) => {
    const terms = options.terms === undefined ? undefined : listOf(options.terms, TERMS, "--terms");
    const random = randomFrom(options.random);
    const seed = seedFrom(options.seed);
    const laws = options.law ?? [...LAWS];
    const conditions = options.at === undefined ? {} : conditionsFrom(options.at);
    const priors = priorsFrom(options.prior ?? []);
    const load =
      options.load === undefined ? undefined : positive(options.load, "force", "--load", "a load above zero");
    const wind = await windAsked(io, options);
    if (wind !== undefined && !options.sampling) {
      throw new InputError("--wind", "with --no-sampling", "draws are needed for it");
    }
    const read = await pullsAt(path, io, ports, options);
    const asked = {
      ...(terms === undefined ? {} : { terms }),
      ...(random === undefined ? {} : { random }),
      laws,
      bySite: options.withinSites === true,
      permutations: read.pulls.length > MANY_PULLS ? 999 : PERMUTATIONS,
    };
    const compared = compare(read.pulls, asked, rng(seed));
    const sampled = laws.filter((law) => law !== "loglogistic");
    if (options.sampling && sampled.length === 0) {
      throw new InputError(
        "--law",
        "loglogistic alone",
        "lognormal or weibull, or --no-sampling, is expected: these two are sampled",
      );
    }
    if (conditions.seabed !== undefined && !read.pulls.some(({ seabed }) => seabed === conditions.seabed)) {
      const beds = [...new Set(read.pulls.flatMap(({ seabed }) => (seabed === undefined ? [] : [seabed])))].sort();
      throw new InputError(
        "--at",
        `seabed ${quoted(conditions.seabed)}`,
        `one of ${beds.map(quoted).join(", ") || "no seabeds"} is expected`,
      );
    }
    const inquired = options.sampling
      ? await inquire(
          {
            pulls: read.pulls,
            terms: compared.modelTerms,
            random: compared.random,
            laws: sampled,
            priors,
            wanted: { conditions, chances: options.chance ?? [0.9], ...(load === undefined ? {} : { load }) },
            plan: { ...USUAL_PLAN, seed },
          },
          chainsOf(io),
        )
      : undefined;
    const verdicts = holdingVerdicts(compared, inquired);
    const inWind = wind === undefined ? [] : anchorsInWind(wind, inquired, seed);
    if (options.json) {
      const sentences = sentencesOf(read, compared, inquired, verdicts, options.units);
      const rules = holdRulesOf(read.pulls).map(({ heldFor, heldWithin, pulls }) => ({
        ...{ heldFor_s: heldFor, heldWithin_m: heldWithin, pulls },
      }));
      const fields = comparedFields(read, compared, inquired, verdicts, sentences, inWindFields(inWind));
      answerJson(io, { ...fields, remarks: read.remarks ?? [], holdRules: rules });
    } else {
      const angled = inquired?.kind === "concluded" && inquired.conclusion.angle !== undefined;
      const weather = wind === undefined ? "" : inWindText(wind, inWind, angled, options.units);
      io.out(comparedText(read, compared, inquired, verdicts, options.units, weather));
    }
  });
}

const gathered = (text: string, before: string[] | undefined): string[] => [...(before ?? []), text];

function known<T extends string>(text: string, names: readonly T[], place: string): T {
  const found = names.find((name) => name === text);
  if (found !== undefined) return found;
  const near = nearestName(text, names);
  const hint = near === undefined ? "" : `: ${near}?`;
  throw new InputError(place, quoted(text), `one of ${names.join(", ")} is expected${hint}`);
}

function listOf<T extends string>(text: string, names: readonly T[], place: string): T[] {
  const given = text
    .split(",")
    .map((part) => part.trim())
    .filter((part) => part !== "");
  if (new Set(given).size < given.length)
    throw new InputError(place, quoted(text), `each of ${names.join(", ")} once is expected`);
  return given.map((part) => known(part, names, place));
}

function randomFrom(text: string | undefined): RandomTerm[] | undefined {
  if (text === undefined) return undefined;
  if (text.trim() === "none") return [];
  return listOf(text, ["site", "day", "tester", "none"] as const, "--random").map((name) => {
    if (name === "none")
      throw new InputError("--random", quoted(text), "some of site, day and tester, or none alone, is expected");
    return name;
  });
}

function chanceFrom(text: string, before: number[] | undefined): number[] {
  const share = text.endsWith("%") ? Number(text.slice(0, -1)) / 100 : Number(text);
  if (text.trim() === "" || !(share > 0 && share < 1)) {
    throw new InvalidArgumentError("a share between 0 and 1, such as 0.9, is expected");
  }
  return [...(before ?? []), share];
}

/** "angle 5 deg, mass 15 kg, seabed mud": each at most once. */
function conditionsFrom(text: string): Conditions {
  const found: { anchorAngle?: number; mass?: number; seabed?: string } = {};
  for (const part of text.split(",").map((one) => one.trim())) {
    const [, name, value] = /^(\S+)\s+(.+)$/.exec(part) ?? [];
    if (name === "angle" && value !== undefined) {
      found.anchorAngle = parseQuantity(value, "angle", "--at");
      if (Math.abs(found.anchorAngle) > Math.PI / 2) {
        throw new InputError("--at", quoted(part), "an angle from -90 deg to 90 deg is expected");
      }
    } else if (name === "mass" && value !== undefined) {
      found.mass = parseQuantity(value, "mass", "--at");
      if (!(found.mass > 0)) throw new InputError("--at", quoted(part), "a mass above zero is expected");
    } else if (name === "seabed" && value !== undefined) found.seabed = value;
    else {
      throw new InputError(
        "--at",
        quoted(part),
        'angle, mass or seabed is expected, such as "angle 5 deg, mass 15 kg"',
      );
    }
  }
  return found;
}

function priorsFrom(texts: readonly string[]): Priors {
  let priors = USUAL_PRIORS;
  for (const text of texts) {
    const [name, value] = text.split("=").map((part) => part.trim());
    const field = PRIOR_FIELDS.find((one) => one.name === name);
    if (field === undefined) {
      throw new InputError(
        "--prior",
        quoted(text),
        `one of ${PRIOR_FIELDS.map((one) => one.name).join(", ")} is expected before =`,
      );
    }
    const number = Number(value);
    const { least, most } = PRIOR_RANGE;
    if (
      value === undefined ||
      value === "" ||
      !Number.isFinite(number) ||
      Math.abs(number) > most ||
      (!field.isMiddle && !(number > least))
    ) {
      throw new InputError(
        "--prior",
        quoted(text),
        field.isMiddle ? "a number is expected after =" : "a number from 0.001 to 1000 is expected after =",
      );
    }
    priors = field.put(priors, number);
  }
  return priors;
}
