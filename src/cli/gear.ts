import { Command, Option } from "commander";
import {
  type Basis,
  type Catalogue,
  catalogue,
  type Figure,
  merge,
  type Property,
  type Row,
  readCatalogue,
  rowsOfSize,
  strainUnder,
} from "../gear/index.ts";
import { type Dimension, type Format, formatQuantity, InputError, quoted, type UnitSystem } from "../quantity/index.ts";
import type { Io } from "./io.ts";
import { answerJson } from "./options.ts";
import { listTable, tableParts, wrapped } from "./text-table.ts";

interface Options {
  readonly kind?: Row["kind"];
  readonly grade?: string;
  readonly size?: string;
  readonly with?: string;
  readonly units: UnitSystem;
  readonly json?: true;
}

const CAUTION =
  "These are figures of the trade, not of your gear: check the working load limits marked on it, and put the maker's limits, local rules and licensed practice first. Wear, rust, knots and splices take strength away.";

/** Letters behind a source's number in the table. */
const LETTER: Readonly<Record<Basis, string>> = { seen: "s", computed: "c", recalled: "r", stated: "o", measured: "m" };
const MEANING: Readonly<Record<Basis, string>> = {
  seen: "s read in the source",
  computed: "c computed",
  recalled: "r recalled, not checked",
  stated: "o stated in your own file",
  measured: "m measured",
};

/** Share of the breaking load at which a stretch curve is told in the table. */
const TOLD_AT = 0.2;

export function gear(io: Io): Command {
  return new Command("gear")
    .addOption(new Option("--kind <kind>", "one kind only").choices(["chain", "rope", "wire", "point"]))
    .option("--grade <grade>", 'chain of one grade, such as "43"')
    .option("--size <size>", 'one size, such as "3/8 in" or "10 mm"')
    .option("--with <file>", "your own rows (rodebench/gear@1), which win over those built in; - for standard input")
    .addOption(new Option("--units <system>", "units of the table").choices(["metric", "us"]).default("metric"))
    .option("--json", "one JSON document, in SI units")
    .action(async (options: Options) => {
      const { catalogue: all, replaced } = await everything(options.with, io);
      const rows = chosen(all.rows, options);
      if (options.json) answerJson(io, document(all, rows, replaced));
      else io.out(table(all, rows, replaced, options.units));
    });
}

async function everything(
  own: string | undefined,
  io: Io,
): Promise<{ catalogue: Catalogue; replaced: readonly string[] }> {
  if (own === undefined) return { catalogue, replaced: [] };
  return merge(catalogue, readCatalogue(await io.read(own), own === "-" ? "standard input" : own));
}

function chosen(all: readonly Row[], options: Options): readonly Row[] {
  let rows = options.kind === undefined ? all : all.filter((row) => row.kind === options.kind);
  if (options.grade !== undefined) {
    const chains = rows.filter((row) => row.kind === "chain");
    const grades = [...new Set(chains.map((row) => row.grade))].sort();
    if (grades.length === 0)
      throw new InputError("--grade", quoted(options.grade), "no grade is expected: only chain has one");
    const wanted = options.grade.trim().replace(/^(grade|g)\s*/i, "");
    rows = chains.filter((row) => row.grade === wanted);
    if (rows.length === 0)
      throw new InputError("--grade", quoted(options.grade), `one of ${grades.join(", ")} is expected`);
  }
  return options.size === undefined ? rows : rowsOfSize(rows, options.size, "--size");
}

function document(all: Catalogue, rows: readonly Row[], replaced: readonly string[]) {
  const sources = new Set(
    rows.flatMap((row) => Object.values(row.figures).flatMap((list) => list.map((f) => f.source))),
  );
  return {
    format: "rodebench/catalogue@1",
    rows: rows.map((row) => ({
      kind: row.kind,
      name: row.name,
      ...identity(row),
      size: row.size,
      ...(row.kind === "point" ? { mass_kg: row.mass } : lineFields(row)),
      density_kg_per_m3: row.density,
      ...(row.workingLoad === undefined ? {} : { workingLoad_N: row.workingLoad }),
      ...(row.breakingLoad === undefined ? {} : { breakingLoad_N: row.breakingLoad }),
      relativeUncertainty: row.uncertainty,
      figures: Object.fromEntries(
        Object.entries(row.figures).map(([property, figures]) => [
          property,
          figures.map((figure) => ({ ...figure, unit: FIGURE_UNIT[property as Property] })),
        ]),
      ),
      origin: row.origin,
      ...(row.note === undefined ? {} : { note: row.note }),
    })),
    sources: Object.fromEntries(Object.entries(all.sources).filter(([key]) => sources.has(key))),
    replaced,
    caution: CAUTION,
  };
}

/** SI units of figures; a stretch curve's figure is a strain, 1, an own stiffness a force. */
const FIGURE_UNIT: Partial<Readonly<Record<Property, string>>> = {
  mass: "kg",
  massPerLength: "kg/m",
  density: "kg/m3",
  workingLoad: "N",
  breakingLoad: "N",
};

function identity(row: Row) {
  switch (row.kind) {
    case "chain":
      return { grade: row.grade, ...(row.standard === undefined ? {} : { standard: row.standard }) };
    case "rope":
      return { fibre: row.fibre, lay: row.lay };
    case "wire":
      return { material: row.material, construction: row.construction };
    case "point":
      return { what: row.what };
  }
}

function lineFields(row: Exclude<Row, { kind: "point" }>) {
  const { stretch } = row;
  return {
    diameter_m: row.diameter,
    massPerLength_kg_per_m: row.massPerLength,
    ...(row.kind === "rope" && row.wetBreakingLoad !== undefined ? { wetBreakingLoad_N: row.wetBreakingLoad } : {}),
    stretch:
      stretch.kind === "curve"
        ? { kind: stretch.kind, strain_load_N: stretch.points }
        : stretch.kind === "linear"
          ? { kind: stretch.kind, stiffness_N: stretch.stiffness }
          : { kind: stretch.kind },
  };
}

function table(all: Catalogue, rows: readonly Row[], replaced: readonly string[], system: UnitSystem): string {
  const numbers = new Map<string, number>();
  const bases = new Set<Basis>();
  const mark = (figure: Figure) => {
    if (!numbers.has(figure.source)) numbers.set(figure.source, numbers.size + 1);
    bases.add(figure.basis);
    return `[${numbers.get(figure.source)}${LETTER[figure.basis]}]`;
  };
  const head = ["", ...COLUMNS.map((what) => TITLE[what])];
  const cells = (row: Row, marked: typeof mark) => COLUMNS.map((what) => () => cell(row, what, system, marked));
  // A source takes its number where it is first met, so which columns stand in which part is settled first.
  const beside = tableParts(
    head,
    rows.map((row) => [row.name, ...cells(row, () => "[00s]").map((text) => text())]),
  );
  const lines = rows.map((row) => [row.name]);
  const further: string[][] = rows.map(() => []);
  for (const [part, columns] of beside.entries())
    for (const [i, row] of rows.entries()) {
      for (const column of columns.slice(1)) lines[i]![column] = cells(row, mark)[column - 1]!();
      if (part === 0) further[i]!.push(...wet(row, system, mark), ...unused(row, system, mark));
    }
  const out = [listTable(head, lines, further, beside)];
  for (const [key, number] of numbers) {
    const { cite, address, note } = all.sources[key]!;
    const told = `${cite}${note === undefined ? "" : `; ${note}`}${address === undefined ? "" : ` <${address}>`}`;
    out.push(wrapped(`[${number}] ${told}`, 0, 4));
  }
  out.push([...bases].map((basis) => MEANING[basis]).join(" · "));
  if (replaced.length > 0) out.push(`Your own rows stand in place of those built in: ${replaced.join(", ")}.`);
  out.push(CAUTION);
  return `${out.join("\n")}\n`;
}

const COLUMNS = ["mass", "workingLoad", "breakingLoad", "stretch"] as const;
type Column = (typeof COLUMNS)[number];
const TITLE: Readonly<Record<Column, string>> = {
  mass: "mass",
  workingLoad: "working load limit",
  breakingLoad: "breaking load",
  stretch: "stretch",
};

function cell(row: Row, what: Column, system: UnitSystem, mark: (figure: Figure) => string): string {
  const property = propertyOf(row, what);
  const used = row.figures[property]?.[0];
  if (!used) return what === "stretch" && row.kind !== "point" ? "none" : "-";
  if (what === "stretch" && row.kind !== "point" && row.stretch.kind === "curve") {
    const u = row.uncertainty.stretch;
    const strain = row.breakingLoad === undefined ? used.value : strainUnder(row.stretch, TOLD_AT * row.breakingLoad);
    const at = row.breakingLoad === undefined ? "at the first point" : "at 20 % of breaking";
    return `${formatQuantity(strain, "ratio", { unit: "%", ...(u === undefined ? {} : { u: u * strain }) })} ${at} ${mark(used)}`;
  }
  const u = row.uncertainty[property];
  return `${told(used.value, property, system, u === undefined ? undefined : u * used.value)} ${mark(used)}`;
}

function wet(row: Row, system: UnitSystem, mark: (figure: Figure) => string): string[] {
  const share = row.figures.wetStrength?.[0];
  if (row.kind !== "rope" || row.wetBreakingLoad === undefined || !share) return [];
  const load = told(row.wetBreakingLoad, "breakingLoad", system);
  return [`breaking load when wet: ${load}, ${formatQuantity(share.value, "ratio", { unit: "%" })} ${mark(share)}`];
}

/** The figures of a row that were not used, where a property has more than one. */
function unused(row: Row, system: UnitSystem, mark: (figure: Figure) => string): string[] {
  const lines: string[] = [];
  for (const what of COLUMNS) {
    const property = propertyOf(row, what);
    const rest = row.figures[property]?.slice(1) ?? [];
    if (rest.length === 0) continue;
    const curved = what === "stretch" && row.kind !== "point" && row.stretch.kind === "curve";
    const values = rest.map((figure) => {
      const value = curved
        ? formatQuantity(figure.value, "ratio", { unit: "%" })
        : told(figure.value, property, system);
      return `${value} ${mark(figure)}${figure.note === undefined ? "" : ` (${figure.note})`}`;
    });
    lines.push(`${TITLE[what]}, not used: ${values.join("; ")}`);
  }
  return lines;
}

function propertyOf(row: Row, what: Column): Property {
  return what === "mass" && row.kind !== "point" ? "massPerLength" : what;
}

function told(value: number, property: Property, system: UnitSystem, u?: number): string {
  const dimension: Dimension = property === "massPerLength" || property === "mass" ? property : "force";
  const unit = dimension === "force" && system === "metric" ? "kN" : undefined;
  const format: Format = { system, ...(unit === undefined ? {} : { unit }), ...(u === undefined ? {} : { u }) };
  return `${property === "stretch" ? "EA " : ""}${formatQuantity(value, dimension, format)}`;
}
