import type { InferRequestType, InferResponseType } from "hono/client";
import type { logQuestionWords } from "../../../words/index.ts";
import type { book } from "../../api/client.ts";

type Previewing = (typeof book)["sent-logs"][":id"]["preview"]["$post"];
/** What the user says of a log file, in the words the server takes: `load=2:kN`, `--decimal comma` as `decimal: ","`. */
export type LogChoices = NonNullable<InferRequestType<Previewing>["json"]["told"]>;
export type Preview = InferResponseType<Previewing>["preview"];
export type Table = Extract<Preview["guess"], { kind: "table" }>;
export type ColumnGuess = Table["columns"][number];
/** A question in words. */
export type Question = ReturnType<typeof logQuestionWords>;

/** Roles a column can be given, in words as src/words/log-guess.ts has them, each with its unit to be told. */
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
export function withColumn(told: LogChoices, number: number, role: string, unit: string): LogChoices {
  const others = (told.columns ?? []).filter((text) => numberOf(text) !== number);
  const plain = unit.trim();
  return { ...told, columns: [...others, `${role}=${number}${plain === "" || role === "ignore" ? "" : `:${plain}`}`] };
}

function numberOf(text: string): number | null {
  const found = /=(\d+)(:|$)/.exec(text);
  return found === null ? null : Number(found[1]);
}

/** What an answer to a question tells, in the words of the command line; null: it is to be typed. */
export function withAnswer(told: LogChoices, answer: string): LogChoices | null {
  const map = /^--map (\w+)=(\d+)(?::([^:]+))?$/.exec(answer);
  if (map !== null && !/^(UNIT|FORMAT)$/.test(map[3] ?? ""))
    return withColumn(told, Number(map[2]), map[1]!, map[3] ?? "");
  const decimal = /^--decimal (point|comma)$/.exec(answer);
  if (decimal !== null) return { ...told, decimal: decimal[1] === "point" ? "." : "," };
  const delimiter = /^--delimiter '(.)'$/.exec(answer);
  if (delimiter !== null) return { ...told, delimiter: delimiter[1] as NonNullable<LogChoices["delimiter"]> };
  const said = /^--(loads|load-path|source|context) (?:'([^']*)'|(\S+))$/.exec(answer);
  if (said !== null) {
    const value = said[2] ?? said[3]!;
    switch (said[1]) {
      case "loads":
        return { ...told, loads: value === "sum" ? "sum" : "each" };
      case "load-path":
        return { ...told, loadPath: value };
      case "context":
        return { ...told, context: value };
      default:
        return { ...told, sources: [...(told.sources ?? []), value] };
    }
  }
  const zone = /^--zone (\S+)$/.exec(answer);
  if (zone !== null && zone[1] !== "ZONE") return { ...told, zone: zone[1]! };
  return null;
}

/** Formats of a time as people call them. */
const FORMATS: Readonly<Record<string, string>> = {
  dmy: "day first",
  mdy: "month first",
  ymd: "year first",
  "elapsed-s": "seconds",
  "elapsed-ms": "milliseconds",
  "elapsed-min": "minutes",
  "elapsed-h": "hours",
  "elapsed-clock": "minutes and seconds",
  clock: "hours and minutes of a day",
  excel: "a spreadsheet's days",
  count: "numbers of the rows",
};

/** An answer as people read it: `kN`, `comma`, `day first`, a column by its title. */
export function answerText(answer: string, columns: readonly Pick<ColumnGuess, "number" | "title">[] = []): string {
  const map = /^--map (\w+)=(\d+)(?::(.+))?$/.exec(answer);
  if (map !== null) {
    const [, role, number, as] = map;
    if (role !== "load") return FORMATS[as ?? ""] ?? as ?? `column ${number}`;
    const title = columns.find((column) => column.number === Number(number))?.title;
    return title === undefined || title === ""
      ? (as ?? `column ${number}`)
      : `${title}${as === undefined ? "" : `, in ${as}`}`;
  }
  if (answer === "--loads sum") return "all of them, added up";
  if (answer === "--loads each") return "each for itself";
  if (answer === "--load-path none") return "none of them";
  return answer.replace(/^--[\w-]+ /, "").replaceAll("'", "");
}

/** The one thing a question asks to be typed, when none of its answers can be taken as it is. */
export function typedBy(question: Question): "rate" | "zone" | "start" | null {
  const all = question.answers.join(" ");
  if (/--rate/.test(all)) return "rate";
  if (/--zone/.test(all)) return "zone";
  if (/--start/.test(all)) return "start";
  return null;
}
