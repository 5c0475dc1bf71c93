/**
 * Units as loggers spell them in headers and cells, by what the column is: `kn` over a wind is knots, over a pull it
 * is kilonewtons; `kg` and `lb` over a load are the weights of those masses.
 */
import { fromUnit } from "../quantity/index.ts";
import type { UnitDoubt } from "./cause.ts";
import type { ChannelKind } from "./channel.ts";
import { CHANNELS } from "./channel.ts";

/** A spelled unit understood: what it is called here, and its size in the channel's own unit. */
export interface UnitReading {
  readonly unit: string;
  /** Value in the channel's unit = value written · scale. */
  readonly scale: number;
  /** What of the spelling is doubted. */
  readonly doubt?: UnitDoubt;
}

const FORCE: Record<string, string> = {
  n: "N",
  newton: "N",
  newtons: "N",
  dan: "daN",
  kn: "kN",
  kilonewton: "kN",
  kilonewtons: "kN",
  lbf: "lbf",
  "lb-f": "lbf",
  lbsf: "lbf",
  lb: "lbf",
  lbs: "lbf",
  "#": "lbf",
  pound: "lbf",
  pounds: "lbf",
  "pound-force": "lbf",
  klbf: "kip",
  klb: "kip",
  klbs: "kip",
  kip: "kip",
  kips: "kip",
  kgf: "kgf",
  "kg-f": "kgf",
  kp: "kgf",
  kg: "kgf",
  kgs: "kgf",
  kilo: "kgf",
  kilos: "kgf",
  tf: "tf",
  t: "tf",
  te: "tf",
  tonne: "tf",
  tonnes: "tf",
  "metric ton": "tf",
};
const LENGTH: Record<string, string> = {
  m: "m",
  metre: "m",
  metres: "m",
  meter: "m",
  meters: "m",
  cm: "cm",
  mm: "mm",
  ft: "ft",
  feet: "ft",
  foot: "ft",
  "'": "ft",
  in: "in",
  inch: "in",
  inches: "in",
  '"': "in",
  fathom: "fathom",
  fathoms: "fathom",
  fm: "fathom",
};
const ANGLE: Record<string, string> = {
  deg: "deg",
  degs: "deg",
  degree: "deg",
  degrees: "deg",
  "°": "deg",
  º: "deg",
  rad: "rad",
  radian: "rad",
  radians: "rad",
  mrad: "mrad",
  "°t": "deg",
  "°m": "deg",
  degt: "deg",
  degm: "deg",
};
const SPEED: Record<string, string> = {
  kn: "kn",
  kt: "kn",
  kts: "kn",
  knot: "kn",
  knots: "kn",
  kns: "kn",
  "m/s": "m/s",
  ms: "m/s",
  mps: "m/s",
  "m/sec": "m/s",
  "ms-1": "m/s",
  mph: "mph",
  "mi/h": "mph",
  "km/h": "km/h",
  kmh: "km/h",
  kph: "km/h",
  "ft/s": "ft/s",
  fps: "ft/s",
};
// The hemisphere a title names stands where a unit does.
const SIDES = [
  "n",
  "s",
  "e",
  "w",
  "°n",
  "°s",
  "°e",
  "°w",
  "deg n",
  "deg s",
  "deg e",
  "deg w",
  "dd",
  "ddmm.mmm",
  "ddmm.mm",
];
const PLACE: Record<string, string> = { ...ANGLE, ...Object.fromEntries(SIDES.map((side) => [side, "deg"])) };

const BY_DIMENSION: Record<string, Record<string, string>> = {
  force: FORCE,
  length: LENGTH,
  angle: ANGLE,
  speed: SPEED,
  place: PLACE,
};

/** The unit a spelling means over a channel of that kind, or null. */
export function readUnit(spelled: string, kind: ChannelKind): UnitReading | null {
  const { dimension } = CHANNELS[kind];
  const unit = BY_DIMENSION[dimension]?.[plain(spelled)];
  if (unit === undefined) return null;
  const doubt = dimension === "force" ? doubtOf(plain(spelled), unit) : undefined;
  return { unit, scale: scaleOf(unit, dimension), ...(doubt === undefined ? {} : { doubt }) };
}

function doubtOf(spelled: string, unit: string): UnitDoubt | undefined {
  if (/^(kg|kgs|kilos?)$/.test(spelled)) return "kg";
  if (/^(lb|lbs|#|pounds?)$/.test(spelled)) return "lb";
  return unit === "tf" ? "t" : undefined;
}

/** What kinds of column a bare unit speaks for. */
export function dimensionsOf(spelled: string): string[] {
  return Object.keys(BY_DIMENSION).filter((d) => d !== "place" && BY_DIMENSION[d]![plain(spelled)] !== undefined);
}

/** A ton that may be of three sizes. */
export function isVagueTon(spelled: string): boolean {
  return /^(ton|tons)$/.test(plain(spelled));
}

/** Spellings a channel of that kind takes, for an error line. */
export function unitsFor(kind: ChannelKind): string {
  return [...new Set(Object.values(BY_DIMENSION[CHANNELS[kind].dimension] ?? {}))].join(", ");
}

function scaleOf(unit: string, dimension: string): number {
  if (dimension === "place") return unit === "deg" ? 1 : (unit === "rad" ? 180 : 0.18) / Math.PI;
  return fromUnit(1, unit, dimension as Parameters<typeof fromUnit>[2], "unit");
}

function plain(spelled: string): string {
  return spelled.trim().replace(/\.$/, "").replace(/\s+/g, " ").toLowerCase();
}
