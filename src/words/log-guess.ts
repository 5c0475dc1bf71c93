/** What a log is taken for, why, and what it leaves open, as clauses: no full stop. */
import type {
  ChannelKind,
  ColumnCause,
  GrantedCause,
  GuessCause,
  LogGuess,
  OpenCause,
  Question,
  QuestionInWords,
  TableGuess,
} from "../log/index.ts";

const FIRST = { ymd: "year", dmy: "day", mdy: "month" } as const;

const CHANNEL_WORDS: Readonly<Record<ChannelKind, string>> = {
  load: "load",
  angle: "angle above the horizontal",
  movement: "movement",
  latitude: "latitude",
  longitude: "longitude",
  speed: "speed over ground",
  course: "course over ground, true",
  heading: "heading, magnetic",
  headingTrue: "heading, true",
  windSpeed: "apparent wind speed",
  windAngle: "apparent wind angle from the bow, clockwise",
  trueWindSpeed: "true wind speed",
  trueWindAngle: "true wind angle from the bow, clockwise",
  windDirection: "direction the true wind comes from",
  depth: "water depth below the surface",
  depthBelowTransducer: "water depth below the transducer",
};

const DOUBTED = {
  lb: "pounds over a load are pounds-force",
  kg: "kilograms over a load are the weight of those kilograms",
  t: "tonnes over a load are the weight of those metric tonnes",
} as const;

/** Causes that are one clause whatever the log holds. */
const PLAIN = {
  told: "told",
  byteOrderMark: "byte order mark",
  everySecondZero: "every second byte is zero",
  notUtf8: "bytes that are not UTF-8",
  validUtf8: "all bytes are valid UTF-8",
  noDecimals: "no number with decimals among the first rows",
  pointsAmongCommas: "points in numbers of a file parted by commas",
  yearFirst: "dates with the year first",
  onlyYearFirst: "dates only with the year first",
  eightDigits: "dates in eight digits",
  monthsInLetters: "months in letters",
  pointsDayFirst: "dates with points are written day first",
  writtenDayFirst: "the file is written as where the day stands first",
  timeOfDay: "hours, minutes and seconds of a day",
  pastTimeOfDay: "minutes and seconds past those of a day",
  secondsWithoutUnit: "a number without a unit is taken as seconds",
  secondTime: "a second time column",
  noTitle: "no title",
  unitTold: "unit told",
  decimalDegrees: "decimal degrees",
  degreesWithoutUnit: "no unit stated: degrees, as instruments show them",
  hemisphere: "the hemisphere of its neighbour",
  holdsUnit: "holds the unit of the load",
  empty: "empty",
  holdsText: "holds text",
  leftAsTold: "told to be left",
  anotherLoadTold: "another load was told",
  onlyNumbers: "the one column of numbers beside the time",
  stampedByLogger: "the logger stamped its lines",
  dateAndTime: "RMC or ZDA sentences carry date and time",
  timeOfDayOnly: "sentences carry the time of day and no date",
  noTime: "no sentence carries a time",
} as const satisfies Partial<Record<GuessCause["kind"], string>>;

type PlainCause = Extract<GuessCause, { kind: keyof typeof PLAIN }>;

const isPlain = (why: GuessCause): why is PlainCause => Object.hasOwn(PLAIN, why.kind);

/** Why something was guessed of a log. */
export function guessCauseWords(why: GuessCause): string {
  if (isPlain(why)) return PLAIN[why.kind];
  switch (why.kind) {
    case "rowsOfWidth":
      return `${why.rows} of ${why.lines} lines part into ${why.width} ${why.width === 1 ? "cell" : "cells"}`;
    case "cellProvesMark":
      return `cells such as ${why.cell}`;
    case "bothMarks":
      return `both ${why.point} and ${why.comma} occur`;
    case "tooLargeForThousands":
      return `in a unit so large ${why.cell} would be no load of a rode if it were thousands`;
    case "markBeforeThree":
      return `${why.mark === "," ? "a comma" : "a point"} before three digits may mark thousands or decimals, as in ${why.cell}${why.beside === null ? "" : ` (${why.beside} beside it speaks for thousands)`}`;
    case "noMonthPast12":
      return `no month is past 12, so the ${FIRST[why.order]} stands first in ${why.cell}`;
    case "titleTellsOrder":
      return `the title "${why.title}" says so`;
    case "midnightStepsADay":
      return `read with the ${FIRST[why.order]} first, midnight steps one day and no more`;
    case "severalOrders":
      return `${why.cell} may be read with the ${why.orders.map((order) => FIRST[order]).join(" or the ")} first`;
    case "startsAt":
      return `starts at ${why.cell}`;
    case "minutesOrHours":
      return `${why.cell} may be minutes and seconds, or the hours and minutes of a day (a guess: ${why.early ? "minutes and seconds, as it starts near zero" : "hours and minutes, as it does not start near zero"})`;
    case "sinceEpoch":
      return `${why.value} ${why.unit} since 1970 is a day of this century`;
    case "dayNumber":
      return `${why.value} is a spreadsheet's day number`;
    case "dayNumberOrSeconds":
      return `${why.value} may be a spreadsheet's day number or seconds (a guess: ${why.dated ? "a day number, by the title" : "seconds, as the title speaks of no day"})`;
    case "severalTimeUnits":
      return `${why.cell} and on by ${Number(why.step.toPrecision(3))} without a unit may be a time in several units (a guess: ${TIME_GUESSES[why.guess]})`;
    case "titled":
      return `titled "${why.title}"`;
    case "notOfItsOwn":
      return `"${why.title}" is not a reading of its own`;
    case "unknownTitle":
      return `nothing known by the title "${why.title}"`;
    case "titledInUnit":
      return `"${why.title}" in ${why.unit}`;
    case "unitOfForce":
      return `a unit of force, ${why.unit}`;
    case "unitOfTime":
      return `a unit of time, ${why.unit}`;
    case "unitInTitle":
      return `unit ${why.unit} in the title`;
    case "unitInCells":
      return `unit ${why.units.join(", ")} in the cells`;
    case "unitInColumn":
      return `unit in column ${why.column}`;
    case "unitAbove":
      return `"${why.line}" above the table`;
    case "doubtedUnit":
      return DOUBTED[why.of];
    case "place":
      return placeWords(why);
    case "withoutUnit":
      return `${CHANNEL_WORDS[why.channel]} without a unit; --map ${why.channel}=${why.column}:UNIT takes it`;
    case "sameLoadAs":
      return `the same load as ${JSON.stringify(why.other)}`;
    case "addedTo":
      return `added to ${JSON.stringify(why.other)}`;
  }
}

/** Why a column is taken for what it is. */
export function columnCauseWords(why: ColumnCause): string {
  if (why.kind === "both") return why.whys.map(guessCauseWords).join("; ");
  if (why.kind === "counted") return `${guessCauseWords(why.why)}, ${why.rate} a second`;
  return guessCauseWords(why);
}

const TIME_GUESSES = {
  seconds: "seconds, as they go on by one",
  milliseconds: "milliseconds, as they go on by so many",
  minutes: "minutes, by the step",
} as const;

const PLACES = {
  marked: "degrees with their marks or letters",
  degreesMinutes: "degrees and minutes in one number, as ddmm.mmm",
  decimal: "decimal degrees",
} as const;

function placeWords({ channel, form, sideColumn, sideInTitle }: Extract<GuessCause, { kind: "place" }>): string {
  const sides = channel === "latitude" ? "N or S" : "E or W";
  const beside = sideColumn === null ? "" : `, ${sides} in column ${sideColumn}`;
  return `${PLACES[form]}${beside}${sideInTitle === null ? "" : `, ${sideInTitle} in the title`}`;
}

/** Names shown of a list; all are counted. */
const someOf = (names: readonly string[]): string => names.slice(0, 4).join(", ");

/** What a log leaves open, as a question. */
function openCauseWords(open: OpenCause): string {
  switch (open.kind) {
    case "decimalMark":
      return `${guessCauseWords(open.why)}: which mark parts the decimals?`;
    case "stampFormat":
      return `${guessCauseWords(open.why)}: which is it?`;
    case "cellsBesideTitles":
      return `rows have ${open.cells} cells and the header ${open.titles}: do commas mark decimals too?`;
    case "noTimes":
      return "no column of times was found: how many rows are there a second?";
    case "noReadings":
      return "no column of readings was found: which one holds the load, and in which unit?";
    case "noUnits":
      return "no column of readings states its unit";
    case "twoReceivers":
      return "two receivers of one name tell the place in turn, and nothing parts them: which is which?";
    case "severalZones":
      return `${open.zone} in ${open.cell} is the name of several zones: which is it?`;
    case "loadWithoutUnit":
      return `${open.title === null ? `column ${open.column}` : `"${open.title}"`} states no unit; which is the load in?`;
    case "vagueTon":
      return `"${open.title}": a ton may be 1000 kg, 2000 lb or 2240 lb; which unit is the load in?`;
    case "otherUnitAbove":
      return `"${open.title}" says ${open.unit} and "${open.line}" above it ${open.above}: which is the load in?`;
    case "otherUnitInCells":
      return `"${open.title}" says ${open.unit} and its cells ${open.inCells}: which is the load in?`;
    case "severalLoads":
      return `${open.columns.length} columns hold a load, ${open.columns.map((name) => `"${name}"`).join(", ")}: which is the load of the pull? (a guess: "${open.guess}", ${open.isSum ? "the sum of the others in the rows looked at" : "the first of them"})`;
    case "severalCells":
      return `${open.names.length} ${open.of} hold a load, ${someOf(open.names)}: which is the load of the pull? (a guess: ${open.names[0]}, the first met)`;
    case "severalSources":
      return `${open.of.slice(0, 3).join(", ")} ${open.of.length === 1 ? "comes" : "come"} from ${open.names.length} sources, ${someOf(open.names)}: which is to be read? (a guess: ${open.most}, with ${open.readings} readings in the beginning of the file)`;
    case "perhapsTheLoad":
      return `${someOf(open.paths)} may or may not be the load of the rode: which path holds it? (a guess: none, as no word of it speaks of an anchor or its rode)`;
    case "severalVessels":
      return `${open.vessels} vessels speak, and none is said to be the boat's own: which is it? (a guess: ${open.most}, of which ${open.quantities} quantities are told)`;
  }
}

/** What helps beside the options, or where there are none. */
function helpWords(open: OpenCause): readonly string[] {
  if (open.kind === "cellsBesideTitles") return ["write the file again with another delimiter or with quotes"];
  if (open.kind === "twoReceivers") return ["a log with one of them, or with the source before each sentence,"];
  return [];
}

/** A question with the options that answer it and what else helps. */
export function logQuestionWords({ about, question, answers }: Question): QuestionInWords {
  return { about, question: openCauseWords(question), answers: [...answers, ...helpWords(question)] };
}

/** What is taken for granted of a log. */
export function grantedWords(granted: GrantedCause): string {
  switch (granted.kind) {
    case "times":
      return `times: ${guessCauseWords(granted.why)}`;
    case "unit":
      return `${granted.from}: ${granted.taken === "degrees" ? "no unit stated: taken as degrees" : DOUBTED[granted.taken]}`;
    case "load":
      return `${granted.from} is taken for the load: ${guessCauseWords(granted.why)}`;
    case "sourcesLeftOut":
      return `sentences of ${granted.sources.join(", ")} are left out: another source was told`;
    case "otherVessels":
      return `${granted.others} of the first ${granted.deltas} deltas are of other vessels and left out`;
    case "notTheLoad":
      return `${someOf(granted.paths)}: not taken for the load of the rode`;
    case "gzipCutOff":
      return "the gzip file is cut off; what it holds is read";
    case "written":
      return granted.text;
  }
}

/** A guess with its causes in words. */
export type GuessInWords =
  | InWords<Exclude<LogGuess, TableGuess>>
  | (InWords<Omit<TableGuess, "columns" | "encoding" | "delimiter" | "decimal">> & {
      readonly columns: readonly InWords<TableGuess["columns"][number]>[];
      readonly encoding: InWords<TableGuess["encoding"]>;
      readonly delimiter: InWords<TableGuess["delimiter"]>;
      readonly decimal: InWords<TableGuess["decimal"]>;
    });

/** The same with its own causes in words. */
type InWords<T> = T extends unknown
  ? {
      readonly [K in keyof T]: K extends "why"
        ? string
        : K extends "questions"
          ? readonly QuestionInWords[]
          : K extends "remarks"
            ? readonly string[]
            : T[K];
    }
  : never;

/** A guess with its causes in words, its fields as they were and in their order. */
export function logGuessWords(guess: LogGuess): GuessInWords {
  switch (guess.kind) {
    case "table":
      return {
        ...guess,
        encoding: inWords(guess.encoding),
        delimiter: inWords(guess.delimiter),
        decimal: inWords(guess.decimal),
        columns: guess.columns.map(inWords),
        ...openInWords(guess),
      };
    case "nmea":
      return { ...inWords(guess), ...openInWords(guess) };
    case "signalk":
      return { ...guess, ...openInWords(guess) };
    default:
      return guess;
  }
}

const inWords = <T extends { readonly why: ColumnCause }>(one: T): Omit<T, "why"> & { readonly why: string } => ({
  ...one,
  why: columnCauseWords(one.why),
});

const openInWords = ({ questions, remarks }: Pick<TableGuess, "questions" | "remarks">) => ({
  questions: questions.map(logQuestionWords),
  remarks: remarks.map(grantedWords),
});
