/** Which columns of a table hold readings, of what kind and in which unit. */

import type { GrantedCause, GuessCause, OpenCause } from "./cause.ts";
import { lookOf } from "./cells.ts";
import { CHANNELS, type ChannelKind } from "./channel.ts";
import type { ColumnChoice, LogChoices } from "./choices.ts";
import { columnOf } from "./column-name.ts";
import type { DecimalMark, GroupingMark } from "./marks.ts";
import { arePlaces, guessPlace } from "./place-column.ts";
import type { ValueColumn } from "./plan.ts";
import type { PreambleHints } from "./preamble.ts";
import { askWhichLoad, loadsOf, repeatsOf } from "./several-loads.ts";
import type { Question } from "./table-guess.ts";
import type { Found, TimeChoice } from "./time-column.ts";
import { speaksFor, type Title } from "./title.ts";
import { shown } from "./troubles.ts";
import { isVagueTon, readUnit } from "./unit-name.ts";

interface Chosen {
  readonly column: number;
  readonly kind: ChannelKind;
  readonly confidence: number;
  readonly why: GuessCause;
  readonly toldUnit: string | undefined;
}

/** Chooses the columns of readings and their units; asks for a load's unit where nothing states it. */
export function chooseColumns(
  rows: readonly (readonly string[])[],
  titles: readonly Title[],
  time: TimeChoice,
  file: {
    hints: PreambleHints;
    told: LogChoices;
    headed: boolean;
    decimal: DecimalMark;
    grouping: GroupingMark;
  },
  questions: Question[],
  remarks: GrantedCause[],
): { values: ValueColumn[]; addends: ValueColumn[]; columns: Map<number, Found> } {
  const columns = new Map<number, Found>();
  const chosen: Chosen[] = [];
  // The first word on a column holds: what is told now stands before what is remembered.
  const told = new Map<number, ColumnChoice>();
  for (const choice of file.told.columns ?? []) {
    const column = columnOf(choice.column, titles);
    if (!told.has(column)) told.set(column, choice);
  }
  const free: number[] = [];
  // One load that is told leaves the others be.
  const loadTold = [...told.values()].some((choice) => choice.role === "load");
  let unitColumn = -1;
  titles.forEach((title, column) => {
    if (time.columns.get(column)?.as === "time" || time.columns.get(column)?.as === "date") return;
    const choice = told.get(column);
    if (choice && choice.role !== "time" && choice.role !== "date") {
      if (choice.role === "ignore") columns.set(column, notTaken({ kind: "leftAsTold" }, 1));
      else if (choice.role === "unit") unitColumn = column;
      else chosen.push({ column, kind: choice.role, confidence: 1, why: { kind: "told" }, toldUnit: choice.as });
      return;
    }
    const cells = rows.map((row) => row[column] ?? "").filter((cell) => cell !== "");
    const numeric = cells.filter((cell) => lookOf(cell) === "number").length;
    const speaks = speaksFor(title);
    if (speaks.for === "unit" || (numeric === 0 && holdsUnits(column, rows))) {
      unitColumn = column;
      return;
    }
    const isPlace = speaks.for === "latitude" || speaks.for === "longitude";
    if (isPlace && cells.length > 0 && (numeric >= cells.length * 0.5 || arePlaces(speaks.for, cells, file.decimal))) {
      chosen.push({ column, kind: speaks.for, confidence: speaks.confidence, why: speaks.why, toldUnit: undefined });
      return;
    }
    if (numeric < cells.length * 0.5 || cells.length === 0)
      columns.set(column, notTaken({ kind: cells.length === 0 ? "empty" : "holdsText" }, 0.9));
    else if (speaks.for === "load" && loadTold) columns.set(column, notTaken({ kind: "anotherLoadTold" }, 0.9));
    else if (speaks.for in CHANNELS)
      chosen.push({
        column,
        kind: speaks.for as ChannelKind,
        confidence: speaks.for === "load" ? speaks.confidence : (speaks as { confidence: number }).confidence,
        why: speaks.why,
        toldUnit: undefined,
      });
    else {
      if (speaks.for === "other" && (title.text === "" || speaks.why.kind === "unknownTitle")) free.push(column);
      columns.set(column, notTaken(speaks.why, 0.7));
    }
  });
  // One column of numbers nobody knows beside the time: it is what the log was made for.
  if (chosen.length === 0 && free.length === 1) {
    chosen.push({
      column: free[0]!,
      kind: "load",
      confidence: file.headed ? 0.5 : 0.6,
      why: { kind: "onlyNumbers" },
      toldUnit: undefined,
    });
  }
  if (unitColumn >= 0) columns.set(unitColumn, { as: "unit", unit: "", confidence: 0.9, why: { kind: "holdsUnit" } });

  const values: ValueColumn[] = [];
  let askedUnit = false;
  const seen = new Map<ChannelKind, number>();
  for (const one of chosen) {
    const found = unitOf(one, titles[one.column]!, rows, file.hints, unitColumn);
    if (found.kind === "ask") {
      if (one.kind !== "load") {
        columns.set(one.column, notTaken({ kind: "withoutUnit", channel: one.kind, column: one.column + 1 }, 0.6));
        continue;
      }
      columns.set(one.column, { as: "load", unit: "?", confidence: 0.5, why: one.why });
      askedUnit = true;
      questions.push({
        about: "unit",
        question: found.question,
        answers: ["kN", "lbf", "kgf"].map((unit) => `--map load=${one.column + 1}:${unit}`),
      });
      continue;
    }
    const count = (seen.get(one.kind) ?? 0) + 1;
    seen.set(one.kind, count);
    const name = count === 1 ? one.kind : `${one.kind}-${count}`;
    columns.set(one.column, {
      as: name,
      unit: found.unit,
      confidence: Math.min(one.confidence, found.confidence),
      why: { kind: "both", whys: [one.why, ...found.whys] },
    });
    const from = shown(titles[one.column]!.text) || `column ${one.column + 1}`;
    const place =
      one.kind === "latitude" || one.kind === "longitude" ? guessPlace(one.kind, one.column, rows, titles) : null;
    if (place !== null && place.form !== null)
      columns.set(one.column, {
        as: name,
        unit: "deg",
        confidence: one.confidence,
        why: { kind: "both", whys: [one.why, place.why] },
      });
    if (place !== null && place.form !== null && place.form.side >= 0)
      columns.set(place.form.side, {
        as: "not taken",
        unit: "",
        confidence: 1,
        why: { kind: "hemisphere" },
      });
    values.push({
      column: one.column,
      channel: { name, kind: one.kind, from, fromUnit: found.unit },
      scale: found.scale,
      unitColumn: found.column,
      ...(place?.form == null ? {} : { place: place.form }),
    });
    if (found.taken !== undefined) remarks.push({ kind: "unit", from, taken: found.taken });
    else if (one.kind === "load" && one.confidence < 0.6) remarks.push({ kind: "load", from, why: one.why });
  }
  const several = severalLoads(values, rows, { ...file, loadTold, askedUnit }, questions, columns);
  if (chosen.length === 0) {
    questions.push({
      about: "load",
      question: { kind: "noReadings" },
      answers: ["--map load=COLUMN:UNIT"],
    });
  } else if (values.length === 0 && questions.length === 0) {
    questions.push({
      about: "unit",
      question: { kind: "noUnits" },
      answers: chosen.map((one) => `--map ${one.kind}=${one.column + 1}:UNIT`),
    });
  }
  return { ...several, columns };
}

/** Of several loads those that are meant: repeats left out, the sum or each as told, else asked. */
function severalLoads(
  values: ValueColumn[],
  rows: readonly (readonly string[])[],
  file: {
    told: LogChoices;
    decimal: DecimalMark;
    grouping: GroupingMark;
    loadTold: boolean;
    askedUnit: boolean;
  },
  questions: Question[],
  columns: Map<number, Found>,
): { values: ValueColumn[]; addends: ValueColumn[] } {
  const all = loadsOf(values, rows, file.decimal.charCodeAt(0), file.grouping === "" ? 0 : file.grouping.charCodeAt(0));
  if (all.length < 2) return { values, addends: [] };
  const repeats = file.loadTold || file.told.loads !== undefined ? new Map<ValueColumn, ValueColumn>() : repeatsOf(all);
  for (const [value, of] of repeats)
    columns.set(value.column, notTaken({ kind: "sameLoadAs", other: shown(of.channel.from) }, 0.9));
  const loads = all.filter(({ value }) => !repeats.has(value));
  const kept = renamed(values.filter((value) => !repeats.has(value)));
  if (loads.length < 2) return { values: kept, addends: [] };
  if (file.told.loads === "sum") {
    const [first, ...others] = loads.map(({ value }) => value);
    for (const { column } of others)
      columns.set(column, {
        ...columns.get(column)!,
        as: "load",
        why: { kind: "addedTo", other: shown(first!.channel.from) },
      });
    const from = loads.map(({ value }) => value.channel.from).join(" + ");
    const sum = kept
      .filter((value) => !others.includes(value) && !others.some(({ column }) => column === value.column))
      .map((value) => (value.column === first!.column ? { ...value, channel: { ...value.channel, from } } : value));
    return { values: renamed(sum), addends: others };
  }
  if (!file.loadTold && file.told.loads !== "each" && !file.askedUnit) questions.push(askWhichLoad(loads));
  return { values: kept, addends: [] };
}

/** `load`, `load-2`, counted on without a gap. */
function renamed(values: readonly ValueColumn[]): ValueColumn[] {
  const seen = new Map<ChannelKind, number>();
  return values.map((value) => {
    const { kind } = value.channel;
    const count = (seen.get(kind) ?? 0) + 1;
    seen.set(kind, count);
    return { ...value, channel: { ...value.channel, name: count === 1 ? kind : `${kind}-${count}` } };
  });
}

/**
 * A column of nothing but units of force holds the unit of the load beside it. One letter is too little for that: N is
 * north, the wind's, or newton; T true or tonne.
 */
function holdsUnits(column: number, rows: readonly (readonly string[])[]): boolean {
  const cells = rows.map((row) => (row[column] ?? "").trim()).filter((cell) => cell !== "");
  if (cells.length === 0 || cells.some((cell) => readUnit(cell, "load") === null)) return false;
  // A letter alone says it under the title of a unit only.
  return cells.some((cell) => cell.length > 1 && cell !== "kn");
}

type UnitFound =
  | {
      readonly kind: "found";
      readonly unit: string;
      readonly scale: number | null;
      readonly column: number;
      readonly confidence: number;
      readonly whys: readonly GuessCause[];
      /** Remarked on, as the file does not say it in so many words. */
      readonly taken?: Extract<GrantedCause, { kind: "unit" }>["taken"];
    }
  | { readonly kind: "ask"; readonly question: OpenCause };

function unitOf(
  one: Chosen,
  title: Title,
  rows: readonly (readonly string[])[],
  hints: PreambleHints,
  unitColumn: number,
): UnitFound {
  const found = (text: string, confidence: number, why: GuessCause, column = -1): UnitFound | null => {
    const unit = readUnit(text, one.kind);
    if (unit === null) return null;
    const { doubt } = unit;
    return {
      kind: "found",
      unit: unit.unit,
      scale: unit.scale,
      column,
      confidence: doubt === undefined ? confidence : confidence * 0.9,
      ...(doubt === undefined ? { whys: [why] } : { whys: [why, { kind: "doubtedUnit", of: doubt }], taken: doubt }),
    };
  };
  const others = otherUnits(one, title, rows, hints);
  const told = one.toldUnit === undefined ? null : found(one.toldUnit, 1, { kind: "unitTold" });
  if (told) return told;
  if (others !== null) return { kind: "ask", question: others };
  const titled = found(title.unit, 1, { kind: "unitInTitle", unit: title.unit });
  if (titled) return titled;
  if (isVagueTon(title.unit)) return { kind: "ask", question: { kind: "vagueTon", title: shown(title.text) } };
  const suffixes = new Set(
    rows
      .map((row) => /\d\s?([a-z%°#]{1,8})$/i.exec(row[one.column] ?? "")?.[1] ?? "")
      .filter((s) => s !== "" && readUnit(s, one.kind) !== null),
  );
  if (suffixes.size > 0) {
    const first = [...suffixes][0]!;
    const suffix = found(first, 0.95, { kind: "unitInCells", units: [...suffixes] });
    // Each cell states its own: one that does not is no reading.
    if (suffix?.kind === "found") return { ...suffix, scale: null };
  }
  if (one.kind === "load" && unitColumn >= 0) {
    const first = rows.map((row) => row[unitColumn] ?? "").find((cell) => readUnit(cell, one.kind) !== null);
    const why = { kind: "unitInColumn", column: unitColumn + 1 } as const;
    const column = first === undefined ? null : found(first, 0.95, why, unitColumn);
    if (column?.kind === "found") return { ...column, scale: null };
  }
  if (one.kind === "load" && hints.unit !== undefined) {
    const above = found(hints.unit.text, 0.8, { kind: "unitAbove", line: shown(hints.unit.line) });
    if (above) return above;
  }
  const { dimension } = CHANNELS[one.kind];
  if (dimension === "place") return found("deg", 0.95, { kind: "decimalDegrees" })!;
  if (dimension === "angle") {
    const degrees = found("deg", 0.7, { kind: "degreesWithoutUnit" }) as UnitFound & { kind: "found" };
    return { ...degrees, taken: "degrees" };
  }
  const named = title.text === "" ? null : shown(title.text);
  return { kind: "ask", question: { kind: "loadWithoutUnit", title: named, column: one.column + 1 } };
}

/** Two units stated for one load, in its title, above the table or in its cells; null: no contradiction. */
function otherUnits(
  one: Chosen,
  title: Title,
  rows: readonly (readonly string[])[],
  hints: PreambleHints,
): OpenCause | null {
  if (one.kind !== "load") return null;
  const titled = readUnit(title.unit, "load");
  if (titled === null) return null;
  const above = hints.unit === undefined ? null : readUnit(hints.unit.text, "load");
  const said = { title: shown(title.text), unit: titled.unit };
  if (above !== null && above.scale !== titled.scale)
    return { kind: "otherUnitAbove", ...said, line: shown(hints.unit!.line), above: above.unit };
  const cells = rows.map((row) => /\d\s?([a-z%°#-]{1,8})$/i.exec(row[one.column] ?? "")?.[1] ?? "");
  const suffix = cells.find((cell) => cell !== "" && (readUnit(cell, "load")?.scale ?? titled.scale) !== titled.scale);
  return suffix === undefined ? null : { kind: "otherUnitInCells", ...said, inCells: suffix };
}

function notTaken(why: GuessCause, confidence: number): Found {
  return { as: "not taken", unit: "", confidence, why };
}
