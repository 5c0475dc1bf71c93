/**
 * A drawing of the page as a file of its own: every colour, stroke and letter written out on the elements themselves, in
 * the light theme and on its paper, so that it looks the same in any program and in print.
 */
import { escaped, flat, INKS, linesOf } from "../../figure/index.ts";
import { plainText } from "../../quantity/index.ts";

/** Properties of a drawing that go on to what stands inside; each is an attribute of SVG as well. */
const INHERITED = [
  ...["fill", "fill-opacity", "stroke", "stroke-width", "stroke-opacity", "stroke-dasharray", "stroke-linecap"],
  ...["stroke-linejoin", "paint-order", "text-anchor", "font-size", "font-weight", "font-family", "visibility"],
] as const;

/** What stands in a drawing for the hand alone: handles and what is pointed at. */
const FOR_THE_HAND = "[data-for-hand], [role=slider]";

/** Paper around it, px. */
const RIM = 12;
const NAMESPACE = "http://www.w3.org/2000/svg";

export interface StandAlone {
  readonly svg: string;
  readonly width: number;
  readonly height: number;
  /** What is written about it, and on what. */
  readonly ink: string;
  readonly paper: string;
}

/** @param title the first thing in the file, for who does not see it */
export function standAlone(drawing: SVGSVGElement, title: string): StandAlone {
  return inLightTheme(() => {
    const { width, height } = sizeOf(drawing);
    const copy = drawing.cloneNode(true) as SVGSVGElement;
    writeOut(drawing, copy);
    for (const child of copy.querySelectorAll(FOR_THE_HAND)) child.remove();
    for (const old of copy.querySelectorAll(":scope > title")) old.remove();
    const colour = (name: string, plain: string): string =>
      getComputedStyle(document.documentElement).getPropertyValue(name).trim() || plain;
    const [ink, surface] = [colour("--ink", "#17212b"), colour("--surface", "#ffffff")];
    const paper = document.createElementNS(NAMESPACE, "rect");
    const [x, y] = [drawing.viewBox.baseVal?.x ?? 0, drawing.viewBox.baseVal?.y ?? 0];
    for (const [name, value] of Object.entries({
      x: x - RIM,
      y: y - RIM,
      width: width + 2 * RIM,
      height: height + 2 * RIM,
      fill: surface,
    }))
      paper.setAttribute(name, String(value));
    const named = document.createElementNS(NAMESPACE, "title");
    named.textContent = title;
    copy.prepend(named, paper);
    copy.setAttribute("xmlns", NAMESPACE);
    copy.setAttribute("viewBox", `${x - RIM} ${y - RIM} ${width + 2 * RIM} ${height + 2 * RIM}`);
    const [wide, high] = [width + 2 * RIM, height + 2 * RIM];
    copy.setAttribute("width", String(wide));
    copy.setAttribute("height", String(high));
    for (const name of ["class", "style", "aria-label", "aria-describedby", "preserveAspectRatio"])
      copy.removeAttribute(name);
    return { svg: new XMLSerializer().serializeToString(copy), width: wide, height: high, ink, paper: surface };
  });
}

/** In its own px: a drawing with a view box has those, another those of the page. */
function sizeOf(drawing: SVGSVGElement): { width: number; height: number } {
  const own = drawing.viewBox.baseVal;
  if (own !== null && own.width > 0) return { width: own.width, height: own.height };
  const { width, height } = drawing.getBoundingClientRect();
  return { width, height };
}

/** @param above what the element around it says already */
function writeOut(from: Element, to: Element, above: ReadonlyMap<string, string> = new Map()): void {
  const style = getComputedStyle(from);
  to.removeAttribute("class");
  to.removeAttribute("style");
  to.removeAttribute("tabindex");
  if (style.display === "none") {
    to.setAttribute("display", "none");
    return;
  }
  const here = new Map<string, string>();
  for (const property of INHERITED) {
    const value = style.getPropertyValue(property);
    here.set(property, value);
    if (value !== above.get(property)) to.setAttribute(property, value);
    else to.removeAttribute(property);
  }
  if (style.opacity !== "1") to.setAttribute("opacity", style.opacity);
  if (style.textDecorationLine === "line-through") to.setAttribute("text-decoration", "line-through");
  for (let i = 0; i < from.children.length; i++) writeOut(from.children[i]!, to.children[i]!, here);
}

/** Colours are asked in the light theme; nothing is painted in between. */
function inLightTheme<T>(work: () => T): T {
  const root = document.documentElement;
  const before = root.dataset.theme;
  root.dataset.theme = "light";
  try {
    return work();
  } finally {
    if (before === undefined) delete root.dataset.theme;
    else root.dataset.theme = before;
  }
}

/** A drawing that came as text, with the size it states. */
export function fromText(svg: string): StandAlone {
  // Not parsed: the page's policy would refuse, and tell of, the colours that the drawing brings.
  const head = /^<svg[^>]*>/.exec(svg)?.[0] ?? "";
  const size = (name: string): number => Number(new RegExp(` ${name}="([\\d.]+)"`).exec(head)?.[1]) || 680;
  // Programs that know no custom properties show it as it is.
  return {
    ...{ svg: flat(svg), width: size("width"), height: size("height") },
    ...{ ink: INKS.ink.light, paper: INKS.paper.light },
  };
}

const TITLE = { size: 15, line: 19 } as const;
const FOOT = { size: 11, line: 15 } as const;

/** The same with its title above, and below what its ± are and where it comes from. @param from whole sentences */
export function lettered({ svg, width, height, ink, paper }: StandAlone, title: string, from: string): StandAlone {
  const inner = width - 2 * RIM;
  const [head, foot] = [linesOf(plainText(title), inner, TITLE.size, true), linesOf(from, inner, FOOT.size)];
  const top = RIM / 2 + head.length * TITLE.line;
  const whole = top + height + foot.length * FOOT.line + RIM / 2;
  const text = (y: number, size: number, line: string, weight: string): string =>
    `<text x="${RIM}" y="${y}" font-size="${size}" fill="${ink}"${weight}>${escaped(line)}</text>`;
  const parts = [
    `<title>${escaped(plainText(title))}</title>`,
    `<rect width="${width}" height="${whole}" fill="${paper}"/>`,
    ...head.map((line, i) => text(TITLE.size + 4 + i * TITLE.line, TITLE.size, line, ' font-weight="600"')),
    svg.replace(/^<svg /, `<svg x="0" y="${top}" `),
    ...foot.map((line, i) => text(top + height + FOOT.size + i * FOOT.line, FOOT.size, line, "")),
  ];
  return {
    svg: `<svg xmlns="${NAMESPACE}" viewBox="0 0 ${width} ${whole}" width="${width}" height="${whole}" font-family="system-ui, 'Segoe UI', Roboto, Helvetica, Arial, sans-serif">${parts.join("")}</svg>`,
    ...{ width, height: whole, ink, paper },
  };
}

/** Times the drawing's own px: sharp in print. */
const SHARPER = 3;

/** @returns the same as a picture */
export async function asPicture({ svg, width, height }: StandAlone): Promise<Blob> {
  const address = URL.createObjectURL(new Blob([svg], { type: "image/svg+xml" }));
  try {
    const image = new Image(width, height);
    image.src = address;
    await image.decode();
    const canvas = document.createElement("canvas");
    [canvas.width, canvas.height] = [Math.round(SHARPER * width), Math.round(SHARPER * height)];
    canvas.getContext("2d")!.drawImage(image, 0, 0, canvas.width, canvas.height);
    return await new Promise<Blob>((done, fail) =>
      canvas.toBlob((blob) => (blob === null ? fail(new Error("no picture was made")) : done(blob)), "image/png"),
    );
  } finally {
    URL.revokeObjectURL(address);
  }
}
