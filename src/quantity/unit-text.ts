/**
 * Units as people write them: `m`, `kg/m3`, `lb/100 ft`, `ft·lbf`, `sq ft`. Products and quotients of the units in
 * the table, in which a slash divides by the one unit after it.
 */
import { DIMENSIONS, type Dimension, dimensionNamed, type Powers, samePowers } from "./dimension.ts";
import { MEANINGS, QUESTIONS, type Reading, readingsOf, SYMBOLS } from "./unit-table.ts";

export type UnitRead =
  | { readonly kind: "unit"; readonly reading: Reading }
  /** `given` says what the text is instead ("is a speed"); `hint` what may have been meant, its number as #. */
  | { readonly kind: "refused"; readonly given: string; readonly hint: string };

const NO_UNIT: Reading = { powers: [0, 0, 0, 0], top: 1, bottom: 1 };
const MOST_FACTORS = 5;

interface Factor {
  readonly readings: readonly Reading[];
  readonly power: number;
}

/** Reads a unit where a dimension is expected; the expectation decides between a pound of mass and one of force. */
export function readUnit(text: string, dimension: Dimension): UnitRead {
  const name = text.trim();
  const question = questionAbout(name);
  if (question) return question;
  const split = factorsOf(name);
  if (split.kind === "refused") return split;
  const readings = products(split.factors);
  const wanted = DIMENSIONS[dimension].powers;
  const fitting = readings.find((reading) => samePowers(reading.powers, wanted));
  if (fitting) return { kind: "unit", reading: fitting };

  const other = dimensionNamed(readings[0]!.powers) ?? "is of another kind";
  return { kind: "refused", given: other.startsWith("is") ? other : `is ${other}`, hint: meantHint(name, dimension) };
}

type Refused = Extract<UnitRead, { kind: "refused" }>;
type Split = { readonly kind: "factors"; readonly factors: readonly Factor[] } | Refused;

function factorsOf(name: string): Split {
  const factors: Factor[] = [];
  let rest = name;
  let divides = false;
  while (rest !== "") {
    const step = /^(?:(sq|cu) )?(\d+(?= ?[a-zA-Z])|1(?=\/)|[a-zA-Zµ]+|[°%"'])(?:\^?(-?[1-4]))?/.exec(rest);
    if (!step || factors.length >= MOST_FACTORS) return unknown(name);
    const [all, prefix, word, digit] = step;
    const count = /^\d/.test(word!) ? Number(word) : undefined;
    const readings = count === undefined ? readingsOf(word!) : [{ ...NO_UNIT, top: count }];
    if (readings === undefined || (prefix !== undefined && digit !== undefined) || count === 0) return unknown(word!);
    // A count belongs to the unit after it and is divided with it: lb/100 ft.
    if (count !== undefined && !divides && !(factors.length === 0 && rest.startsWith("1/"))) return unknown(name);
    const power = (prefix === "sq" ? 2 : prefix === "cu" ? 3 : Number(digit ?? 1)) * (divides ? -1 : 1);
    factors.push({ readings, power });
    rest = rest.slice(all.length);
    if (rest === "") break;
    if (count !== undefined && divides) {
      rest = rest.trimStart();
      continue;
    }
    const joint = /^ ?(\/|·|\*|per )\s?|^[ -](?=[a-zA-Z])/.exec(rest);
    if (!joint) return unknown(name);
    const sign = joint[1] ?? " ";
    if (divides && !(sign === "/" || sign.startsWith("per"))) return unknown(name);
    divides = sign === "/" || sign.startsWith("per");
    rest = rest.slice(joint[0].length);
    if (rest === "") return unknown(name);
  }
  return { kind: "factors", factors };
}

/** Every way to read a product, when a symbol has two readings. */
function products(factors: readonly Factor[]): Reading[] {
  let all: Reading[] = [NO_UNIT];
  for (const { readings, power } of factors) {
    all = readings.flatMap((reading) => all.map((product) => times(product, reading, power)));
  }
  return all;
}

function times(one: Reading, other: Reading, power: number): Reading {
  const powers = one.powers.map((p, i) => p + other.powers[i]! * power) as unknown as Powers;
  let { top, bottom } = one;
  for (let i = 0; i < Math.abs(power); i++) {
    top *= power > 0 ? other.top : other.bottom;
    bottom *= power > 0 ? other.bottom : other.top;
  }
  return { powers, top, bottom };
}

function unknown(name: string): Refused {
  const question = questionAbout(name);
  if (question) return question;
  const shown = name.length > 20 ? `${name.slice(0, 17)}...` : name;
  return {
    kind: "refused",
    given: `has a unit that is not known here, ${JSON.stringify(shown)}`,
    hint: caseHint(name),
  };
}

function questionAbout(name: string): Refused | undefined {
  const question = QUESTIONS.get(name) ?? QUESTIONS.get(name.toLowerCase());
  return question === undefined ? undefined : { kind: "refused", given: "has a unit of two meanings", hint: question };
}

/** The symbols that differ from a name in case alone. */
function otherCases(name: string): string[] {
  const lower = name.toLowerCase();
  return [...SYMBOLS.keys()].filter((symbol) => symbol !== name && symbol.toLowerCase() === lower);
}

function caseHint(name: string): string {
  const others = otherCases(name).map(meaningOf);
  return others.length === 0 ? "" : `case matters: ${others.join(", ")}`;
}

/** Why a known unit was of the wrong dimension, where its case or a near unit explains it. */
function meantHint(name: string, dimension: Dimension): string {
  const wanted = DIMENSIONS[dimension].powers;
  const fits = (symbol: string) => SYMBOLS.get(symbol)!.some((reading) => samePowers(reading.powers, wanted));
  const other = otherCases(name).find(fits);
  if (other !== undefined) return `case matters: ${meaningOf(name)}, ${meaningOf(other)}`;
  if (dimension === "force" && name === "kg") return "the force of 1 kg at rest is 1 kgf";
  if (dimension === "force" && name === "t") return "the force of 1 t at rest is 1 tf";
  return "";
}

function meaningOf(symbol: string): string {
  const meaning = MEANINGS.get(symbol);
  return meaning === undefined ? `write ${symbol}` : `${symbol} is ${meaning}`;
}
