import { memo } from "react";
import type { Setting } from "../../rode/index.ts";
import styles from "./drawing.module.css";
import { type View, xMetres, xPx, yPx } from "./view.ts";

/** Sky, water, ground and what holds the upper end: a bow afloat, a quay on land. All to scale but the boat's body. */
export const Backdrop = memo(function Backdrop({
  setting,
  view,
  rise,
  span,
}: {
  readonly setting: Setting;
  readonly view: View;
  readonly rise: number;
  /** Of the upper end, m. */
  readonly span: number;
}) {
  const { width, height } = view;
  const groundAt = (px: number): number => yPx(view, rise - Math.tan(setting.bottomSlope) * xMetres(view, px));
  const ground = `M0 ${groundAt(0)}L${width} ${groundAt(width)}V${height}H0Z`;
  const surface = setting.medium === "water" ? yPx(view, setting.rollerHeight) : null;
  return (
    <g>
      <rect className={styles.sky} width={width} height={height} />
      {surface !== null && (
        <>
          <rect className={styles.water} y={surface} width={width} height={Math.max(0, height - surface)} />
          <path className={styles.surface} d={`M0 ${surface}H${width}`} />
        </>
      )}
      {surface === null ? (
        <Quay x={xPx(view, span)} view={view} />
      ) : (
        <Bow x={xPx(view, span)} y={yPx(view, 0)} surface={surface} width={width} />
      )}
      <path className={styles.ground} d={ground} />
      <path className={styles.groundLine} d={`M0 ${groundAt(0)}L${width} ${groundAt(width)}`} />
    </g>
  );
});

/** The fore part of a boat, cut off by the frame: only its bow roller is to scale. */
function Bow({
  x,
  y,
  surface,
  width,
}: {
  readonly x: number;
  readonly y: number;
  readonly surface: number;
  readonly width: number;
}) {
  const board = Math.max(8, surface - y);
  const rake = 0.55 * board;
  const far = width + 20;
  const d = `M${x - 2} ${surface - board}L${far} ${surface - 0.82 * board}V${surface + 0.5 * board}H${x + 3.2 * board}Q${x + rake + 0.5 * board} ${surface + 0.45 * board} ${x + rake} ${surface}Z`;
  return <path className={styles.hull} d={d} />;
}

/** A quay: the upper end is made fast to its edge. */
function Quay({ x, view }: { readonly x: number; readonly view: View }) {
  const top = yPx(view, 0);
  return <path className={styles.quay} d={`M${x} ${top}H${view.width + 20}V${view.height}H${x}Z`} />;
}
