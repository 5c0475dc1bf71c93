/** The series file `rodebench/series@1`, YAML or JSON, as a series. */
import { catalogue as builtIn, type Catalogue } from "../gear/index.ts";
import type { Pull } from "../holding/index.ts";
import { checkShape, type Dimension, InputError, nth, parseQuantity, quoted, readDocument } from "../quantity/index.ts";
import { RIG_FORMAT, rigFrom } from "../rode/index.ts";
import { holdRuleStated, usualHoldRule } from "../study/index.ts";
import { MOST_CODED } from "./pull-code.ts";
import { readDays } from "./read-days.ts";
import { readTide } from "./read-tide.ts";
import type { AboardRode, PullingBoat, Series, SeriesSite } from "./series.ts";
import { type SeriesFields, seriesShape } from "./series-shape.ts";

const QUARTER = Math.PI / 2;
/** What is told where nothing is stated: a ratio of holding of 1.3; 3 % a degree. */
const TELL = { compare: 1.3, letsGo: 0.03, afterVeer: 1.3 } as const;

/** The table of pulls a series names, as it stands in it; undefined where none is. @throws InputError as `readSeries` does */
export function seriesBook(text: string, place: string): string | undefined {
  return fieldsOf(text, place).book;
}

/**
 * Reads a series.
 * @param pulls what is held already
 * @throws InputError of one line: file, field, what stands there, what was expected.
 */
export function readSeries(
  text: string,
  place: string,
  pulls: readonly Pull[] = [],
  catalogue: Catalogue = builtIn,
): Series {
  const fields = fieldsOf(text, place);
  const { question, limits = {}, order = {} } = fields;
  const at = (field: string) => `${place}: ${field}`;
  const read = reader(place);
  const angles = question.angles.map((one, i) => {
    const angle = read.notBelow(one, "angle", `question.angles${nth(i)}`);
    if (!(angle < QUARTER))
      throw new InputError(at(`question.angles${nth(i)}`), quoted(one), "an angle below 90 deg is expected");
    return angle;
  });
  const loads = question.loads.map((one, i) => read.above(one, "force", `question.loads${nth(i)}`));
  rising(loads, at("question.loads"));
  const tell = question.tell ?? TELL[question.kind];
  if (question.kind === "letsGo" ? !(tell > 0 && tell < 1) : !(tell > 1 && tell < 100))
    throw new InputError(
      at("question.tell"),
      quoted(tell),
      question.kind === "letsGo"
        ? "a share a degree above 0 and below 1 is expected"
        : "a ratio of holding above 1 and below 100 is expected",
    );
  const sites = fields.sites.map((site, i) => readSite(site, place, i));
  named(fields.anchors, at("anchors"));
  named(fields.sites, at("sites"));
  named(fields.rodes, at("rodes"));
  if (question.kind === "compare" && fields.anchors.length < 2)
    throw new InputError(at("anchors"), "one anchor", "two or more are expected where anchors are compared");
  if (question.kind === "letsGo" && new Set(angles).size < 2)
    throw new InputError(at("question.angles"), "one angle", "two or more are expected where the angle is asked about");
  const repeats = fields.pulls?.repeats ?? 3;
  const asked = repeats * fields.anchors.length * angles.length;
  if (asked > MOST_CODED)
    throw new InputError(at("pulls.repeats"), `${asked} pulls`, `at most ${MOST_CODED} pulls are expected`);
  const time = (value: string | number | undefined, usual: number, field: string) =>
    value === undefined ? usual : read.notBelow(value, "time", `pulls.${field}`);
  const each = time(fields.pulls?.each, 1500, "each");
  if (!(each > 0)) throw new InputError(at("pulls.each"), quoted(each), "a time above zero is expected");
  return {
    name: fields.name ?? "series",
    question: question.kind,
    anchors: fields.anchors.map(({ name, mass }, i) => ({
      name,
      ...(mass === undefined ? {} : { mass: read.above(mass, "mass", `anchors${nth(i)}.mass`) }),
    })),
    angles,
    loads,
    tell,
    repeats,
    hold: time(fields.pulls?.hold, 60, "hold"),
    holdRule: { ...usualHoldRule, ...holdRuleStated(fields.pulls ?? {}, at("pulls")) },
    pullTime: each,
    changeTime: time(fields.pulls?.change, 600, "change"),
    gaugeU: fields.gauge === undefined ? Math.PI / 360 : read.above(fields.gauge, "angle", "gauge"),
    workingLoadShare:
      limits.workingLoad === undefined ? 1 : read.above(limits.workingLoad, "ratio", "limits.workingLoad"),
    underKeel: limits.underKeel === undefined ? 0.5 : read.notBelow(limits.underKeel, "length", "limits.underKeel"),
    boat: readBoat(fields.boat, place),
    rodes: fields.rodes.map((one, i) => readRode(one, `${place}: rodes${nth(i)}`, catalogue)),
    sites,
    days: readDays(fields.days ?? [], sites, place),
    seed: order.seed ?? 1,
    changes: order.changes ?? "few",
    pulls,
  };
}

function fieldsOf(text: string, place: string): SeriesFields {
  return checkShape(readDocument(text, place), seriesShape, place);
}

function reader(place: string) {
  const value = (given: string | number, dimension: Dimension, field: string) =>
    parseQuantity(given, dimension, `${place}: ${field}`);
  return {
    value,
    above(given: string | number, dimension: Dimension, field: string): number {
      const read = value(given, dimension, field);
      if (!(read > 0)) throw new InputError(`${place}: ${field}`, quoted(given), "a value above zero is expected");
      return read;
    },
    notBelow(given: string | number, dimension: Dimension, field: string): number {
      const read = value(given, dimension, field);
      if (!(read >= 0)) throw new InputError(`${place}: ${field}`, quoted(given), "zero or more is expected");
      return read;
    },
  };
}

function readBoat(given: SeriesFields["boat"], place: string): PullingBoat {
  const read = reader(place);
  const thrust = given.thrust.map(({ speed, load }, i) => ({
    speed: read.above(speed, "frequency", `boat.thrust${nth(i)}.speed`),
    newtons: read.above(load, "force", `boat.thrust${nth(i)}.load`),
  }));
  rising(
    thrust.map(({ speed }) => speed),
    `${place}: boat.thrust`,
  );
  rising(
    thrust.map(({ newtons }) => newtons),
    `${place}: boat.thrust`,
  );
  return {
    name: given.name ?? "boat",
    length: given.length === undefined ? 0 : read.above(given.length, "length", "boat.length"),
    draught: read.notBelow(given.draught, "length", "boat.draught"),
    rollerHeight: read.above(given.rollerHeight, "length", "boat.rollerHeight"),
    thrust,
  };
}

/** The parts as a rig file has them: read by its reader, in a setting that does not matter here. */
function readRode(given: SeriesFields["rodes"][number], place: string, catalogue: Catalogue): AboardRode {
  const setting = { medium: "water", depth: 1, rollerHeight: 1 };
  const { rode } = rigFrom({ format: RIG_FORMAT, name: given.name, setting, rode: given.rode }, place, catalogue);
  return { name: given.name, parts: rode };
}

function readSite(given: SeriesFields["sites"][number], place: string, i: number): SeriesSite {
  const read = reader(place);
  const at = (field: string) => `sites${nth(i)}.${field}`;
  const [least, most] = given.depth.map((one) => read.value(one, "length", at("depth"))) as [number, number];
  if (!(most >= least))
    throw new InputError(
      `${place}: ${at("depth")}`,
      `${given.depth[0]} before ${given.depth[1]}`,
      "the lesser depth first is expected",
    );
  const { seabed, room, bottomSlope, bottomFriction, waterDensity } = given;
  return {
    name: given.name,
    depth: { least, most },
    bottomSlope: bottomSlope === undefined ? 0 : read.value(bottomSlope, "angle", at("bottomSlope")),
    bottomFriction: bottomFriction ?? 0,
    waterDensity: waterDensity === undefined ? 1025 : read.above(waterDensity, "density", at("waterDensity")),
    tide: readTide(given.tide, `${place}: ${at("tide")}`),
    ...(seabed === undefined ? {} : { seabed }),
    ...(room === undefined ? {} : { room: read.above(room, "length", at("room")) }),
  };
}

function rising(values: readonly number[], place: string): void {
  const at = values.findIndex((value, i) => i > 0 && !(value > values[i - 1]!));
  if (at > 0)
    throw new InputError(place, `entry ${at + 1} is no higher than the one before`, "rising values are expected");
}

function named(list: readonly { readonly name: string }[], place: string): void {
  const seen = new Set<string>();
  for (const { name } of list) {
    if (seen.has(name)) throw new InputError(place, quoted(name), "a name of its own is expected for each");
    seen.add(name);
  }
}
