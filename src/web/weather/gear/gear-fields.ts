/** Candidates as fields of an address, one a field: `c1=bench`, `c2=bench+snubber`, others with their rig written out. */
import { DEGREES } from "../../../quantity/index.ts";
import { readRigFields, rigFields } from "../../rig/address.ts";
import { parseSearch } from "../../state/address.ts";
import type { FieldReader, Fields } from "../../state/fields.ts";
import { short } from "../boat/boat-fields.ts";
import {
  type GearAsked,
  type GearCandidate,
  type GearLimits,
  MOST_CANDIDATES,
  type OwnSnubber,
  usualGear,
} from "./gear.ts";

const [BENCH, SNUBBED] = ["bench", "bench snubbed"];
const factors = { workingLoad: 100, strength: 100, ropeShare: 100, anchorAngle: DEGREES, peak: 1, weight: 1 } as const;
const limitNames = Object.keys(factors) as (keyof GearLimits)[];

export function gearFields({ candidates, limits }: GearAsked): Fields {
  return {
    ...Object.fromEntries(candidates.map((one, i) => [`c${i + 1}`, candidateText(one)])),
    ...(candidates.length === 0 ? { c1: "none" } : {}),
    "c-limits": limitNames
      .flatMap((name) => (limits[name] === undefined ? [] : [`${name} ${short(limits[name] * factors[name])}`]))
      .join("*"),
  };
}

function candidateText(one: GearCandidate): string {
  if (one.rig === null && one.price === null && one.name === "") {
    if (one.snubber === null) return BENCH;
    if (one.snubber === "chosen") return SNUBBED;
  }
  const fields = new URLSearchParams();
  if (one.name !== "") fields.set("as", one.name);
  if (one.price !== null) fields.set("price", short(one.price));
  if (one.snubber !== null) fields.set("snubber", one.snubber === "chosen" ? "chosen" : snubberText(one.snubber));
  if (one.rig !== null) {
    const { name = "", rode = "", ...others } = rigFields(one.rig);
    fields.set("name", name);
    fields.set("rode", rode);
    if (one.ownSetting) for (const [field, text] of Object.entries(others)) fields.set(field, text);
  }
  return fields.toString();
}

function snubberText({ fibre, lay, length, diameter, ends, slack, within: taken, bridle }: OwnSnubber): string {
  const legs = bridle === null ? [] : [short(bridle.beam), short(bridle.heading * DEGREES)];
  return [
    fibre,
    lay,
    short(length),
    short(1000 * diameter),
    ends,
    short(slack),
    taken ? "within" : "veered",
    ...legs,
  ].join("*");
}

export function readGearFields(fields: FieldReader): GearAsked {
  if (!fields.has("c1")) return usualGear;
  const candidates: GearCandidate[] = [];
  for (let i = 1; i <= MOST_CANDIDATES; i++) {
    const text = fields.text(`c${i}`);
    if (text !== undefined && text !== "none") candidates.push(candidateOf(fields, `c${i}`, text));
  }
  if (fields.has(`c${MOST_CANDIDATES + 1}`))
    fields.refuseAs(`c${MOST_CANDIDATES + 1}`, "one more", `at most ${MOST_CANDIDATES} rodes are expected`);
  const limits: Record<string, number> = {};
  for (const one of (fields.text("c-limits") ?? "").split("*")) {
    if (one === "") continue;
    const [name, text] = one.split(" ");
    const known = limitNames.find((each) => each === name);
    if (known === undefined) fields.refuse("c-limits", one, `one of ${limitNames.join(", ")} is expected`);
    else limits[known] = fields.within("c-limits", text, 1e-9, 1e9) / factors[known];
  }
  return { candidates, limits };
}

function candidateOf(outer: FieldReader, name: string, text: string): GearCandidate {
  const bench = { name: "", rig: null, ownSetting: false, price: null, snubber: null };
  if (text === BENCH) return bench;
  if (text === SNUBBED) return { ...bench, snubber: "chosen" };
  const given = parseSearch(text);
  const ownSetting = given.in !== undefined;
  const fields = outer.inside(`${name}, `, ownSetting ? given : { ...given, in: "air", rise: "1" });
  if (!["as", "price", "snubber", "rode"].some((field) => fields.has(field)))
    outer.refuse(name, text, "a rode, a snubber, a price or a name is expected");
  return {
    name: fields.nameOr("as", ""),
    rig: fields.has("rode") ? readRigFields(fields) : null,
    ownSetting,
    price: fields.numberOr("price", null, 0, 1e12),
    snubber: fields.text("snubber") === "chosen" ? "chosen" : fields.has("snubber") ? snubberOf(fields) : null,
  };
}

function snubberOf(fields: FieldReader): OwnSnubber {
  const [fibre = "", lay = "", length, diameter, ends, slack, taken, beam, heading] = (
    fields.text("snubber") ?? ""
  ).split("*");
  if (fibre === "" || lay === "") fields.refuse("snubber", fields.text("snubber"), "a fibre and a lay are expected");
  return {
    fibre,
    lay,
    length: fields.within("snubber", length, 0.01, 1000),
    diameter: fields.within("snubber", diameter, 1, 200) / 1000,
    ends: fields.wordOr("snubber", ["spliced", "knotted"], "spliced", ends),
    slack: fields.withinOr("snubber", slack, 0, 0, 1000),
    within: fields.wordOr("snubber", ["within", "veered"], "veered", taken) === "within",
    bridle:
      beam === undefined
        ? null
        : {
            beam: fields.within("snubber", beam, 0.05, 100),
            heading: fields.withinOr("snubber", heading, 0, -80, 80) / DEGREES,
          },
  };
}
