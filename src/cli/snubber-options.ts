/** The options of `shock` that are about snubbers: kind, size, map, limits. */
import { InputError, parseQuantity, quoted } from "../quantity/index.ts";
import { readDiameter, type SnubberKind, type SnubberLimits } from "../sizing/index.ts";
import { positive } from "./options.ts";
import type { ShockOptions } from "./shock-options.ts";

export function limitsFrom(options: ShockOptions): SnubberLimits {
  const share = (text: string, place: string, most: number): number => {
    const value = parseQuantity(text, "ratio", place);
    if (!(value > 0 && value <= most))
      throw new InputError(place, quoted(text), `a share above zero and up to ${100 * most} % is expected`);
    return value;
  };
  const force = (text: string | undefined, place: string): number | undefined =>
    text === undefined ? undefined : positive(text, "force", place, "a load above zero");
  const angle =
    options.angleLimit === undefined ? undefined : parseQuantity(options.angleLimit, "angle", "--angle-limit");
  if (angle !== undefined && !(angle >= 0 && angle < Math.PI / 2))
    throw new InputError("--angle-limit", quoted(options.angleLimit), "an angle from 0 to 90 deg is expected");
  const optional: [keyof SnubberLimits, number | undefined][] = [
    ["peak", force(options.peakLimit, "--peak-limit")],
    ["hook", force(options.hookLimit, "--hook-limit")],
    ["cleat", force(options.cleatLimit, "--cleat-limit")],
    ["anchorAngle", angle],
  ];
  return {
    ropeShare: share(options.ropeShare, "--rope-share", 1),
    workingLoadShare: share(options.gearShare, "--gear-share", 2),
    loopShare: share(options.loopShare, "--loop-share", 1),
    ...Object.fromEntries(optional.filter(([, value]) => value !== undefined)),
  };
}

export function kindFrom(options: ShockOptions): SnubberKind {
  const { slack, bridle, within, hookMass } = options;
  const loop = slack === undefined ? undefined : parseQuantity(slack, "length", "--slack");
  if (loop !== undefined && !(loop >= 0)) throw new InputError("--slack", quoted(slack), "zero or more is expected");
  const hook = hookMass === undefined ? undefined : parseQuantity(hookMass, "mass", "--hook-mass");
  if (hook !== undefined && !(hook >= 0))
    throw new InputError("--hook-mass", quoted(hookMass), "zero or more is expected");
  return {
    hooked: within === true ? "within" : "veered",
    ...(loop === undefined ? {} : { slack: loop }),
    ...(bridle === undefined ? {} : { bridle: bridleFrom(bridle) }),
    ...(hook === undefined ? {} : { hook: { mass: hook, density: 7850 } }),
  };
}

/** `2.4 m`, `2.4 m, 20 deg`, or with the other leg's length as a third: `2.4 m, 20 deg, 7.5 m`. */
function bridleFrom(text: string): NonNullable<SnubberKind["bridle"]> {
  const place = "--bridle";
  const parts = text.split(",").map((part) => part.trim());
  if (parts.length > 3 || parts.includes(""))
    throw new InputError(
      place,
      quoted(text),
      'beam and heading, and the other leg where it differs, are expected, such as "2.4 m, 20 deg"',
    );
  const beam = positive(parts[0]!, "length", `${place}, beam`, "a distance above zero");
  const heading = parts[1] === undefined ? 0 : parseQuantity(parts[1], "angle", `${place}, heading`);
  if (!(Math.abs(heading) < Math.PI / 2))
    throw new InputError(`${place}, heading`, quoted(parts[1]), "an angle within 90 deg either side is expected");
  return {
    beam,
    heading,
    ...(parts[2] === undefined
      ? {}
      : { other: positive(parts[2], "length", `${place}, other leg`, "a length above zero") }),
  };
}

/** `14 mm, 9 m` */
export function snubberFrom(text: string): { diameter: number; length: number } {
  const parts = text.split(",").map((part) => part.trim());
  if (parts.length !== 2 || parts.includes(""))
    throw new InputError("--snubber", quoted(text), 'a diameter and a length are expected, such as "14 mm, 9 m"');
  return {
    diameter: readDiameter(parts[0]!, "--snubber, diameter"),
    length: positive(parts[1]!, "length", "--snubber, length", "a length above zero"),
  };
}

/** `8..24/2 mm, 2..20/2 m`: diameters, then lengths. */
export function mapFrom(text: string): { diameters: number[]; lengths: number[] } {
  const parts = text.split(",").map((part) => part.trim());
  if (parts.length !== 2 || parts.includes(""))
    throw new InputError("--map", quoted(text), 'diameters and lengths are expected, such as "8..24/2 mm, 2..20/2 m"');
  return { diameters: rangeFrom(parts[0]!, "--map, diameters"), lengths: rangeFrom(parts[1]!, "--map, lengths") };
}

function rangeFrom(text: string, place: string): number[] {
  const expected = 'FROM..TO/STEP with a unit is expected, such as "2..20/2 m"';
  // Between end and step stands the first stroke after a unit; without a unit there, the first of all.
  const match =
    /^(.+?)\s*\.\.\s*(.+?[a-zA-Z"'])\s*\/\s*(.+)$/.exec(text) ?? /^(.+?)\s*\.\.\s*([^/]+?)\s*\/\s*(.+)$/.exec(text);
  if (match === null) throw new InputError(place, quoted(text), expected);
  const unitOf = (part: string): string => /[a-zA-Z"'].*$/.exec(part)?.[0] ?? "";
  const last = unitOf(match[3]!) || unitOf(match[2]!);
  const read = (part: string, unit: string): number =>
    parseQuantity(unitOf(part) === "" ? `${part} ${unit}`.trim() : part, "length", place);
  const [from, to, step] = [
    read(match[1]!, unitOf(match[2]!) || last),
    read(match[2]!, last),
    read(match[3]!, last),
  ] as const;
  if (!(from > 0 && to >= from && step > 0))
    throw new InputError(place, quoted(text), "a range that rises from above zero by a step above zero is expected");
  const count = Math.floor((to - from) / step + 1e-9) + 1;
  if (count > 100) throw new InputError(place, quoted(text), "at most 100 steps are expected");
  return Array.from({ length: count }, (_, i) => from + i * step);
}
