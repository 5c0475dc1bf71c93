import { InputError, nth, parseQuantity, quoted } from "../quantity/index.ts";
import type { Figure } from "./figure.ts";
import { type Provenance, positive, provenance } from "./read-figure.ts";
import type { Curve } from "./row.ts";
import type { GearFile, StretchText } from "./schema.ts";
import { type StretchLaw, strainUnder } from "./stretch.ts";

/** The first strain told of a curve is its own, to within its printed digits. */
const AS_DRAWN = 0.02;

export interface Stretch {
  readonly law: StretchLaw;
  readonly figures?: readonly Figure[];
}

/** Reads a stretch as written; the load of a curve's points may be a share of the breaking load. */
export function readStretch(
  text: StretchText,
  place: string,
  from: Provenance,
  curves: Readonly<Record<string, Curve>>,
  breakingLoad: number | undefined,
  diameter: number,
): Stretch {
  if (text === "none") return { law: { kind: "rigid" } };
  if ("stiffness" in text) return linear(positive(text.stiffness, "force", `${place}.stiffness`), text, place, from);
  if ("modulus" in text) {
    const metal = positive(text.areaFactor, "ratio", `${place}.areaFactor`) * diameter ** 2;
    return linear(positive(text.modulus, "pressure", `${place}.modulus`) * metal, text, place, from);
  }
  if (typeof text.curve === "string") return byCurve(text.curve, `${place}.curve`, curves, breakingLoad);
  const points = rising(text.curve, `${place}.curve`, (load, at) => loadOf(load, at, breakingLoad));
  const [strain] = points[0]!;
  return { law: { kind: "curve", points }, figures: [{ value: strain, ...provenance(text, place, from) }] };
}

/** The law of a named curve for a rope of this breaking load. */
export function byCurve(
  name: string,
  place: string,
  curves: Readonly<Record<string, Curve>>,
  breakingLoad: number | undefined,
): Stretch {
  const curve = Object.hasOwn(curves, name) ? curves[name] : undefined;
  if (!curve)
    throw new InputError(
      place,
      quoted(name),
      `one of the curves ${Object.keys(curves).join(", ") || "of this file"} is expected`,
    );
  if (breakingLoad === undefined) {
    throw new InputError(place, quoted(name), "a breakingLoad beside it is expected: the curve is by share of it");
  }
  const points = curve.points.map(([strain, share]) => [strain, share * breakingLoad] as const);
  return { law: { kind: "curve", points }, figures: curve.figures };
}

/** Reads the file's own curves: strain against share of the breaking load. */
export function readCurves(file: GearFile, place: string, from: Provenance): Record<string, Curve> {
  const curves: Record<string, Curve> = {};
  for (const [name, text] of Object.entries(file.curves ?? {})) {
    const at = `${place}: curves.${name}`;
    const points = rising(text.points, `${at}.points`, (share, where) => positive(share, "ratio", where));
    const strains = Array.isArray(text.known.strain) ? text.known.strain : [text.known.strain];
    const figures = strains.map((one, i) => {
      const where = `${at}.known.strain${nth(i)}`;
      return { value: positive(one.value, "ratio", `${where}.value`), ...provenance(one, where, from) };
    });
    const share = positive(text.known.at, "ratio", `${at}.known.at`);
    const own = strainUnder({ kind: "curve", points }, share);
    if (Math.abs(figures[0]!.value / own - 1) > AS_DRAWN) {
      const given = `${(100 * figures[0]!.value).toPrecision(3)} %`;
      throw new InputError(
        `${at}.known.strain`,
        given,
        `first the curve's own strain there, ${(100 * own).toPrecision(3)} %, is expected`,
      );
    }
    curves[name] = { points, figures };
  }
  return curves;
}

function linear(stiffness: number, text: Exclude<StretchText, "none">, place: string, from: Provenance): Stretch {
  return { law: { kind: "linear", stiffness }, figures: [{ value: stiffness, ...provenance(text, place, from) }] };
}

function loadOf(text: string | number, place: string, breakingLoad: number | undefined): number {
  if (typeof text === "number" || !text.includes("%")) return positive(text, "force", place);
  if (breakingLoad === undefined)
    throw new InputError(place, quoted(text), "a breakingLoad beside it, or a force, is expected");
  return positive(text, "ratio", place) * breakingLoad;
}

function rising(
  pairs: readonly (readonly [string | number, string | number])[],
  place: string,
  second: (text: string | number, place: string) => number,
): [number, number][] {
  let before: [number, number] = [0, 0];
  return pairs.map(([strainText, otherText], i) => {
    const strain = parseQuantity(strainText, "ratio", `${place}${nth(i)} #1`);
    const other = second(otherText, `${place}${nth(i)} #2`);
    if (!(strain > before[0]))
      throw new InputError(
        `${place}${nth(i)} #1`,
        quoted(strainText),
        "more strain than at the point before is expected",
      );
    if (!(other > before[1]))
      throw new InputError(`${place}${nth(i)} #2`, quoted(otherText), "more load than at the point before is expected");
    before = [strain, other];
    return before;
  });
}
