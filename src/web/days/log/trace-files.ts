/** What leaves the bench of a trace: what is in view as a table, and as a drawing of one panel a channel. */

import type { FigureTable } from "../../../figure/index.ts";
import { drawPanels, type Layer } from "../../../figure/index.ts";
import { clockText, isDated } from "./clock.ts";
import type { Drawn } from "./view-bytes.ts";
import type { Window } from "./window.ts";

/** A channel as it is drawn, in the unit shown. */
export interface TracedChannel {
  readonly name: string;
  readonly unit: string;
  readonly measured: boolean;
  readonly data: Drawn;
}

/** A mark within the window: where it begins, s as the log counts, and what it says. */
export interface TracedMark {
  readonly at: number;
  readonly text: string;
}

/** Words of more marks would lie over one another. */
const MOST_MARKS = 12;

/** A stretch of a channel without a silence. */
interface Piece {
  readonly t: number[];
  readonly min: number[];
  readonly max: number[];
}

/** What of a channel lies in the window, parted where a silence breaks the line. */
function within({ data }: TracedChannel, { from, to }: Window): Piece[] {
  const pieces: Piece[] = [];
  let open: Piece | null = null;
  data.x.forEach((t, i) => {
    const [low, high] = [data.min[i], data.max[i]];
    if (low === null || low === undefined || high === null || high === undefined) open = null;
    else if (t >= from && t <= to) {
      if (open === null) {
        open = { t: [], min: [], max: [] };
        pieces.push(open);
      }
      open.t.push(t);
      open.min.push(low);
      open.max.push(high);
    }
  });
  return pieces;
}

/** Each stretch that is drawn, with its least and greatest reading; both the same where it is one reading. */
export function traceTable(channels: readonly TracedChannel[], window: Window): FigureTable {
  return {
    columns: ["channel", isDated(window.from) ? "time, s since 1970 UTC" : "time, s", "least", "greatest"],
    rows: channels.flatMap((channel) =>
      within(channel, window).flatMap(({ t, min, max }) =>
        t.map((at, i) => [`${channel.name}, ${channel.unit}`, at, min[i]!, max[i]!] as const),
      ),
    ),
  };
}

/** The channels over the window, each from its least to its greatest reading, and where the marks of the first stand. */
export function traceSvg(
  title: string,
  channels: readonly TracedChannel[],
  marks: readonly TracedMark[],
  window: Window,
): string {
  const begins = clockText(window.from, 1);
  const start = isDated(window.from)
    ? `${new Date(window.from * 1000).toISOString().slice(0, 10)} ${begins} UTC`
    : begins;
  const inView = marks.filter(({ at }) => at >= window.from && at <= window.to).slice(0, MOST_MARKS);
  return drawPanels({
    title,
    description: `${channels.map(({ name }) => name).join(", ")} over time from ${start}`,
    x: { label: `time since ${start}`, unit: "s", from: 0, to: window.to - window.from },
    panels: channels.map((channel, k) => {
      const role = channel.measured ? "measured" : "other";
      const layers: Layer[] = [
        ...within(channel, window).flatMap(({ t, min, max }): Layer[] => {
          const x = t.map((at) => at - window.from);
          return [
            { kind: "band", x, low: min, high: max, role },
            { kind: "line", x, y: max, role },
            { kind: "line", x, y: min, role },
          ];
        }),
        ...(k > 0 ? [] : inView.map((mark) => ruleOf(mark, window))),
      ];
      return { y: { label: channel.name, unit: channel.unit }, height: k === 0 ? 240 : 140, layers };
    }),
    alone: true,
  }).svg;
}

const ruleOf = ({ at, text }: TracedMark, { from }: Window): Layer => ({
  kind: "rule",
  axis: "x",
  at: at - from,
  role: "faint",
  label: text,
});
