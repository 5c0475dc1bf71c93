/** The candidates of a plan file: rodes in its setting, rigs of their own, chains of equal strength. */
import type { Catalogue } from "../gear/index.ts";
import { InputError, nth, parseQuantity, quoted } from "../quantity/index.ts";
import { RIG_FORMAT, type Rig, readRig, rigFrom } from "../rode/index.ts";
import { equalChains } from "./equal-chains.ts";
import type { Candidate } from "./plan.ts";
import type { PlanFiles } from "./plan-files.ts";
import type { PlanFields } from "./plan-shape.ts";
import { above, notBelow } from "./plan-value.ts";
import { ropeOf } from "./rope-choice.ts";
import type { Snubber } from "./snubber.ts";

export function readCandidates(fields: PlanFields, files: PlanFiles, catalogue: Catalogue, place: string): Candidate[] {
  return (fields.candidates ?? []).map((given, i) => {
    const at = `${place}: candidates${nth(i)}`;
    const { name, rode, rig, price, snubber } = given;
    if ((rode === undefined) === (rig === undefined)) {
      const what = rode === undefined ? "neither rode nor rig" : "both rode and rig";
      throw new InputError(at, what, "one of the two is expected");
    }
    const read =
      rig === undefined ? rigWith(fields, name, rode!, catalogue, at) : rigOf(rig, files, catalogue, `${at}.rig`);
    return {
      name: name ?? (rig === undefined ? read.rode.map((part) => part.name).join(", ") : read.name),
      rig: read,
      ends: snubber?.ends ?? "spliced",
      ...(price === undefined ? {} : { price }),
      ...(snubber === undefined ? {} : { snubber: readSnubber(snubber, catalogue, `${at}.snubber`) }),
    };
  });
}

/** A rode of the plan's own in the plan's setting. */
function rigWith(
  fields: PlanFields,
  name: string | undefined,
  rode: readonly unknown[],
  catalogue: Catalogue,
  place: string,
): Rig {
  if (fields.setting === undefined)
    throw new InputError(
      `${place}.rode`,
      "a rode without a setting",
      "the plan's setting is expected, or a rig in place of the rode",
    );
  const { setting, uncertainty } = fields;
  return rigFrom(
    { format: RIG_FORMAT, name: name ?? "rode", setting, rode, ...(uncertainty === undefined ? {} : { uncertainty }) },
    place,
    catalogue,
  );
}

function rigOf(given: string | Record<string, unknown>, files: PlanFiles, catalogue: Catalogue, place: string): Rig {
  if (typeof given !== "string") return rigFrom(given, place, catalogue);
  const file = files[given];
  if (file === undefined) throw new InputError(place, quoted(given), "the path of a readable rig file is expected");
  return readRig(file.text, file.place, catalogue);
}

function readSnubber(
  given: NonNullable<NonNullable<PlanFields["candidates"]>[number]["snubber"]>,
  catalogue: Catalogue,
  place: string,
): Snubber {
  const { fibre = "polyamide", lay = "three-strand", diameter, length, slack, beam, heading, within } = given;
  if (heading !== undefined && beam === undefined)
    throw new InputError(`${place}.heading`, quoted(heading), "a beam is expected with it");
  const turned = heading === undefined ? 0 : parseQuantity(heading, "angle", `${place}.heading`);
  if (!(Math.abs(turned) < Math.PI / 2))
    throw new InputError(`${place}.heading`, quoted(heading), "an angle within 90 deg either side is expected");
  return {
    rope: ropeOf({ fibre, lay, diameter: above(diameter, "length", `${place}.diameter`) }, catalogue, place),
    length: above(length, "length", `${place}.length`),
    hooked: within === true ? "within" : "veered",
    ...(slack === undefined ? {} : { slack: notBelow(slack, "length", `${place}.slack`) }),
    ...(beam === undefined ? {} : { bridle: { beam: above(beam, "length", `${place}.beam`), heading: turned } }),
  };
}

export function readChains(fields: PlanFields, catalogue: Catalogue, place: string): Candidate[] {
  const given = fields.chains;
  if (given === undefined) return [];
  const at = `${place}: chains`;
  const length = above(given.length, "length", `${at}.length`);
  return equalChains(given, catalogue, at).map((row): Candidate => {
    const part = {
      chain: {
        grade: row.grade,
        size: row.size,
        ...(row.standard === undefined ? {} : { standard: row.standard }),
        length,
      },
    };
    return { name: row.name, rig: rigWith(fields, row.name, [part], catalogue, at), ends: "spliced" };
  });
}
