/** The overlay of one frame: load and angle in large letters, the rode as it lies, the load of the last seconds. */
import { escaped, flat } from "../../figure/index.ts";
import {
  formatQuantity,
  InputError,
  inUnit,
  plainText,
  plotForceUnit,
  quoted,
  type UnitSystem,
} from "../../quantity/index.ts";
import { type Rig, riseOf } from "../../rode/index.ts";
import { INVENTED } from "../../words/index.ts";
import type { RodeNow } from "./overlay.ts";

/** Where an overlay stands in a frame. */
export interface PanelPlace {
  /** px of the frame */
  readonly width: number;
  readonly height: number;
  readonly corner: (typeof CORNERS)[number];
  /** Share of the frame's width the overlay takes. */
  readonly share: number;
}

/** Where it may stand. */
export const CORNERS = ["below-left", "below-right", "above-left", "above-right"] as const;

/** `1920x1080`: the size of a frame, px. @param place where it was given */
export function readFrameSize(text: string, place: string): Pick<PanelPlace, "width" | "height"> {
  const [width = 0, height = 0] = (/^\s*(\d{2,5})\s*[x×]\s*(\d{2,5})\s*$/.exec(text) ?? []).slice(1).map(Number);
  if (Math.min(width, height) < 160 || Math.max(width, height) > 8192)
    throw new InputError(
      place,
      quoted(text),
      "a width and a height from 160 to 8192 pixels are expected, such as 1920x1080",
    );
  return { width, height };
}

/** What does not change from frame to frame. */
export interface PanelSpec {
  readonly place: PanelPlace;
  readonly rig: Rig;
  readonly units: UnitSystem;
  readonly at: "anchor" | "bow";
  /** N, of the whole log: the scale of the bar. */
  readonly highest: number;
  /** m, the farthest the rode reaches under it. */
  readonly reach: number;
  /** N; none where it is not known. */
  readonly loadU?: number;
  /** The log is of a book whose data are invented. */
  readonly invented?: boolean;
}

/** What one frame shows; nulls where the log tells nothing. */
export interface PanelNow {
  readonly load: number | null;
  readonly rode: RodeNow | null;
  /** Loads of the last seconds, oldest first, N; null where nothing was read. */
  readonly before: readonly (number | null)[];
}

/** px of the overlay's own drawing. */
const WIDE = 420;
const HIGH = 250;
const RODE = { left: 14, right: 406, top: 96, bottom: 186 } as const;
const STRIP = { left: 14, right: 406, top: 200, bottom: 240 } as const;

const RIM = `stroke="var(--figure-paper, #ffffff)" stroke-linejoin="round" paint-order="stroke"`;
const n = (value: number): string => String(Math.round(value * 100) / 100);

/** @returns the whole frame as SVG, nothing behind it */
export function panelSvg(spec: PanelSpec, now: PanelNow): string {
  const { width, height, corner, share } = spec.place;
  const scale = (share * width) / WIDE;
  const rim = 0.05 * Math.min(width, height);
  const x = corner.endsWith("left") ? rim : width - rim - WIDE * scale;
  const y = corner.startsWith("above") ? rim : height - rim - HIGH * scale;
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}" font-family="'Liberation Sans', Arial, Helvetica, sans-serif"><g transform="translate(${n(x)} ${n(y)}) scale(${Math.round(scale * 1e4) / 1e4})">${letters(spec, now)}${rode(spec, now)}${strip(spec, now)}</g></svg>`;
  return flat(svg, "dark");
}

function text(x: number, y: number, size: number, said: string, weight = 400, colour = "ink"): string {
  return `<text x="${n(x)}" y="${n(y)}" font-size="${size}" font-weight="${weight}" fill="var(--figure-${colour}, #000000)" stroke-width="${size > 20 ? 5 : 3}" ${RIM}>${escaped(plainText(said))}</text>`;
}

function letters({ units, at, loadU, rig, invented = false }: PanelSpec, { load, rode }: PanelNow): string {
  const force = (newtons: number): string =>
    formatQuantity(newtons, "force", {
      system: units,
      ...(loadU === undefined || loadU === 0 ? { digits: 3 } : { u: loadU }),
    });
  const end = rig.setting.medium === "air" ? (at === "anchor" ? "anchor end" : "upper end") : at;
  const angle =
    rode === null
      ? "–"
      : formatQuantity(
          rode.angle,
          "angle",
          rode.angleU === null || rode.angleU === 0 ? { digits: 3 } : { u: rode.angleU },
        );
  return [
    text(14, 24, 14, `load at the ${end}`),
    text(14, 62, 34, load === null ? "–" : force(load), 600, "measured"),
    text(250, 24, 14, "angle at the anchor, worked out"),
    text(250, 62, 34, angle, 600, "computed"),
    text(14, 84, 12, loadU === undefined && rode?.angleU === null ? "no ± is stated" : "± one standard uncertainty"),
    invented ? text(14, 102, 12, INVENTED) : "",
  ].join("");
}

function rode({ rig, reach }: PanelSpec, { rode: now }: PanelNow): string {
  const rise = riseOf(rig.setting);
  const across = RODE.right - RODE.left;
  const scale = Math.min(across / Math.max(reach, 1e-6), (RODE.bottom - RODE.top) / Math.max(rise, 1e-6));
  const [x, y] = [(m: number) => RODE.left + m * scale, (m: number) => RODE.bottom - m * scale];
  const ground = `<path d="M${RODE.left} ${n(RODE.bottom)}H${RODE.right}" stroke="var(--figure-ground, #8a7f6d)" stroke-width="3" fill="none"/>`;
  if (now === null) return ground;
  const { shape } = now;
  let d = "";
  for (let i = 0; i < shape.x.length; i++) d += `${i === 0 ? "M" : "L"}${n(x(shape.x[i]!))} ${n(y(shape.z[i]!))}`;
  const last = shape.x.length - 1;
  return [
    ground,
    `<path d="${d}" fill="none" stroke="var(--figure-paper, #ffffff)" stroke-width="7" stroke-linejoin="round" stroke-linecap="round"/>`,
    `<path d="${d}" fill="none" stroke="var(--figure-computed, #123f73)" stroke-width="3.5" stroke-linejoin="round" stroke-linecap="round"/>`,
    `<circle cx="${n(x(0))}" cy="${n(y(0))}" r="5" fill="var(--figure-paper, #ffffff)" stroke="var(--figure-ink, #000000)" stroke-width="2"/>`,
    `<circle cx="${n(x(shape.x[last]!))}" cy="${n(y(shape.z[last]!))}" r="5" fill="var(--figure-ink, #000000)"/>`,
  ].join("");
}

function strip({ highest, units }: PanelSpec, { before }: PanelNow): string {
  const step = (STRIP.right - STRIP.left) / Math.max(1, before.length - 1);
  const y = (newtons: number): number =>
    STRIP.bottom - (STRIP.bottom - STRIP.top) * Math.max(0, Math.min(1, newtons / highest));
  let d = "";
  let drawing = false;
  before.forEach((newtons, i) => {
    if (newtons !== null) d += `${drawing ? "L" : "M"}${n(STRIP.left + i * step)} ${n(y(newtons))}`;
    drawing = newtons !== null;
  });
  const unit = plotForceUnit(units);
  const most = `${Number(inUnit(highest, unit, "force").toPrecision(2))} ${unit}`;
  return [
    `<path d="M${STRIP.left} ${STRIP.bottom}H${STRIP.right}" stroke="var(--figure-soft, #51606d)" stroke-width="1.5" fill="none"/>`,
    d === ""
      ? ""
      : `<path d="${d}" fill="none" stroke="var(--figure-paper, #ffffff)" stroke-width="6" stroke-linejoin="round"/><path d="${d}" fill="none" stroke="var(--figure-measured, #b34400)" stroke-width="2.5" stroke-linejoin="round"/>`,
    text(STRIP.left, STRIP.top + 8, 11, most),
  ].join("");
}
