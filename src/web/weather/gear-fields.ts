/** Candidates as fields of an address, one a field: `c1=bench`, `c2=bench+snubber`, others with their rig written out. */
import { rigFields, rigOfFields } from "../rig/address.ts";
import type { Fields } from "../state/address.ts";
import { parseSearch } from "../state/address.ts";
import { short, within } from "./boat-fields.ts";
import {
  type GearAsked,
  type GearCandidate,
  type GearLimits,
  MOST_CANDIDATES,
  type OwnSnubber,
  usualGear,
} from "./gear.ts";

const DEG = 180 / Math.PI;
const [BENCH, SNUBBED] = ["bench", "bench snubbed"];
const factors = { workingLoad: 100, ropeShare: 100, anchorAngle: DEG, peak: 1, weight: 1 } as const;
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
  const legs = bridle === null ? [] : [short(bridle.beam), short(bridle.heading * DEG)];
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

export function gearOf(fields: Fields): GearAsked {
  if (fields.c1 === undefined) return usualGear;
  const candidates: GearCandidate[] = [];
  for (let i = 1; i <= MOST_CANDIDATES; i++) {
    const one = candidateOf(fields[`c${i}`]);
    if (one !== null) candidates.push(one);
  }
  const limits: Record<string, number> = {};
  for (const one of (fields["c-limits"] ?? "").split("*")) {
    const [name, text] = one.split(" ");
    const known = limitNames.find((each) => each === name);
    const value = within(text, 1e-9, 1e9);
    if (known !== undefined && value !== null) limits[known] = value / factors[known];
  }
  return { candidates, limits };
}

function candidateOf(text: string | undefined): GearCandidate | null {
  if (text === undefined || text === "none") return null;
  const bench = { name: "", rig: null, ownSetting: false, price: null, snubber: null };
  if (text === BENCH) return bench;
  if (text === SNUBBED) return { ...bench, snubber: "chosen" };
  const fields = parseSearch(text);
  const ownSetting = fields.in !== undefined;
  const rig = fields.rode === undefined ? null : rigOfFields(ownSetting ? fields : { ...fields, in: "air", rise: "1" });
  if (fields.rode !== undefined && rig === null) return null;
  return {
    name: (fields.as ?? "").slice(0, 200),
    rig,
    ownSetting,
    price: within(fields.price, 0, 1e12),
    snubber: fields.snubber === "chosen" ? "chosen" : snubberOf(fields.snubber),
  };
}

function snubberOf(text: string | undefined): OwnSnubber | null {
  const [fibre = "", lay = "", length, diameter, ends, slack, taken, beam, heading] = (text ?? "").split("*");
  const [long, thick] = [within(length, 0.01, 1000), within(diameter, 1, 200)];
  if (fibre === "" || lay === "" || long === null || thick === null) return null;
  const wide = within(beam, 0.05, 100);
  return {
    fibre,
    lay,
    length: long,
    diameter: thick / 1000,
    ends: ends === "knotted" ? "knotted" : "spliced",
    slack: within(slack, 0, 1000) ?? 0,
    within: taken === "within",
    bridle: wide === null ? null : { beam: wide, heading: (within(heading, -80, 80) ?? 0) / DEG },
  };
}
