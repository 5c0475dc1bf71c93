/** What a column's title says: a name, the unit written with it, and the kind of column both speak for. */
import type { GuessCause } from "./cause.ts";
import type { ChannelKind } from "./channel.ts";
import { CHANNELS } from "./channel.ts";
import { shown } from "./troubles.ts";
import { dimensionsOf, isVagueTon, readUnit } from "./unit-name.ts";

export interface Title {
  readonly text: string;
  readonly name: string;
  /** As written; "" where none is. */
  readonly unit: string;
}

const TIME_UNITS =
  /^(s|secs?|seconds?|ms|msec|milliseconds?|millis|µs|us|min|mins|minutes?|h|hr|hrs|hours?|hh:mm(:ss)?(\.[a-z0-9]+)?|utc|gmt|local|unix|[dmy]{1,4}[-/. ][dmy]{1,4}[-/. ][dmy]{1,4}.*)$/i;

/** Parts "Load (lbf)", "F [kN]", "Load/kN", "load_kN", "Load, kN", "Load kN" into name and unit. */
export function readTitle(text: string, unitsCell = ""): Title {
  const clean = text.replace(/\s+/g, " ").trim();
  const bracket = /^(.*?)\s*[([{<]\s*([^()[\]{}<>]*?)\s*[)\]}>]\s*:?$/.exec(clean);
  if (bracket) {
    // "Heading (true)": of which kind it is, not in which unit.
    if (/^true$/i.test(bracket[2]!)) return { text: clean, name: `${bracket[1]!.trim()} true`, unit: "" };
    // "Load, N (serial 123)": what the bracket holds is no unit, and one stands before it.
    const before = isUnit(bracket[2]!) ? null : readTitle(bracket[1]!);
    return before !== null && before.unit !== ""
      ? { ...before, text: clean }
      : { text: clean, name: bracket[1]!.trim(), unit: bracket[2]! };
  }
  const own = unitsCell.replace(/[[\]()]/g, "").trim();
  if (own !== "" && own !== "-") return { text: clean, name: clean, unit: own };
  const tail = /^(.+?)\s*(?:\/|,|_|\s-\s|:|\s| in )\s*([^\s,_:]{1,12})$/i.exec(clean);
  if (tail && isUnit(tail[2]!)) return { text: clean, name: tail[1]!.replace(/ in$/, ""), unit: tail[2]! };
  // A sign for pounds that stands alone is one for numbers of rows.
  if (isUnit(clean) && !/^[a-z#]$/i.test(clean)) return { text: clean, name: "", unit: clean };
  return { text: clean, name: clean, unit: "" };
}

/** True for a unit of any quantity or time a column may have. */
export function isUnit(text: string): boolean {
  return dimensionsOf(text).length > 0 || isVagueTon(text) || TIME_UNITS.test(text);
}

export type Speaks =
  | { readonly for: "time" | "date" | "count" | "unit"; readonly confidence: number; readonly why: GuessCause }
  | { readonly for: ChannelKind; readonly confidence: number; readonly why: GuessCause }
  | { readonly for: "other"; readonly why: GuessCause };

// Words in the languages load cells are sold in. The first that fits decides, so the particular stands before the general.
const RULES: readonly (readonly [RegExp, Exclude<Speaks["for"], "other">, number])[] = [
  [/^(units?|uo ?m|einheit|unit[eé]|unidad|eenheid)$/, "unit", 1],
  [/^(true wind (speed|strength)|tws)\b/, "trueWindSpeed", 1],
  [/^(true wind angle|twa)\b/, "trueWindAngle", 1],
  [/^(true wind dir\w*|twd|wind ?dir\w*|windrichtung)\b/, "windDirection", 0.9],
  [/^((apparent |rel\w* )?wind ?(speed|strength)|aws|windgeschwindigkeit)\b/, "windSpeed", 0.9],
  [/^((apparent |rel\w* )?wind ?angle|awa)\b/, "windAngle", 0.9],
  [/^(app\w* |rel\w* )?wind$/, "windSpeed", 0.7],
  [/^lat(itude)?\b|^breite$/, "latitude", 1],
  [/^(lon|lng|long)(gitude)?\b|^l[aä]nge ?grad$/, "longitude", 1],
  [/^(sog|speed ?over ?ground|ground ?speed|speed)\b/, "speed", 0.9],
  [/^(cog|course( over ground)?|track)\b/, "course", 0.9],
  [/^(heading|hdg|kurs|cap) ?\(?(true|t)\)?$|^(true heading|hdt)\b/, "headingTrue", 0.9],
  [/^(heading|hdg|hdm|compass|mag\w* heading)\b/, "heading", 0.8],
  [
    /(?<!\p{L})(depth|dbt|dpt|sounder|tiefe|wassertiefe|profondeur|profundidad|profondit[aà]|diepte)(?!\p{L})/u,
    "depth",
    0.9,
  ],
  [/^x value$/, "time", 0.8],
  [/^(elapsed|run ?time|laufzeit|duration)\b/, "time", 0.9],
  [/^(date|datum|fecha|data|dato)$/, "date", 0.9],
  [
    /^(date ?(and|&|\/|\+)? ?time|time ?stamp|zeitstempel|horodatage|fecha ?(y|\/)? ?hora|datum ?(\/|und)? ?(uhr)?zeit)\b/,
    "time",
    1,
  ],
  [
    /^(time|zeit|uhrzeit|heure|temps|hora|tiempo|tempo|ora|tijd|tid|t|utc|gmt|epoch|unix|seconds?|clock|local)\b/,
    "time",
    0.9,
  ],
  [
    /^(#|no\.?|nr\.?|num(ber)?|index|idx|samples?|records?|row|count(er)?|scan|point|seq(uence)?|id|messung|lfd\.? ?nr\.?)$/,
    "count",
    0.7,
  ],
  [
    /\b(force|load|tension|pull|kraft|zugkraft|zug|last|effort|traction|fuerza|carga|tensi[oó]n|forza|carico|kracht|trekkracht|load ?cell|dynamometer)\b/,
    "load",
    0.95,
  ],
  [/^f\d?$/, "load", 0.8],
  [/(?<!\p{L})(angle|inclin\w*|tilt|pitch|winkel|neigung|[aá]ngulo)(?!\p{L})/u, "angle", 0.7],
  [/\b(movement|moved|displacement|travel|stroke|weg|d[eé]placement|desplazamiento)\b/, "movement", 0.8],
];

const BESIDE =
  /\b(peak|max(imum)?|min(imum)?|hold|tare|limit|target|set ?point|set (load|force|tension|pull)|soll\w*|consigne|nominal|planned|goal|demand|reference|threshold|trigger|rated|capacity|range|offset|zero|std(ev| ?dev)?|alarm|batt(ery)?|temp(erature)?|status|state|volts?|voltage|raw|adc|rssi|flag|error|crc|checksum|rate|gain|mv)\b/;

/** The kind of column a title and its unit speak for, with the reason. */
export function speaksFor(title: Title): Speaks {
  const name = plainName(title.name);
  const unit = title.unit;
  if (BESIDE.test(name)) return { for: "other", why: { kind: "notOfItsOwn", title: shown(title.text) } };
  for (const [pattern, kind, confidence] of RULES) {
    if (!pattern.test(name)) continue;
    const why = { kind: "titled", title: shown(title.text) };
    if (kind in CHANNELS && unit !== "" && readUnit(unit, kind as ChannelKind) === null && !isVagueTon(unit)) {
      // A title and a unit that contradict each other: the unit is the better witness of what was measured.
      continue;
    }
    return { for: kind, confidence, why } as Speaks;
  }
  const dimensions = unit === "" ? [] : dimensionsOf(unit);
  // Lower case kn alone could be knots or kilonewtons: nothing is said by it.
  if (dimensions.length === 1 && dimensions[0] === "force")
    return { for: "load", confidence: 0.8, why: { kind: "unitOfForce", unit } };
  if (/^kN$/.test(unit)) return { for: "load", confidence: 0.8, why: { kind: "unitOfForce", unit: "kN" } };
  if (TIME_UNITS.test(unit) && name === "") return { for: "time", confidence: 0.7, why: { kind: "unitOfTime", unit } };
  if (
    /^(value|values|reading|readings|measurement|messwert|wert|valeur|valor|ch(annel)? ?\d*|data|result)$/.test(name)
  ) {
    return unit === "" || readUnit(unit, "load") !== null
      ? { for: "load", confidence: 0.6, why: { kind: "titled", title: shown(title.text) } }
      : { for: "other", why: { kind: "titledInUnit", title: shown(title.text), unit: shown(unit) } };
  }
  return {
    for: "other",
    why: title.text === "" ? { kind: "noTitle" } : { kind: "unknownTitle", title: shown(title.text) },
  };
}

function plainName(name: string): string {
  return name
    .replace(/([a-z])([A-Z])/g, "$1 $2")
    .replace(/_/g, " ")
    .replace(/\s*\d+$/, "")
    .replace(/\s+/g, " ")
    .trim()
    .toLowerCase();
}
