import { basename, extname } from "node:path";
import { Command, Option } from "commander";
import { figureCsv } from "../figure/index.ts";
import { type FigureMade, figurePdf, SHEETS, type SheetName, sheetOf } from "../publish/index.ts";
import { InputError, quoted } from "../quantity/index.ts";
import type { Ports } from "../record/index.ts";
import type { FigureKind } from "./figure-kind.ts";
import { pdfTools, pictures } from "./figure-tools.ts";
import { figuresOfBooks } from "./figures-of-books.ts";
import { figuresOfPulls } from "./figures-of-pulls.ts";
import { figuresOfRodes } from "./figures-of-rodes.ts";
import type { Io } from "./io.ts";
import { answerJson, type Shown, shown } from "./options.ts";
import { programVersion } from "./version.ts";

/** What every figure is asked with. */
export interface FigureOptions extends Shown {
  readonly to: string;
  readonly for: SheetName;
  readonly theme: "light" | "dark";
  readonly ground: boolean;
  readonly title?: string;
  readonly by?: string;
}

const KINDS = [".svg", ".png", ".pdf"];

/** `rodebench publish figure …`: a drawing or plot as a file, its data beside it. */
export function publishFigureCommand(io: Io, ports: Ports): Command {
  const whole = new Command("figure").description(
    "a drawing or plot as SVG, PNG or PDF, for print, web or film, its data beside it as CSV",
  );
  for (const { command, make } of figureKinds(io, ports))
    whole.addCommand(
      withSheet(command).action(async (...given: unknown[]) => {
        const options = given.at(-2) as FigureOptions;
        const paths = given.slice(0, -2) as string[];
        kindOf(options.to);
        await write(await make(paths, options), paths, options, io);
      }),
    );
  return whole;
}

/** Every kind there is, in the order `--help` lists them. */
export const figureKinds = (io: Io, ports: Ports): readonly FigureKind[] => [
  ...figuresOfRodes(io),
  ...figuresOfBooks(io, ports),
  ...figuresOfPulls(io, ports),
];

function withSheet(command: Command): Command {
  return shown(
    command
      .requiredOption("--to <file>", "the figure to write: its name ends in .svg, .png or .pdf")
      .addOption(
        new Option("--for <sheet>", "print (170 mm), web, or a film frame: 1920 × 1080, 3840 × 2160, 1080 × 1920")
          .choices(Object.keys(SHEETS))
          .default("print"),
      )
      .addOption(new Option("--theme <theme>", "its colours").choices(["light", "dark"]).default("light"))
      .option("--no-ground", "nothing behind it: it is laid over a picture")
      .option("--title <text>", "what stands above it")
      .option("--by <text>", "who tested, as they want to be named"),
  );
}

function kindOf(file: string): string {
  const kind = extname(file).toLowerCase();
  if (!KINDS.includes(kind))
    throw new InputError("--to", quoted(file), "a file name that ends in .svg, .png or .pdf is expected");
  return kind;
}

async function write(made: FigureMade, paths: readonly string[], options: FigureOptions, io: Io): Promise<void> {
  const { to, theme, ground, by = "", json } = options;
  const named = [...new Set(paths.map((path) => (path === "-" ? "standard input" : basename(path))))];
  const program = `rodebench ${programVersion()}`;
  const source = `${by === "" ? "" : `${by}. `}Made from ${named.join(" and ")} by ${program}.`;
  const figure = options.title === undefined ? made : { ...made, title: options.title };
  const sheet = sheetOf(figure, { sheet: options.for, theme, ground, source });
  const format = SHEETS[options.for];
  const kind = kindOf(to);
  let content: string | Uint8Array = `${sheet.svg}\n`;
  let size = `${format.wide}${/[a-z]/.test(format.wide) ? "" : " px"} wide`;
  if (kind === ".png") {
    const picture = (await pictures(to))(sheet.svg, Math.round(format.width * format.sharpness));
    content = picture.png;
    size = `${picture.width} × ${picture.height} px`;
  } else if (kind === ".pdf") {
    content = await figurePdf({ ...sheet, points: format.points, author: by, program }, await pdfTools());
    size = `${Math.round((sheet.width * format.points * 25.4) / 72)} × ${Math.round((sheet.height * format.points * 25.4) / 72)} mm`;
  }
  const data = `${to.slice(0, -kind.length)}.csv`;
  await io.write(to, content);
  await io.write(data, figureCsv(made.table));
  const bytes = typeof content === "string" ? Buffer.byteLength(content) : content.length;
  if (json)
    answerJson(io, {
      format: "rodebench/figure-published@1",
      file: to,
      data,
      ...{
        title: sheet.title,
        for: options.for,
        theme,
        ground,
        uncertain: made.uncertain,
        source: sheet.source,
        bytes,
      },
      rows: made.table.rows.length,
    });
  else io.out(`${to}: ${sheet.title}, ${size}\n${data}: its data, ${made.table.rows.length} rows\n${made.uncertain}\n`);
}
