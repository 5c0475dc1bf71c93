import { InputError, parseQuantity, quoted } from "../quantity/index.ts";
import { type Figure, relativeUncertainty } from "./figure.ts";
import { chainStiffness, LINK_SPREAD, usualShortLink } from "./link.ts";
import { constructionNamed, fibreNamed, gradeNamed, layNamed, metalNamed, pointNamed } from "./names.ts";
import { type Provenance, positive, readFigures } from "./read-figure.ts";
import { byCurve, readStretch, type Stretch } from "./read-stretch.ts";
import type { ChainRow, Curve, PointRow, Property, RopeRow, Row, WireRow } from "./row.ts";
import type { FigureText, GearFile, RowText } from "./schema.ts";

/** Key of the source of a stiffness that this program computed. */
export const BY_LINK_SHAPE = "link-shape";
/** Density of steel where a row of metal states none, kg/m³ (handbook value, recalled). */
const STEEL = { value: 7850, basis: "recalled", spread: 0.01 } as const;
const SMALLEST = 0.5e-3;
const LARGEST = 0.2;

/** What a row is read within. */
export interface FileSetting {
  /** The file's name. */
  readonly place: string;
  readonly origin: string;
  readonly defaults: NonNullable<GearFile["defaults"]>;
  readonly provenance: Provenance;
  readonly curves: Readonly<Record<string, Curve>>;
}

type Common = Pick<
  NonNullable<RowText["point"]>,
  "density" | "workingLoad" | "breakingLoad" | "source" | "basis" | "note"
>;
type Loads = "workingLoad" | "breakingLoad";

/** The parts of a row that every kind has, and what reading the rest needs. */
interface Begun {
  readonly at: string;
  readonly from: Provenance;
  readonly figures: Partial<Record<Property, readonly Figure[]>>;
  readonly size: string;
  readonly nominal: number;
  readonly breakingLoad: number | undefined;
}

export function readRow(row: RowText, place: string, file: FileSetting): Row {
  if (row.chain) return readChain(row.chain, `${place}.chain`, file);
  if (row.rope) return readRope(row.rope, `${place}.rope`, file);
  if (row.wire) return readWire(row.wire, `${place}.wire`, file);
  return readPoint(row.point!, `${place}.point`, file);
}

function readChain(chain: NonNullable<RowText["chain"]>, at: string, file: FileSetting): ChainRow {
  const row = begin(chain, chain.size, `${at}.size`, at, file, STEEL);
  const grade = gradeNamed(chain.grade);
  if (!/^[a-z0-9]{1,10}$/i.test(grade)) {
    throw new InputError(`${at}.grade`, quoted(chain.grade), 'a grade is expected, such as "30"');
  }
  const bar = chain.bar === undefined ? row.nominal : sizeWithin(chain.bar, `${at}.bar`);
  const usual = usualShortLink(bar);
  const pitch = chain.pitch === undefined ? usual.pitch : positive(chain.pitch, "length", `${at}.pitch`);
  const width =
    chain.insideWidth === undefined ? usual.insideWidth : positive(chain.insideWidth, "length", `${at}.insideWidth`);
  if (!(width > bar && width < 10 * bar)) {
    throw new InputError(
      `${at}.insideWidth`,
      quoted(chain.insideWidth ?? width),
      "more than the bar, and less than ten times, is expected",
    );
  }
  if (!(pitch > width && pitch < 20 * bar)) {
    throw new InputError(
      `${at}.pitch`,
      quoted(chain.pitch ?? pitch),
      "more than the inside width, and less than twenty bars, is expected",
    );
  }
  const link = { pitch, insideWidth: width };
  const stretch: Stretch = chain.stretch
    ? readStretch(chain.stretch, `${at}.stretch`, row.from, file.curves, row.breakingLoad, bar)
    : byLinkShape(chainStiffness({ bar, ...link }));
  return {
    kind: "chain",
    name: `chain ${row.size} grade ${grade}${chain.standard === undefined ? "" : ` ${chain.standard}`}`,
    grade,
    ...(chain.standard === undefined ? {} : { standard: chain.standard }),
    link,
    ...line(row, chain.massPerLength, bar, stretch),
    ...finish(row, chain, file),
  };
}

function readRope(rope: NonNullable<RowText["rope"]>, at: string, file: FileSetting): RopeRow {
  const row = begin(rope, rope.diameter, `${at}.diameter`, at, file, undefined);
  const [fibre, lay] = [fibreNamed(rope.fibre), layNamed(rope.lay)];
  const stretch = ropeStretch(rope, row, file, `${fibre} ${lay}`);
  readOwnOrDefault("wetStrength", rope.wetStrength, row, file);
  const wet = row.figures.wetStrength?.[0]?.value;
  if (wet !== undefined && wet > 1) {
    throw new InputError(`${at}.wetStrength`, `${wet}`, "at most 100 % is expected");
  }
  return {
    kind: "rope",
    name: `${fibre} ${lay} ${row.size}`,
    fibre,
    lay,
    ...(wet === undefined || row.breakingLoad === undefined ? {} : { wetBreakingLoad: wet * row.breakingLoad }),
    ...line(row, rope.massPerLength, row.nominal, stretch),
    ...finish(row, rope, file),
  };
}

function readWire(wire: NonNullable<RowText["wire"]>, at: string, file: FileSetting): WireRow {
  const row = begin(wire, wire.diameter, `${at}.diameter`, at, file, STEEL);
  const [material, construction] = [metalNamed(wire.material), constructionNamed(wire.construction)];
  if (wire.stretch === undefined) {
    const expected = 'none, { stiffness: "90 kN" } or { modulus: "110 GPa", areaFactor: 0.6 } is expected';
    throw new InputError(`${at}.stretch`, "", expected);
  }
  const stretch = readStretch(wire.stretch, `${at}.stretch`, row.from, file.curves, row.breakingLoad, row.nominal);
  return {
    kind: "wire",
    name: `${material} wire ${construction} ${row.size}`,
    material,
    construction,
    ...line(row, wire.massPerLength, row.nominal, stretch),
    ...finish(row, wire, file),
  };
}

function readPoint(point: NonNullable<RowText["point"]>, at: string, file: FileSetting): PointRow {
  const row = begin(point, point.size, `${at}.size`, at, file, STEEL);
  const what = pointNamed(point.what);
  row.figures.mass = readFigures(point.mass, "mass", `${at}.mass`, row.from, row.figures);
  return {
    kind: "point",
    name: `${what} ${row.size}`,
    what,
    mass: row.figures.mass[0]!.value,
    ...finish(row, point, file),
  };
}

function begin(
  own: Common,
  sizeText: string | number,
  sizeAt: string,
  at: string,
  file: FileSetting,
  usualDensity: Omit<Figure, "source"> | undefined,
): Begun {
  const whole = file.provenance;
  const from: Provenance = { ...whole, source: own.source ?? whole.source, basis: own.basis ?? whole.basis };
  const row: Begun = {
    at,
    from,
    figures: {},
    size: typeof sizeText === "number" ? `${sizeText} m` : sizeText.trim(),
    nominal: sizeWithin(sizeText, sizeAt),
    breakingLoad: undefined,
  };
  readLoads(own, row, file);
  readOwnOrDefault("density", own.density, row, file);
  if (!row.figures.density && usualDensity) row.figures.density = [{ ...usualDensity, source: whole.unsourced }];
  if (!row.figures.density) throw new InputError(`${at}.density`, "", 'a density is expected, such as "1140 kg/m3"');
  return { ...row, breakingLoad: row.figures.breakingLoad?.[0]?.value };
}

/** A load told as a share of the other is read after it, whichever of the two that is. */
function readLoads(own: Common, row: Begun, file: FileSetting): void {
  const later: Loads = isShare(own.breakingLoad) ? "breakingLoad" : "workingLoad";
  const order: Loads[] = later === "breakingLoad" ? ["workingLoad", "breakingLoad"] : ["breakingLoad", "workingLoad"];
  for (const load of order) {
    const text = own[load];
    if (text !== undefined) row.figures[load] = readFigures(text, load, `${row.at}.${load}`, row.from, row.figures);
  }
  const usual = file.defaults.workingLoad;
  if (row.figures.workingLoad || usual === undefined || (isShare(usual) && !row.figures.breakingLoad)) return;
  const place = `${file.place}: defaults.workingLoad`;
  row.figures.workingLoad = readFigures(usual, "workingLoad", place, file.provenance, row.figures);
}

function isShare(text: FigureText | undefined): boolean {
  const first = Array.isArray(text) ? text[0] : text;
  return typeof first === "object" && "share" in first;
}

function readOwnOrDefault(
  property: "density" | "wetStrength",
  own: FigureText | undefined,
  row: Begun,
  file: FileSetting,
): void {
  const usual = file.defaults[property];
  if (own !== undefined)
    row.figures[property] = readFigures(own, property, `${row.at}.${property}`, row.from, row.figures);
  else if (usual !== undefined) {
    const place = `${file.place}: defaults.${property}`;
    row.figures[property] = readFigures(usual, property, place, file.provenance, row.figures);
  }
}

function line(row: Begun, massPerLength: FigureText, diameter: number, stretch: Stretch) {
  const figures = readFigures(massPerLength, "massPerLength", `${row.at}.massPerLength`, row.from, row.figures);
  row.figures.massPerLength = figures;
  if (stretch.figures) row.figures.stretch = stretch.figures;
  return { diameter, massPerLength: figures[0]!.value, stretch: stretch.law };
}

function finish(row: Begun, own: Common, file: FileSetting) {
  const { figures, breakingLoad } = row;
  const workingLoad = figures.workingLoad?.[0]?.value;
  if (breakingLoad !== undefined && workingLoad !== undefined && workingLoad > breakingLoad) {
    const expected = `no more than the breaking load, ${Math.round(breakingLoad)} N, is expected`;
    throw new InputError(`${row.at}.workingLoad`, `${Math.round(workingLoad)} N`, expected);
  }
  return {
    size: row.size,
    nominal: row.nominal,
    density: figures.density![0]!.value,
    ...(workingLoad === undefined ? {} : { workingLoad }),
    ...(breakingLoad === undefined ? {} : { breakingLoad }),
    figures,
    uncertainty: uncertaintyOf(figures),
    origin: file.origin,
    ...(own.note === undefined ? {} : { note: own.note }),
  };
}

/** A working load limit is set, not measured: it has no uncertainty. */
function uncertaintyOf(figures: Begun["figures"]): Partial<Record<Property, number>> {
  const relative: Partial<Record<Property, number>> = {};
  for (const [property, list] of Object.entries(figures)) {
    if (property !== "workingLoad") relative[property as Property] = relativeUncertainty(list);
  }
  return relative;
}

function byLinkShape(stiffness: number): Stretch {
  const figure: Figure = { value: stiffness, basis: "computed", source: BY_LINK_SHAPE, spread: LINK_SPREAD };
  return { law: { kind: "linear", stiffness }, figures: [figure] };
}

/** A rope that states no stretch takes the curve of its fibre and lay; never silently none. */
function ropeStretch(rope: NonNullable<RowText["rope"]>, row: Begun, file: FileSetting, usual: string): Stretch {
  const place = `${row.at}.stretch`;
  if (rope.stretch !== undefined) {
    return readStretch(rope.stretch, place, row.from, file.curves, row.breakingLoad, row.nominal);
  }
  if (!Object.hasOwn(file.curves, usual)) throw new InputError(place, "", "none, a stiffness or a curve is expected");
  if (row.breakingLoad === undefined) {
    throw new InputError(place, "", "a stretch, or a breakingLoad to scale the usual curve by, is expected");
  }
  return byCurve(usual, place, file.curves, row.breakingLoad);
}

function sizeWithin(text: string | number, place: string): number {
  const size = parseQuantity(text, "length", place);
  if (!(size >= SMALLEST && size <= LARGEST)) {
    throw new InputError(place, quoted(text), "a diameter between 0.5 mm and 200 mm is expected");
  }
  return size;
}
