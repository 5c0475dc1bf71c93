/** A film of an overlay: every frame of it by its number, the same for files of pictures, a clip, and the eye. */
import { DEGREES } from "../../quantity/index.ts";
import { type Cut, framesWithin, nanosecondsOf, secondsText } from "./frame-time.ts";
import { loadAt, logTimeOf, type OverlayLog, rodeUnder, type Sync } from "./overlay.ts";
import { type PanelSpec, panelSvg } from "./panel.ts";

/** Six digits number the pictures of a film. */
export const MOST_FRAMES = 1_000_000;

/** s of load shown below, and steps it is drawn in. */
const BEFORE = 20;
const STEPS = 120;

/** The pull a film tells of. */
export interface FilmAsked extends Pick<PanelSpec, "rig" | "at" | "loadU" | "invented"> {
  readonly log: OverlayLog;
}

/** How it is shown: when, where in the frame, in which units. */
export interface FilmShown extends Pick<PanelSpec, "place" | "units"> {
  readonly sync: Sync;
}

/** One frame of the clip, as it is drawn and as it is told. */
export interface FilmFrame {
  /** The whole frame, nothing behind it. */
  readonly svg: string;
  /** ns from the log's first reading. */
  readonly ns: bigint;
  /** N; null where the log tells nothing. */
  readonly load: number | null;
  /** rad above the level, at the anchor; null where there is no load. */
  readonly angle: number | null;
}

/** Frames by their number in the clip, or why there can be none. */
export type Film =
  | { readonly kind: "film"; readonly frame: (clipFrame: number, shown: FilmShown) => FilmFrame }
  | { readonly kind: "noLoad" }
  | { readonly kind: "noEquilibrium" };

/** The overlay of a log: what it takes to work out once, before any frame. */
export function filmOf({ log, rig, at, loadU, invented = false }: FilmAsked): Film {
  const highest = log.load.reduce((most, load) => Math.max(most, load), 0);
  if (!(highest > 0)) return { kind: "noLoad" };
  const under = rodeUnder(rig, at, highest, loadU ?? 0);
  const far = under(highest);
  if (far === null) return { kind: "noEquilibrium" };
  const pulled = {
    rig,
    at,
    highest,
    invented,
    reach: Math.max(...far.shape.x),
    ...(loadU === undefined ? {} : { loadU }),
  };
  return {
    kind: "film",
    frame(clipFrame, { sync, ...shown }) {
      const ns = logTimeOf(clipFrame, sync);
      const load = loadAt(log, ns);
      const rode = load === null ? null : under(load);
      const before = Array.from({ length: STEPS + 1 }, (_, i) =>
        loadAt(log, ns - BigInt(Math.round(((STEPS - i) * BEFORE * 1e9) / STEPS))),
      );
      const svg = panelSvg({ ...pulled, ...shown }, { load, rode, before });
      return { svg, ns, load, angle: rode?.angle ?? null };
    },
  };
}

/** The clip whole, to the end of the log; null where it begins after that. */
export function wholeClip(time: Float64Array, sync: Sync): Cut | null {
  const end = BigInt(Math.round((time.at(-1)! - time[0]!) * 1e9));
  const left = end - logTimeOf(0, sync);
  return left < 0n ? null : { from: 0, to: framesWithin(left + 1n, sync.rate) };
}

/** Frames of a film. */
export const frameCount = (cuts: readonly Cut[]): number => cuts.reduce((sum, { from, to }) => sum + to - from, 0);

/** First line of the table of a film's frames. */
export const FRAMES_HEAD = "frame,clipFrame,clip_s,log_s,load_N,anchorAngle_deg\r\n";

/** One line of it: when the frame is in the clip and in the log, and what it shows. */
export function frameLine(frame: number, clipFrame: number, { rate }: Sync, { ns, load, angle }: FilmFrame): string {
  // A thousandth of a newton and of a degree: below it there is rounding alone.
  const cell = (value: number | null): string => (value === null ? "" : String(Math.round(value * 1000) / 1000));
  return `${frame},${clipFrame},${secondsText(nanosecondsOf(clipFrame, rate))},${secondsText(ns)},${cell(load)},${cell(angle === null ? null : angle * DEGREES)}\r\n`;
}
