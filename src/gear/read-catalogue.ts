import { InputError, parseQuantity, quoted } from "../quantity/index.ts";
import { readChecked } from "./checked.ts";
import { type Figure, relativeUncertainty, type Source } from "./figure.ts";
import { chainStiffness, LINK_SPREAD, usualShortLink } from "./link.ts";
import { constructionNamed, fibreNamed, gradeNamed, layNamed, metalNamed, pointNamed } from "./names.ts";
import { type Provenance, positive, readFigures } from "./read-figure.ts";
import { byCurve, readCurves, readStretch, type Stretch } from "./read-stretch.ts";
import { type Catalogue, type Curve, keyOf, type Property, type Row } from "./row.ts";
import { type GearFile, gearFile, type RowText } from "./schema.ts";

/** Key of the source of a stiffness that this program computed. */
export const BY_LINK_SHAPE = "link-shape";
const LINK_SHAPE: Source = { cite: "Computed from the shape of the link by elasticity (docs/gear.md)" };
const STEEL = { value: 7850, basis: "recalled", spread: 0.01 } as const;
const SMALLEST = 0.5e-3;
const LARGEST = 0.2;

/**
 * Reads a gear file (`rodebench/gear@1`, YAML or JSON).
 * @param place the file's name, for errors and as the origin of its rows.
 * @param origin what the rows are said to come from; default the file's name.
 * @param curves curves its rows may name besides its own.
 * @throws InputError naming the row, the field, what stands there and what was expected.
 */
export function readGear(
  text: string,
  place: string,
  origin = place,
  curves: Readonly<Record<string, Curve>> = {},
): Catalogue {
  const file = readChecked(text, place, gearFile);
  const keys = new Map<string, string>();
  const sources: Record<string, Source> = {};
  const keyFor = (name: string) => (origin === "built in" ? name : `${origin}: ${name}`);
  for (const [name, source] of Object.entries(file.sources ?? {})) {
    keys.set(name, keyFor(name));
    sources[keyFor(name)] = {
      cite: source.cite,
      ...(source.address === undefined ? {} : { address: source.address }),
      ...(source.note === undefined ? {} : { note: source.note }),
    };
  }
  sources[BY_LINK_SHAPE] = LINK_SHAPE;
  sources[origin] = { cite: `Stated in ${place}` };
  const whole: Provenance = {
    source: file.defaults?.source,
    basis: file.defaults?.basis,
    sources: keys,
    unsourced: origin,
  };
  const own = readCurves(file, place, whole);
  const known = { ...curves, ...own };

  const rows: Row[] = [];
  const seen = new Map<string, string>();
  for (const [i, row] of file.rows.entries()) {
    const read = readRow(row, `${place}: rows[${i}]`, origin, file, whole, known);
    const twin = seen.get(keyOf(read));
    if (twin !== undefined) {
      throw new InputError(
        `${place}: rows[${i}]`,
        quoted(read.name),
        `another article is expected: ${twin} is the same`,
      );
    }
    seen.set(keyOf(read), `rows[${i}]`);
    rows.push(read);
  }
  const used = new Set(
    rows.flatMap((row) => Object.values(row.figures).flatMap((figures) => figures.map((f) => f.source))),
  );
  for (const curve of Object.values(own)) for (const figure of curve.figures) used.add(figure.source);
  return {
    sources: Object.fromEntries(Object.entries(sources).filter(([key]) => used.has(key))),
    curves: own,
    rows,
  };
}

function readRow(
  text: RowText,
  place: string,
  origin: string,
  file: GearFile,
  whole: Provenance,
  curves: Readonly<Record<string, Curve>>,
): Row {
  const kind = (["chain", "rope", "wire", "point"] as const).find((name) => text[name] !== undefined)!;
  const row = text[kind]!;
  const at = `${place}.${kind}`;
  const from: Provenance = { ...whole, source: row.source ?? whole.source, basis: row.basis ?? whole.basis };

  const figures: Partial<Record<Property, readonly Figure[]>> = {};
  const read = (property: Exclude<Property, "stretch">, what: GearFile["defaults"] | typeof row, provenance = from) => {
    const given = what?.[property as keyof typeof what] as Parameters<typeof readFigures>[0] | undefined;
    const where = what === row ? `${at}.${property}` : `${place.split(": ")[0]}: defaults.${property}`;
    if (given !== undefined) figures[property] = readFigures(given, property, where, provenance, figures);
  };
  // A load told by share of another is read after it, whichever of the two that is.
  const byShare = (what: unknown) => isShare(Array.isArray(what) ? what[0] : what);
  const loads = byShare(row.breakingLoad)
    ? (["workingLoad", "breakingLoad"] as const)
    : (["breakingLoad", "workingLoad"] as const);
  for (const load of loads) read(load, row);
  if (!figures.workingLoad && (figures.breakingLoad || !byShare(file.defaults?.workingLoad))) {
    read("workingLoad", file.defaults, whole);
  }
  read("density", row.density === undefined ? file.defaults : row, row.density === undefined ? whole : from);
  if (kind !== "rope" && !figures.density) figures.density = [{ ...STEEL, source: from.unsourced }];
  if (!figures.density) throw new InputError(`${at}.density`, "", 'a density is expected, such as "1140 kg/m3"');

  const sizeText = "size" in row ? row.size : row.diameter;
  const sizeAt = "size" in row ? `${at}.size` : `${at}.diameter`;
  const nominal = sizeWithin(sizeText, sizeAt);
  const size = typeof sizeText === "number" ? `${sizeText} m` : sizeText.trim();
  const breakingLoad = figures.breakingLoad?.[0]?.value;
  const workingLoad = figures.workingLoad?.[0]?.value;
  if (breakingLoad !== undefined && workingLoad !== undefined && workingLoad > breakingLoad) {
    throw new InputError(
      `${at}.workingLoad`,
      `${workingLoad} N`,
      `no more than the breaking load, ${breakingLoad} N, is expected`,
    );
  }

  const shared = () => ({
    size,
    nominal,
    density: figures.density![0]!.value,
    ...(workingLoad === undefined ? {} : { workingLoad }),
    ...(breakingLoad === undefined ? {} : { breakingLoad }),
    figures,
    uncertainty: uncertaintyOf(figures),
    origin,
    ...(row.note === undefined ? {} : { note: row.note }),
  });

  if (kind === "point") {
    read("mass", row);
    const what = pointNamed(text.point!.what);
    return { kind, name: `${what} ${size}`, what, mass: figures.mass![0]!.value, ...shared() };
  }
  read("massPerLength", row);
  const massPerLength = figures.massPerLength![0]!.value;
  if (kind === "chain") {
    const chain = text.chain!;
    const bar = chain.bar === undefined ? nominal : sizeWithin(chain.bar, `${at}.bar`);
    const usual = usualShortLink(bar);
    const link = {
      pitch: chain.pitch === undefined ? usual.pitch : positive(chain.pitch, "length", `${at}.pitch`),
      insideWidth:
        chain.insideWidth === undefined
          ? usual.insideWidth
          : positive(chain.insideWidth, "length", `${at}.insideWidth`),
    };
    if (!(link.insideWidth > bar))
      throw new InputError(`${at}.insideWidth`, quoted(chain.insideWidth), "more than the bar is expected");
    if (!(link.pitch > link.insideWidth))
      throw new InputError(`${at}.pitch`, quoted(chain.pitch), "more than the inside width is expected");
    const stretch: Stretch =
      chain.stretch === undefined
        ? byLinkShape({ bar, ...link })
        : readStretch(chain.stretch, `${at}.stretch`, from, curves, breakingLoad, bar);
    const grade = gradeNamed(chain.grade);
    if (grade === "") throw new InputError(`${at}.grade`, quoted(chain.grade), 'a grade is expected, such as "30"');
    const standard = chain.standard;
    const name = `chain ${size} grade ${grade}${standard === undefined ? "" : ` ${standard}`}`;
    if (stretch.figures) figures.stretch = stretch.figures;
    return {
      kind,
      name,
      grade,
      ...(standard === undefined ? {} : { standard }),
      diameter: bar,
      link,
      massPerLength,
      stretch: stretch.law,
      ...shared(),
    };
  }
  if (kind === "rope") {
    const [fibre, lay] = [fibreNamed(text.rope!.fibre), layNamed(text.rope!.lay)];
    read(
      "wetStrength",
      text.rope!.wetStrength === undefined ? file.defaults : row,
      text.rope!.wetStrength === undefined ? whole : from,
    );
    const wet = figures.wetStrength?.[0]?.value;
    const stretch = ropeStretch(text.rope!, `${at}.stretch`, from, curves, breakingLoad, nominal, `${fibre} ${lay}`);
    if (stretch.figures) figures.stretch = stretch.figures;
    const wetBreakingLoad =
      wet === undefined || breakingLoad === undefined ? {} : { wetBreakingLoad: wet * breakingLoad };
    return {
      kind,
      name: `${fibre} ${lay} ${size}`,
      fibre,
      lay,
      diameter: nominal,
      massPerLength,
      stretch: stretch.law,
      ...wetBreakingLoad,
      ...shared(),
    };
  }
  const wire = text.wire!;
  const [material, construction] = [metalNamed(wire.material), constructionNamed(wire.construction)];
  if (wire.stretch === undefined) {
    throw new InputError(
      `${at}.stretch`,
      "",
      'none, { stiffness: "90 kN" } or { modulus: "110 GPa", areaFactor: 0.6 } is expected',
    );
  }
  const stretch = readStretch(wire.stretch, `${at}.stretch`, from, curves, breakingLoad, nominal);
  if (stretch.figures) figures.stretch = stretch.figures;
  return {
    kind,
    name: `${material} wire ${construction} ${size}`,
    material,
    construction,
    diameter: nominal,
    massPerLength,
    stretch: stretch.law,
    ...shared(),
  };
}

function isShare(what: unknown): boolean {
  return typeof what === "object" && what !== null && "share" in what;
}

function byLinkShape(shape: { bar: number; pitch: number; insideWidth: number }): Stretch {
  const stiffness = chainStiffness(shape);
  const figure: Figure = { value: stiffness, basis: "computed", source: BY_LINK_SHAPE, spread: LINK_SPREAD };
  return { law: { kind: "linear", stiffness }, figures: [figure] };
}

/** A rope that states no stretch takes the curve of its fibre and lay; never silently none. */
function ropeStretch(
  rope: NonNullable<RowText["rope"]>,
  place: string,
  from: Provenance,
  curves: Readonly<Record<string, Curve>>,
  breakingLoad: number | undefined,
  diameter: number,
  usual: string,
): Stretch {
  if (rope.stretch !== undefined) return readStretch(rope.stretch, place, from, curves, breakingLoad, diameter);
  if (breakingLoad !== undefined && Object.hasOwn(curves, usual)) return byCurve(usual, place, curves, breakingLoad);
  const why = Object.hasOwn(curves, usual)
    ? "a stretch, or a breakingLoad to scale the usual curve by,"
    : "a stretch (none, a stiffness or a curve)";
  throw new InputError(place, "", `${why} is expected`);
}

function uncertaintyOf(figures: Partial<Record<Property, readonly Figure[]>>): Partial<Record<Property, number>> {
  const relative: Partial<Record<Property, number>> = {};
  for (const [property, list] of Object.entries(figures)) {
    // A working load limit is set, not measured: it has no uncertainty.
    if (property !== "workingLoad") relative[property as Property] = relativeUncertainty(list);
  }
  return relative;
}

function sizeWithin(text: string | number, place: string): number {
  const size = parseQuantity(text, "length", place);
  if (!(size >= SMALLEST && size <= LARGEST)) {
    throw new InputError(place, quoted(text), "a diameter between 0.5 mm and 200 mm is expected");
  }
  return size;
}
