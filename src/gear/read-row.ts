import { InputError, quoted } from "../quantity/index.ts";
import type { Figure } from "./figure.ts";
import { chainStiffness, LINK_SPREAD, usualShortLink } from "./link.ts";
import { readLoop } from "./loop.ts";
import { constructionNamed, fibreNamed, gradeNamed, layNamed, metalNamed, pointNamed } from "./names.ts";
import { positive, readFigures } from "./read-figure.ts";
import { byCurve, readStretch, type Stretch } from "./read-stretch.ts";
import type { ChainRow, PointRow, RopeRow, Row, WireRow } from "./row.ts";
import { type Begun, begin, type FileSetting, finish, line, readOwnOrDefault, sizeWithin } from "./row-frame.ts";
import type { RowText } from "./schema.ts";

/** Key of the source of a stiffness that this program computed. */
export const BY_LINK_SHAPE = "link-shape";
/** Density of steel where a row of metal states none, kg/m³ (handbook value, recalled). */
const STEEL = { value: 7850, basis: "recalled", spread: 0.01 } as const;
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
    ...(rope.loop === undefined ? {} : { loop: readLoop(rope.loop, `${at}.loop`) }),
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
