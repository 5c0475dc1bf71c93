/**
 * The boat and her rode in motion, to scale: from the side, and from above in the same scale. Drawn straight into the
 * paths a frame at a time: nothing is laid out anew while it moves.
 */
import { useEffect, useMemo, useRef } from "react";
import { type Rig, riseOf } from "../../../rode/index.ts";
import type { Boat } from "../../../sea/index.ts";
import { useSize } from "../../controls/use-size.ts";
import { totalLength } from "../../rig/parts.ts";
import { fit as fitView, type View, xPx, yPx } from "../../rig/view.ts";
import styles from "./gale.module.css";
import { type GaleRecord, pictureAt } from "./gale-record.ts";

export function GaleView({
  rig,
  boat,
  record,
  clock,
}: {
  readonly rig: Rig;
  readonly boat: Boat;
  readonly record: GaleRecord;
  /** The second that is shown, read at every frame. */
  readonly clock: { readonly current: number };
}) {
  const [ref, { width, height }] = useSize<SVGSVGElement>();
  const rode = useRef<SVGPathElement>(null);
  const hull = useRef<SVGPathElement>(null);
  const rodeAbove = useRef<SVGPathElement>(null);
  const hullAbove = useRef<SVGPathElement>(null);
  const rise = riseOf(rig.setting);
  const surface = rig.setting.medium === "water" ? rig.setting.depth : rise;
  const { side, above } = useMemo(() => {
    const to = 1.03 * totalLength(rig) + boat.length;
    const extent = { from: -2, to, below: rise + 0.5, above: 2.5 };
    const half = Math.max(60, height * 0.55);
    const margins = { left: 12, right: 12, top: 10, bottom: 6 };
    const view = fitView(width, half, extent, margins);
    return { side: view, above: { ...view, top: half + (height - half) / 2 } };
  }, [rig, boat.length, rise, width, height]);
  const picture = useMemo(() => new Float32Array(Math.max(3, record.width)), [record.width]);
  const latest = useRef(record);
  latest.current = record;
  useEffect(() => {
    let asked = 0;
    let shown = Number.NaN;
    const draw = (): void => {
      asked = requestAnimationFrame(draw);
      const now = latest.current;
      const seconds = clock.current;
      if (now.count === 0 || seconds === shown || !pictureAt(now, seconds, picture)) return;
      shown = seconds;
      const n = now.nodes;
      let line = "";
      let flat = "";
      for (let i = 0; i < n; i++) {
        const x = xPx(side, picture[3 * i]!).toFixed(1);
        line += `${i === 0 ? "M" : "L"}${x} ${yPx(side, rise - picture[3 * i + 2]!).toFixed(1)}`;
        flat += `${i === 0 ? "M" : "L"}${x} ${(above.top - picture[3 * i + 1]! * above.scale).toFixed(1)}`;
      }
      rode.current?.setAttribute("d", line);
      rodeAbove.current?.setAttribute("d", flat);
      const bow = 3 * (n - 1);
      const heading = picture[3 * n + 2]!;
      hull.current?.setAttribute(
        "d",
        sideHull(side, picture[bow]!, rise - picture[bow + 2]!, boat, surface, rise, Math.cos(heading)),
      );
      hullAbove.current?.setAttribute("d", topHull(above, picture[3 * n]!, picture[3 * n + 1]!, heading, boat));
    };
    asked = requestAnimationFrame(draw);
    return () => cancelAnimationFrame(asked);
  }, [side, above, picture, clock, boat, rise, surface]);
  const ground = (x: number): number => yPx(side, rise - Math.tan(rig.setting.bottomSlope) * x);
  const [left, right] = [-side.left / side.scale, (width - side.left) / side.scale];
  const split = Math.max(60, height * 0.55);
  return (
    <svg
      ref={ref}
      className={styles.drawing}
      role="img"
      aria-label="The boat and her rode in motion, to scale: from the side, and from above"
    >
      {width > 0 && (
        <>
          <rect className={styles.sky} width={width} height={split} />
          <rect
            className={styles.water}
            y={yPx(side, rise - surface)}
            width={width}
            height={Math.max(0, split - yPx(side, rise - surface))}
          />
          <path className={styles.ground} d={`M0 ${ground(left)}L${width} ${ground(right)}V${split}H0Z`} />
          <rect className={styles.water} y={split} width={width} height={height - split} />
          <path className={styles.between} d={`M0 ${split}H${width}`} />
          <path className={styles.wind} d={`M${width - 58} ${split + 16}h40m-8 -5l8 5l-8 5`} />
          <text className={styles.label} x={width - 62} y={split + 20} textAnchor="end">
            wind
          </text>
          <text className={styles.label} x={8} y={18}>
            from the side
          </text>
          <text className={styles.label} x={8} y={split + 20}>
            from above
          </text>
          <path ref={hull} className={styles.hull} />
          <path ref={rode} className={styles.rode} />
          <path ref={hullAbove} className={styles.hull} />
          <path ref={rodeAbove} className={styles.rode} />
          <circle className={styles.anchor} cx={xPx(side, 0)} cy={yPx(side, rise)} r={4} />
          <circle className={styles.anchor} cx={xPx(above, 0)} cy={above.top} r={4} />
        </>
      )}
    </svg>
  );
}

/** The hull from the side, from the roller aft; shorter as she turns away. */
function sideHull(
  view: View,
  bowX: number,
  bowBelow: number,
  boat: Boat,
  surface: number,
  rise: number,
  cos: number,
): string {
  const length = boat.length * cos;
  const water = rise - surface;
  const at = (share: number, below: number): string =>
    `${xPx(view, bowX + share * length).toFixed(1)} ${yPx(view, below).toFixed(1)}`;
  const stern = water - 0.8 * boat.bowRollerHeight;
  return `M${at(0, bowBelow)}L${at(1, stern)}L${at(0.97, water + 0.1)}Q${at(0.5, water + 2 * (boat.bodyDraught ?? 0.4 * boat.draught))} ${at(0.08, water)}Z`;
}

/** The hull from above about its middle. */
function topHull(view: View, x: number, y: number, heading: number, boat: Boat): string {
  const half = boat.length / 2;
  const wide = boat.beam / 2;
  const [c, s] = [Math.cos(heading), Math.sin(heading)];
  const at = (ahead: number, port: number): string => {
    const px = x - ahead * c + port * s;
    const py = y - ahead * s - port * c;
    return `${xPx(view, px).toFixed(1)} ${(view.top - py * view.scale).toFixed(1)}`;
  };
  return `M${at(half, 0)}Q${at(0.35 * half, wide)} ${at(-0.2 * half, wide)}L${at(-half, 0.75 * wide)}L${at(-half, -0.75 * wide)}L${at(-0.2 * half, -wide)}Q${at(0.35 * half, -wide)} ${at(half, 0)}Z`;
}
