/** What rows of every kind have alike: size, density, loads, their figures and how unsure they are. */
import { InputError, parseQuantity, quoted } from "../quantity/index.ts";
import { type Figure, relativeUncertainty } from "./figure.ts";
import { type Provenance, readFigures } from "./read-figure.ts";
import type { Stretch } from "./read-stretch.ts";
import type { Curve, Property } from "./row.ts";
import type { FigureText, GearFile, RowText } from "./schema.ts";

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
export interface Begun {
  readonly at: string;
  readonly from: Provenance;
  readonly figures: Partial<Record<Property, readonly Figure[]>>;
  readonly size: string;
  readonly nominal: number;
  readonly breakingLoad: number | undefined;
}

/** Reads what must be known before the rest: size, loads, density. */
export function begin(
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

/** Figures of the row itself, else those the file gives to all its rows. */
export function readOwnOrDefault(
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

/** What a row that is a line has besides. */
export function line(row: Begun, massPerLength: FigureText, diameter: number, stretch: Stretch) {
  const figures = readFigures(massPerLength, "massPerLength", `${row.at}.massPerLength`, row.from, row.figures);
  row.figures.massPerLength = figures;
  if (stretch.figures) row.figures.stretch = stretch.figures;
  return { diameter, massPerLength: figures[0]!.value, stretch: stretch.law };
}

/** What every row ends with. */
export function finish(row: Begun, own: Common, file: FileSetting) {
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

/** A diameter such as gear has, m. */
export function sizeWithin(text: string | number, place: string): number {
  const size = parseQuantity(text, "length", place);
  if (!(size >= SMALLEST && size <= LARGEST)) {
    throw new InputError(place, quoted(text), "a diameter between 0.5 mm and 200 mm is expected");
  }
  return size;
}
