/** What the user says of a log file, in the words the server takes: `load=2:kN`, `--decimal comma` as `decimal: ","`. */
export interface Told {
  readonly columns?: readonly string[];
  readonly delimiter?: "," | ";" | "\t" | "|" | " ";
  readonly decimal?: "." | ",";
  readonly zone?: string;
  readonly start?: string;
  readonly rate?: number;
}

export interface ColumnGuess {
  readonly number: number;
  readonly title: string;
  readonly as: string;
  readonly unit: string;
  readonly confidence: number;
  readonly why: string;
  readonly examples: readonly string[];
}

export interface Question {
  readonly about: string;
  readonly question: string;
  readonly answers: readonly string[];
}

export interface Preview {
  readonly remembered: boolean;
  readonly size: number;
  readonly guess:
    | {
        readonly kind: "table";
        readonly delimiter: { readonly value: string; readonly why: string };
        readonly decimal: { readonly value: "." | ","; readonly why: string };
        readonly headerLine: number | null;
        readonly columns: readonly ColumnGuess[];
        readonly questions: readonly Question[];
        readonly plan: { readonly time: { readonly clock?: string } | null } | null;
      }
    | {
        readonly kind: "nmea";
        readonly times: string | null;
        readonly types: Readonly<Record<string, number>>;
        readonly why: string;
      }
    | { readonly kind: "signalk"; readonly paths: Readonly<Record<string, number>>; readonly timed: boolean }
    | { readonly kind: "gpx" | "webvtt" | "markTable" }
    | { readonly kind: "notATable"; readonly why: string };
}

/** Roles a column can be given, in the words of the reader (src/pull/log/channel.ts), each with its unit to be told. */
export const roles: readonly { readonly role: string; readonly says: string; readonly unit: string }[] = [
  { role: "time", says: "time", unit: "" },
  { role: "date", says: "date", unit: "" },
  { role: "load", says: "load", unit: "kN, N, kgf, lbf …" },
  { role: "angle", says: "angle above the horizontal", unit: "deg" },
  { role: "movement", says: "movement", unit: "m, mm, ft, in" },
  { role: "latitude", says: "latitude", unit: "deg" },
  { role: "longitude", says: "longitude", unit: "deg" },
  { role: "speed", says: "speed over ground", unit: "kn, m/s" },
  { role: "course", says: "course over ground", unit: "deg" },
  { role: "heading", says: "heading, magnetic", unit: "deg" },
  { role: "headingTrue", says: "heading, true", unit: "deg" },
  { role: "windSpeed", says: "apparent wind speed", unit: "kn, m/s" },
  { role: "windAngle", says: "apparent wind angle", unit: "deg" },
  { role: "trueWindSpeed", says: "true wind speed", unit: "kn, m/s" },
  { role: "trueWindAngle", says: "true wind angle", unit: "deg" },
  { role: "windDirection", says: "true wind direction", unit: "deg" },
  { role: "depth", says: "depth below the surface", unit: "m, ft" },
  { role: "depthBelowTransducer", says: "depth below the transducer", unit: "m, ft" },
  { role: "unit", says: "unit of each row", unit: "" },
  { role: "ignore", says: "not taken", unit: "" },
];

/** The role a guess means; a second load is `load-2`. */
export function roleOf(as: string): string {
  const plain = as.replace(/-\d+$/, "");
  return roles.some(({ role }) => role === plain) ? plain : "ignore";
}

/** The told columns with one of them told anew; a column is named by its number. */
export function withColumn(told: Told, number: number, role: string, unit: string): Told {
  const others = (told.columns ?? []).filter((text) => numberOf(text) !== number);
  const plain = unit.trim();
  return { ...told, columns: [...others, `${role}=${number}${plain === "" || role === "ignore" ? "" : `:${plain}`}`] };
}

function numberOf(text: string): number | null {
  const found = /=(\d+)(:|$)/.exec(text);
  return found === null ? null : Number(found[1]);
}

/** What an answer to a question tells, in the words of the command line; null: it is to be typed. */
export function withAnswer(told: Told, answer: string): Told | null {
  const map = /^--map (\w+)=(\d+)(?::([^:]+))?$/.exec(answer);
  if (map !== null && !/^(UNIT|FORMAT)$/.test(map[3] ?? ""))
    return withColumn(told, Number(map[2]), map[1]!, map[3] ?? "");
  const decimal = /^--decimal (point|comma)$/.exec(answer);
  if (decimal !== null) return { ...told, decimal: decimal[1] === "point" ? "." : "," };
  const delimiter = /^--delimiter '(.)'$/.exec(answer);
  if (delimiter !== null) return { ...told, delimiter: delimiter[1] as NonNullable<Told["delimiter"]> };
  const zone = /^--zone (\S+)$/.exec(answer);
  if (zone !== null && zone[1] !== "ZONE") return { ...told, zone: zone[1]! };
  return null;
}

/** An answer as people read it: `kN`, `comma`, `day first`. */
export function answerText(answer: string): string {
  const map = /^--map \w+=\d+:(.+)$/.exec(answer);
  if (map !== null) return map[1] === "dmy" ? "day first" : map[1] === "mdy" ? "month first" : map[1]!;
  return answer.replace(/^--\w+ /, "").replaceAll("'", "");
}

/** The one thing a question asks to be typed, when none of its answers can be taken as it is. */
export function typedBy(question: Question): "rate" | "zone" | "start" | null {
  const all = question.answers.join(" ");
  if (/--rate/.test(all)) return "rate";
  if (/--zone/.test(all)) return "zone";
  if (/--start/.test(all)) return "start";
  return null;
}
