/**
 * A drawing of the figure room put on a page of a PDF as lines, areas and text. It knows what that room draws (see
 * `src/figure/svg.ts`): groups, nested sheets that cut, lines, boxes, circles, paths and text; their colours written out.
 */
import { SaxesParser, type SaxesTagPlain } from "saxes";
import type { PdfWriter } from "./tools.ts";

type Attributes = Readonly<Record<string, string>>;

/** Attributes that go on to what stands inside. */
const INHERITED = [
  ...["fill", "fill-opacity", "stroke", "stroke-opacity", "stroke-width", "stroke-dasharray", "stroke-linecap"],
  ...["stroke-linejoin", "font-size", "font-weight", "text-anchor", "paint-order"],
];

/**
 * Puts a drawing with its upper left corner at a place.
 * @param points of the page for each px of the drawing
 */
export function paintSvg(pdf: PdfWriter, svg: string, x: number, y: number, points: number): void {
  const parser = new SaxesParser();
  const styles: Attributes[] = [{}];
  const open: { name: string; attributes: Attributes; restore: boolean; text: string }[] = [];
  let silent = 0;
  parser.on("error", (error) => {
    throw new RangeError(`no drawing of ours: ${error.message}`);
  });
  parser.on("opentag", ({ name, attributes }: SaxesTagPlain) => {
    const style = { ...styles.at(-1), ...own(attributes) };
    styles.push(style);
    let restore = false;
    if (silent > 0 || ["title", "desc", "style"].includes(name)) silent++;
    else if (name === "svg") {
      pdf.save();
      restore = true;
      enter(pdf, attributes, open.length === 0 ? { x, y, points } : null);
    } else if (name === "g") {
      pdf.save();
      restore = true;
      if (attributes.transform !== undefined) turn(pdf, attributes.transform);
    } else if (name !== "text") shape(pdf, name, attributes, style);
    open.push({ name, attributes, restore, text: "" });
  });
  parser.on("text", (text) => {
    const last = open.at(-1);
    if (last !== undefined) last.text += text;
  });
  parser.on("closetag", () => {
    const { name, attributes, restore, text } = open.pop()!;
    const style = styles.pop()!;
    if (silent > 0) silent--;
    else if (name === "text") letters(pdf, attributes, style, text);
    if (restore) pdf.restore();
  });
  parser.write(svg).close();
}

function own(attributes: Attributes): Attributes {
  return Object.fromEntries(Object.entries(attributes).filter(([name]) => INHERITED.includes(name)));
}

const number = (text: string | undefined, without = 0): number => {
  const value = Number.parseFloat(text ?? "");
  return Number.isFinite(value) ? value : without;
};

/** The outermost sheet is put at its place; one within cuts what runs out of it. */
function enter(
  pdf: PdfWriter,
  attributes: Attributes,
  outer: { readonly x: number; readonly y: number; readonly points: number } | null,
): void {
  const [left = 0, top = 0] = (attributes.viewBox ?? "").split(" ").map((one) => number(one));
  if (outer !== null) {
    pdf.transform(outer.points, 0, 0, outer.points, outer.x - left * outer.points, outer.y - top * outer.points);
    return;
  }
  const [x, y] = [number(attributes.x), number(attributes.y)];
  pdf.rect(x, y, number(attributes.width), number(attributes.height)).clip();
  pdf.transform(1, 0, 0, 1, x - left, y - top);
}

/** `translate(x y)`, `scale(k)` and `rotate(degrees x y)`, one after the other. */
function turn(pdf: PdfWriter, transform: string): void {
  for (const [, name, inside] of transform.matchAll(/([a-z]+)\(([^)]*)\)/g)) {
    const [a = 0, b = 0, c = 0] = inside!.split(/[\s,]+/).map((one) => number(one));
    if (name === "translate") pdf.transform(1, 0, 0, 1, a, b);
    else if (name === "scale") pdf.transform(a, 0, 0, a, 0, 0);
    else if (name === "rotate") {
      const [sin, cos] = [Math.sin((a * Math.PI) / 180), Math.cos((a * Math.PI) / 180)];
      pdf.transform(cos, sin, -sin, cos, b - cos * b + sin * c, c - sin * b - cos * c);
    }
  }
}

function shape(pdf: PdfWriter, name: string, attributes: Attributes, style: Attributes): void {
  const at = (key: string): number => number(attributes[key]);
  const trace = (): boolean => {
    if (name === "rect") {
      const radius = Math.min(at("rx"), at("width") / 2, at("height") / 2);
      if (!(at("width") > 0 && at("height") > 0)) return false;
      if (radius > 0) pdf.roundedRect(at("x"), at("y"), at("width"), at("height"), radius);
      else pdf.rect(at("x"), at("y"), at("width"), at("height"));
    } else if (name === "circle") pdf.circle(at("cx"), at("cy"), at("r"));
    else if (name === "line") pdf.path(`M${at("x1")} ${at("y1")}L${at("x2")} ${at("y2")}`);
    else if (name === "path" && (attributes.d ?? "") !== "") pdf.path(attributes.d!);
    else return false;
    return true;
  };
  const fill = name === "line" ? "none" : (style.fill ?? "#000000");
  if (fill !== "none" && trace()) pdf.fillColor(fill).fillOpacity(number(style["fill-opacity"], 1)).fill();
  if ((style.stroke ?? "none") !== "none" && trace()) line(pdf, style).stroke();
}

function line(pdf: PdfWriter, style: Attributes): PdfWriter {
  const dashes = (style["stroke-dasharray"] ?? "none").split(/[\s,]+/).map((one) => number(one));
  if (dashes.length > 1 && dashes[0]! > 0) pdf.dash(dashes[0]!, { space: dashes[1]! });
  else pdf.undash();
  return pdf
    .strokeColor(style.stroke!)
    .strokeOpacity(number(style["stroke-opacity"], 1))
    .lineWidth(number(style["stroke-width"], 1))
    .lineCap(style["stroke-linecap"] ?? "butt")
    .lineJoin(style["stroke-linejoin"] ?? "miter");
}

function letters(pdf: PdfWriter, attributes: Attributes, style: Attributes, said: string): void {
  const size = number(style["font-size"], 12);
  const text = withGlyphs(pdf.font(isBold(style) ? "bold" : "regular").fontSize(size), said);
  if (text === "") return;
  const wide = pdf.widthOfString(text);
  const share = { start: 0, middle: 0.5, end: 1 }[style["text-anchor"] ?? "start"] ?? 0;
  const [x, y] = [number(attributes.x) - share * wide, number(attributes.y)];
  const at = { lineBreak: false, baseline: "alphabetic" };
  pdf.save();
  if (attributes.transform !== undefined) turn(pdf, attributes.transform);
  if ((style.stroke ?? "none") !== "none") rim(pdf, text, x, y, size, style);
  pdf.fillColor(style.fill ?? "#000000").fillOpacity(number(style["fill-opacity"], 1));
  pdf.text(text, x, y, at);
  pdf.restore();
}

const isBold = (style: Attributes): boolean => number(style["font-weight"], 400) >= 600;

/** The letters' outlines as a line about them, so that a reader finds the text once. */
function rim(pdf: PdfWriter, text: string, x: number, y: number, size: number, style: Attributes): void {
  const font = fontOf(pdf);
  if (font === undefined) return;
  const scale = size / font.unitsPerEm;
  const { glyphs, positions } = font.layout(text);
  let along = 0;
  glyphs.forEach((glyph, i) => {
    const d = glyph.path.toSVG();
    if (d !== "") {
      pdf.save();
      pdf.transform(scale, 0, 0, -scale, x + along * scale, y);
      line(pdf, { ...style, "stroke-width": String(number(style["stroke-width"], 1) / scale) });
      pdf.path(d).stroke();
      pdf.restore();
    }
    along += positions[i]!.xAdvance;
  });
}

/** What fontkit, which the writer reads letters by, tells of the font in use. */
interface FontInside {
  readonly unitsPerEm: number;
  hasGlyphForCodePoint(code: number): boolean;
  layout(text: string): {
    readonly glyphs: readonly { readonly path: { toSVG(): string } }[];
    readonly positions: readonly { readonly xAdvance: number }[];
  };
}

const fontOf = (pdf: PdfWriter): FontInside | undefined => (pdf as { _font?: { font?: FontInside } })._font?.font;

/** What the letters of the file have no sign for is shown as an empty box. */
export function withGlyphs(pdf: PdfWriter, text: string): string {
  const font = fontOf(pdf);
  let shown = "";
  for (const character of text.replace(/[\t\r\n]/g, " "))
    shown += font?.hasGlyphForCodePoint(character.codePointAt(0)!) === false ? "□" : character;
  return shown;
}
