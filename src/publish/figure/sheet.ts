/** A figure on the sheet it is published on: title, drawing, ± and source, lettered for print, web or film. */
import { escaped, flat, linesOf, type Theme } from "../../figure/index.ts";
import { plainText } from "../../quantity/index.ts";
import { INVENTED } from "../../words/index.ts";
import { drawnToFit } from "./fit.ts";
import type { FigureMade } from "./made.ts";

/** Where a figure goes, and how large it is there. */
export interface SheetFormat {
  /** px of the drawing, letters of 12 px among them, across the sheet; and up it where the sheet has a height. */
  readonly width: number;
  readonly height: number | null;
  /** Pixels of a picture for each px of the drawing. */
  readonly sharpness: number;
  /** Width of the sheet in an SVG: with its unit. */
  readonly wide: string;
  /** Points (1/72 in) of a PDF for each px of the drawing. */
  readonly points: number;
  /** Room left free about it, px of the drawing. */
  readonly rim: number;
}

/** 12 px letters of the drawing are 8.5 pt in print, 12 px on the web, 27 of 1080 lines in film. */
const FILM = 2.25;
const film = (width: number, height: number): SheetFormat => {
  const lettered = FILM * (Math.min(width, height) / 1080);
  return {
    width: width / lettered,
    height: height / lettered,
    sharpness: lettered,
    wide: String(width),
    points: 0.75,
    // A twentieth of the frame, which some screens cut off.
    rim: 0.05 * (Math.min(width, height) / lettered),
  };
};
const PRINT_MM = 170;
const PRINT_PX = 680;

/** Sheets by their name. */
export const SHEETS = {
  print: {
    width: PRINT_PX,
    height: null,
    sharpness: ((PRINT_MM / 25.4) * 300) / PRINT_PX,
    wide: `${PRINT_MM}mm`,
    points: ((PRINT_MM / 25.4) * 72) / PRINT_PX,
    rim: 4,
  },
  web: { width: 720, height: null, sharpness: 2, wide: "720", points: 0.75, rim: 16 },
  film: film(1920, 1080),
  "film-4k": film(3840, 2160),
  "film-tall": film(1080, 1920),
} as const satisfies Record<string, SheetFormat>;

/** A name of a sheet. */
export type SheetName = keyof typeof SHEETS;

/** What is chosen of a sheet. */
export interface SheetChoice {
  readonly sheet: SheetName;
  readonly theme: Theme;
  /** Without: nothing behind it, and a rim about its letters. */
  readonly ground: boolean;
  /** Where it comes from, in a line. */
  readonly source: string;
}

/** A whole sheet, its colours written out. */
export interface PublishedSheet {
  readonly svg: string;
  /** px of the drawing, as the PDF takes them. */
  readonly width: number;
  readonly height: number;
  readonly title: string;
  readonly description: string;
  /** Where it comes from, as it stands below. */
  readonly source: string;
}

const TITLE = { size: 16, line: 20 } as const;
const FOOT = { size: 11, line: 15 } as const;
const FONT = "'Liberation Sans', Arial, Helvetica, sans-serif";

/** Puts a figure on a sheet. */
export function sheetOf(figure: FigureMade, { sheet, theme, ground, source }: SheetChoice): PublishedSheet {
  const format = SHEETS[sheet];
  const { rim, width } = format;
  const inner = width - 2 * rim;
  const title = plainText(figure.title);
  const head = linesOf(title, inner, TITLE.size, true);
  const from = figure.invented === true ? `${source} ${INVENTED}` : source;
  const foot = [figure.uncertain, from].flatMap((one) => linesOf(plainText(one), inner, FOOT.size));
  const top = rim + head.length * TITLE.line + 8;
  const below = 12 + foot.length * FOOT.line;
  const room = format.height === null ? null : format.height - top - below - rim;
  const { drawn, scale } = drawnToFit(figure.draw, inner, room);
  const height = format.height ?? top + scale * drawn.height + below + rim;
  const left = rim + (inner - scale * drawn.width) / 2;
  const down = room === null ? 0 : (room - scale * drawn.height) / 2;
  const text = (x: number, y: number, line: string, size: number, colour: string, weight = ""): string =>
    `<text x="${round(x)}" y="${round(y)}" font-size="${size}"${weight} fill="${colour}">${escaped(line)}</text>`;
  const [ink, soft, paper] = ["ink", "soft", "paper"].map((name) => `var(--figure-${name}, #000000)`) as [
    string,
    string,
    string,
  ];
  const parts = [
    `<rect x="0" y="0" width="${round(width)}" height="${round(height)}" fill="${paper}"/>`,
    ...head.map((line, i) => text(rim, rim + TITLE.size + i * TITLE.line, line, TITLE.size, ink, ' font-weight="600"')),
    `<g transform="translate(${round(left)} ${round(top + down)}) scale(${round(scale)})" font-size="12">${insideOf(drawn.svg)}</g>`,
    ...foot.map((line, i) => text(rim, height - rim - below + 12 + FOOT.size + i * FOOT.line, line, FOOT.size, soft)),
  ];
  const description = plainText(`${title}. ${descriptionOf(drawn.svg)} ${figure.uncertain} ${from}`);
  const high = `${round((height * Number.parseFloat(format.wide)) / width)}${format.wide.replace(/[\d.]+/, "")}`;
  const whole = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${round(width)} ${round(height)}" width="${format.wide}" height="${high}" role="img" font-family="${FONT}"><title>${escaped(title)}</title><desc>${escaped(description)}</desc>${parts.join("")}</svg>`;
  const shown = plainText(flat(ground ? whole : groundless(whole), theme));
  return { svg: shown, width, height, title, description, source: from };
}

const round = (value: number): number => Math.round(value * 1000) / 1000;

/** What stands in a drawing's own sheet. */
function insideOf(svg: string): string {
  return svg.slice(svg.indexOf("</desc>") + "</desc>".length, svg.lastIndexOf("</svg>"));
}

/** What a drawing says of itself, its marks escaped as they stood. */
function descriptionOf(svg: string): string {
  const said = svg.slice(svg.indexOf("<desc>") + "<desc>".length, svg.indexOf("</desc>"));
  return said.replace(/&(amp|lt|gt|quot|#39);/g, (_, name: string) => UNESCAPED[name]!);
}

const UNESCAPED: Readonly<Record<string, string>> = { amp: "&", lt: "<", gt: ">", quot: '"', "#39": "'" };

/** Areas of paper taken away, lesser text as strong as any, and a rim of paper about every letter: it stands on a picture. */
function groundless(svg: string): string {
  return svg
    .replace(/<rect [^>]*>/g, (rect) =>
      /fill="var\(--figure-paper/.test(rect) && !rect.includes("stroke=") ? "" : rect,
    )
    .replace(/<text [^>]*>/g, (text) =>
      text.replace(/fill="var\(--figure-soft, [^)]*\)"/, 'fill="var(--figure-ink, #000000)"'),
    )
    .replace(/<text [^>]*>/g, (text) =>
      text.includes("paint-order")
        ? text
        : text.replace(
            "<text ",
            '<text stroke="var(--figure-paper, #ffffff)" stroke-width="2.2" stroke-linejoin="round" paint-order="stroke" ',
          ),
    );
}
