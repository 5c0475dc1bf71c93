/** Load and angle at the anchor over the time ridden, and how often the load at the bow was how high. */
import { useEffect, useMemo, useRef } from "react";
import { SHARE_CLASSES, sharesOf } from "../../../figure/index.ts";
import { formatQuantity } from "../../controls/numbers.ts";
import { useSize } from "../../controls/use-size.ts";
import { FigureFrame } from "../../figure/figure-frame.tsx";
import { useUnits } from "../../state/preferences.ts";
import styles from "./gale.module.css";
import { ANCHOR, ANGLE, BOW, FRAME, type GaleRecord, sampleAt } from "./gale-record.ts";

/** Seconds the trace shows behind the second that plays. */
const SHOWN = 120;

export function GaleTrace({
  record,
  clock,
  still,
  limit,
}: {
  readonly record: GaleRecord;
  readonly clock: { readonly current: number };
  /** N at the bow of the rode at rest under the same mean load. */
  readonly still: number;
  /** Lowest working load limit of the rode's parts, N; null: none is known. */
  readonly limit: number | null;
}) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const [ref, { width }] = useSize<HTMLDivElement>();
  const { system, unitOf } = useUnits();
  const latest = useRef(record);
  latest.current = record;
  const { highest } = record;
  const unit = unitOf("load", "force");
  useEffect(() => {
    const element = canvas.current;
    const pen = element?.getContext("2d");
    if (!element || !pen || width === 0) return;
    const height = 150;
    const ratio = window.devicePixelRatio || 1;
    element.width = Math.round(width * ratio);
    element.height = Math.round(height * ratio);
    const colour = (name: string): string => getComputedStyle(element).getPropertyValue(name).trim();
    const colours = {
      paper: colour("--surface"),
      ink: colour("--ink"),
      soft: colour("--ink-2"),
      computed: colour("--computed"),
      other: colour("--other"),
      warn: colour("--warn"),
    };
    const label = (n: number): string => formatQuantity(n, "force", { system, unit, digits: 2 });
    let asked = 0;
    let shown = Number.NaN;
    let count = -1;
    const draw = (): void => {
      asked = requestAnimationFrame(draw);
      const now = latest.current;
      if (now.count === 0 || (clock.current === shown && now.count === count)) return;
      shown = clock.current;
      count = now.count;
      const from = Math.max(0, shown - SHOWN);
      const top = 1.06 * Math.max(highest, still);
      const loads = 96;
      const x = (t: number): number => ((t - from) / SHOWN) * width;
      const y = (load: number): number => loads - (load / top) * (loads - 8);
      pen.setTransform(ratio, 0, 0, ratio, 0, 0);
      pen.clearRect(0, 0, width, height);
      pen.font = "12px system-ui, sans-serif";
      // Letters stand on a halo of the paper's colour, so that a line behind them does not cross them out.
      const written = (text: string, at: number, high: number, fill: string): void => {
        pen.strokeStyle = colours.paper;
        pen.lineWidth = 4;
        pen.strokeText(text, at, high);
        pen.fillStyle = fill;
        pen.fillText(text, at, high);
        pen.lineWidth = 1;
      };
      const level = (load: number, stroke: string, text: string): void => {
        if (load > top) return;
        pen.strokeStyle = stroke;
        pen.setLineDash([5, 4]);
        pen.beginPath();
        pen.moveTo(0, y(load));
        pen.lineTo(width, y(load));
        pen.stroke();
        pen.setLineDash([]);
        written(text, 4, y(load) - 3, stroke);
      };
      const line = (value: number, stroke: string, at: (v: number) => number, wide: number): void => {
        pen.strokeStyle = stroke;
        pen.lineWidth = wide;
        pen.beginPath();
        const last = Math.min(now.count - 1, Math.floor(shown / FRAME));
        for (let k = Math.floor(from / FRAME); k <= last; k++) pen.lineTo(x(k * FRAME), at(sampleAt(now, k, value)));
        pen.stroke();
      };
      line(ANCHOR, colours.other, y, 1);
      line(BOW, colours.computed, y, 1.75);
      level(still, colours.soft, `at rest ${label(still)}`);
      if (limit !== null) level(limit, colours.warn, `working load limit ${label(limit)}`);
      const least = loads + 14;
      const angle = (v: number): number => height - 4 - (v / 0.35) * (height - least - 4);
      line(ANGLE, colours.ink, angle, 1.25);
      written(`bow and anchor, to ${label(top)}`, width - 170, 12, colours.soft);
      written("angle at the anchor, to 20°", width - 170, least, colours.soft);
    };
    asked = requestAnimationFrame(draw);
    return () => cancelAnimationFrame(asked);
  }, [width, highest, still, limit, clock, system, unit]);
  return (
    <div ref={ref}>
      <canvas
        ref={canvas}
        className={styles.trace}
        role="img"
        aria-label="Load at the bow and at the anchor, and the angle at the anchor, over the last two minutes shown; the numbers stand beside"
      />
    </div>
  );
}

const files = () => import("./gale-files.ts");

/** Share of the time at each height of the load at the bow. */
export function GaleShares({
  rig,
  record,
  still,
  limit,
}: {
  /** Its name. */
  readonly rig: string;
  readonly record: GaleRecord;
  readonly still: number;
  readonly limit: number | null;
}) {
  const { system, unitOf } = useUnits();
  const unit = unitOf("load", "force");
  const { shares, top } = useMemo(() => {
    const most = Math.max(still, record.highest);
    const loads = Float64Array.from({ length: record.count }, (_, k) => sampleAt(record, k, BOW));
    return { shares: sharesOf(loads, most), top: most };
  }, [record, still]);
  const tallest = Math.max(1e-6, ...shares);
  const title = `Time at each load at the bow: ${rig}`;
  const text = (n: number): string => formatQuantity(n, "force", { system, unit, digits: 2 });
  const mark = (load: number): number => (load / top) * 300;
  return (
    <FigureFrame
      kind="shares"
      title={title}
      ownHand
      table={async () => (await files()).sharesTable(shares, top)}
      redrawn={async () => (await files()).drawnShares(title, shares, { top, still, limit }, unit)}
      caption={<p className={styles.caption}>Heights by the square root, so that rare loads are seen.</p>}
    >
      <svg
        className={styles.shares}
        viewBox="0 0 300 92"
        role="img"
        aria-label={`Time spent at each load at the bow, from none to ${text(top)}`}
      >
        {shares.map((share, i) => (
          <rect
            // biome-ignore lint/suspicious/noArrayIndexKey: a class is its place
            key={i}
            className={styles.share}
            x={(i * 300) / SHARE_CLASSES + 0.5}
            width={300 / SHARE_CLASSES - 1}
            y={72 - 68 * Math.sqrt(share / tallest)}
            height={68 * Math.sqrt(share / tallest)}
          />
        ))}
        <path className={styles.still} d={`M${mark(still)} 2V74`} />
        {limit !== null && limit <= top && <path className={styles.limit} d={`M${mark(limit)} 2V74`} />}
        <text className={styles.label} x={0} y={88}>
          0
        </text>
        <text className={styles.label} x={300} y={88} textAnchor="end">
          {text(top)}
        </text>
        <text className={styles.label} x={Math.min(220, mark(still) + 4)} y={88}>
          at rest {text(still)}
        </text>
      </svg>
    </FigureFrame>
  );
}
