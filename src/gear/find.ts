import { InputError, parseQuantity, quoted } from "../quantity/index.ts";
import { constructionNamed, fibreNamed, gradeNamed, layNamed, metalNamed, pointNamed } from "./names.ts";
import type { Catalogue, ChainRow, PointRow, RopeRow, Row, WireRow } from "./row.ts";

/** A size as typed ("3/8 in", "10 mm"), or in metres. */
export type Size = string | number;

/** Text and row mean the same size when they are the same length to within this, m. */
const SAME = 1e-6;
/** A rounded size of the same system of units is still that size: "0.38 in" is 3/8 in; m. */
const ROUNDED = 0.2e-3;

/**
 * The chain of a grade and size.
 *
 * 3/8 in (9.525 mm) and 10 mm are two chains: a size is matched exactly, or within 0.2 mm by a row whose size
 * is told in the same system of units.
 * @param wanted `standard` chooses between links of one designation ("DIN 766"); without it the first row counts.
 * @throws InputError naming the nearest there are.
 */
export function findChain(
  wanted: { readonly grade: string | number; readonly size: Size; readonly standard?: string },
  catalogue: Catalogue,
  place: string,
): ChainRow {
  const grade = gradeNamed(wanted.grade);
  const rows = catalogue.rows.filter((row) => row.kind === "chain");
  const alike = rows.filter(
    (row) => row.grade === grade && (wanted.standard === undefined || row.standard === wanted.standard),
  );
  return pick(rows, alike, wanted.size, place, "size", {
    field: "grade",
    given: wanted.grade,
    known: rows.map((row) => row.grade),
  });
}

/** The rope of a fibre, lay and diameter. @throws InputError naming the nearest there are. */
export function findRope(
  wanted: { readonly fibre: string; readonly lay: string; readonly diameter: Size },
  catalogue: Catalogue,
  place: string,
): RopeRow {
  const rows = catalogue.rows.filter((row) => row.kind === "rope");
  const [fibre, lay] = [fibreNamed(wanted.fibre), layNamed(wanted.lay)];
  const ofFibre = narrowed(rows, (row) => row.fibre, fibre, wanted.fibre, `${place}.fibre`);
  const alike = narrowed(ofFibre, (row) => row.lay, lay, wanted.lay, `${place}.lay`);
  return pick(rows, alike, wanted.diameter, place, "diameter");
}

/** The wire of a material, construction and diameter. @throws InputError naming the nearest there are. */
export function findWire(
  wanted: { readonly material: string; readonly construction: string; readonly diameter: Size },
  catalogue: Catalogue,
  place: string,
): WireRow {
  const rows = catalogue.rows.filter((row) => row.kind === "wire");
  const [material, construction] = [metalNamed(wanted.material), constructionNamed(wanted.construction)];
  const ofMetal = narrowed(rows, (row) => row.material, material, wanted.material, `${place}.material`);
  const alike = narrowed(
    ofMetal,
    (row) => row.construction,
    construction,
    wanted.construction,
    `${place}.construction`,
  );
  return pick(rows, alike, wanted.diameter, place, "diameter");
}

/** The shackle, swivel or other point of a size. @throws InputError naming the nearest there are. */
export function findPoint(
  wanted: { readonly what: string; readonly size: Size },
  catalogue: Catalogue,
  place: string,
): PointRow {
  const rows = catalogue.rows.filter((row) => row.kind === "point");
  const alike = narrowed(rows, (row) => row.what, pointNamed(wanted.what), wanted.what, `${place}.what`);
  return pick(rows, alike, wanted.size, place, "size");
}

/**
 * The rows of a size, by the rule of `findChain`: any kind, grade and lay.
 * @throws InputError naming the nearest sizes when there are none.
 */
export function rowsOfSize(rows: readonly Row[], size: Size, place: string): readonly Row[] {
  const wanted = parseQuantity(size, "length", place);
  const alike = rows.filter((row) => sameSize([row], wanted, size));
  if (alike.length > 0 || rows.length === 0) return alike;
  refuseWithoutUnit(size, wanted, place);
  const near = [...new Set(nearest(rows, wanted, rows.length).map((row) => row.size))].slice(0, 3);
  throw new InputError(place, quoted(size), `a size in the catalogue is expected; nearest: ${near.join(", ")}`);
}

function narrowed<R extends Row>(
  rows: readonly R[],
  nameOf: (row: R) => string,
  wanted: string,
  given: string,
  place: string,
): readonly R[] {
  const alike = rows.filter((row) => nameOf(row) === wanted);
  if (alike.length > 0) return alike;
  throw new InputError(place, quoted(given), `${oneOf([...new Set(rows.map(nameOf))])} is expected`);
}

function pick<R extends Row>(
  all: readonly R[],
  alike: readonly R[],
  size: Size,
  place: string,
  field: string,
  first?: { field: string; given: string | number; known: readonly string[] },
): R {
  const at = `${place}.${field}`;
  const wanted = parseQuantity(size, "length", at);
  const found = sameSize(alike, wanted, size);
  if (found) return found;
  if (first && !first.known.includes(gradeNamed(first.given))) {
    throw new InputError(
      `${place}.${first.field}`,
      quoted(first.given),
      `${oneOf([...new Set(first.known)].sort())} is expected`,
    );
  }
  refuseWithoutUnit(size, wanted, at);
  const others = all.filter((row) => !alike.includes(row) && sameSize([row], wanted, size));
  const near = [...new Set([...nearest(alike, wanted), ...others].map((row) => row.name))].slice(0, 4);
  const given = first ? `${quoted(size)} of ${first.field} ${gradeNamed(first.given)}` : quoted(size);
  throw new InputError(
    at,
    given,
    `a size in the catalogue or in a file of your own rows is expected; nearest: ${near.join(", ")}`,
  );
}

/** Thicker than any gear, m: a bare number of that size was meant in another unit than the metre. */
const THICKEST = 0.2;

/** @throws InputError asking for the unit, where a bare number can be no size in metres */
function refuseWithoutUnit(size: Size, wanted: number, place: string): void {
  if (wanted < THICKEST || !/^[\d.,/\s]+$/.test(String(size))) return;
  const bare = String(size).trim();
  throw new InputError(
    place,
    quoted(size),
    `a size with its unit is expected, such as "${bare} mm" or "${bare} in"; a bare number is in metres`,
  );
}

/** The row of exactly this size, else the nearest within rounding told in the same system of units. */
function sameSize<R extends Row>(rows: readonly R[], wanted: number, size: Size): R | undefined {
  const exact = rows.find((row) => Math.abs(row.nominal - wanted) <= SAME);
  if (exact) return exact;
  const inches = typeof size === "string" ? inInches(size) : undefined;
  let best: R | undefined;
  let least = ROUNDED;
  for (const row of rows) {
    const apart = Math.abs(row.nominal - wanted);
    // Of two alike the first counts.
    if (inches !== inInches(row.size) || apart > least + (best === undefined ? 1e-12 : -1e-12)) continue;
    [best, least] = [row, apart];
  }
  return best;
}

function nearest<R extends Row>(rows: readonly R[], wanted: number, count = 2): R[] {
  return [...rows].sort((a, b) => Math.abs(a.nominal - wanted) - Math.abs(b.nominal - wanted)).slice(0, count);
}

function inInches(size: string): boolean {
  return /in|"|″|inch/i.test(size);
}

function oneOf(names: readonly string[]): string {
  return names.length === 1 ? names[0]! : `one of ${names.join(", ")}`;
}
