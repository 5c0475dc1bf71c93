import { memo, type PointerEvent, useRef } from "react";
import type { Store } from "../../state/store.ts";
import { useStore } from "../../state/use-store.ts";
import { GUTTER } from "./gutter.ts";
import styles from "./log.module.css";
import type { Drawn } from "./view-bytes.ts";
import { type Window, within } from "./window.ts";

const HEIGHT = 40;

interface Props {
  readonly view: Store<Window>;
  readonly whole: Window;
  readonly width: number;
  readonly data: Drawn;
  readonly coarse: readonly [number, number];
}

/** The whole log below its window: where one is in it, and a way to go elsewhere at once. */
export function Minimap(props: Props) {
  const { view, whole, width } = props;
  const { from, to } = useStore(view);
  const held = useRef(false);
  const plot = Math.max(1, width - GUTTER.left - GUTTER.right);
  const x = (t: number) => GUTTER.left + ((t - whole.from) / (whole.to - whole.from)) * plot;
  const goTo = (event: PointerEvent<SVGSVGElement>) => {
    const box = event.currentTarget.getBoundingClientRect();
    const t = whole.from + ((event.clientX - box.left - GUTTER.left) / plot) * (whole.to - whole.from);
    const half = (to - from) / 2;
    view.put(within({ from: t - half, to: t + half }, whole));
  };
  return (
    <svg
      className={styles.minimap}
      width={width}
      height={HEIGHT}
      aria-hidden="true"
      onPointerDown={(event) => {
        held.current = true;
        event.currentTarget.setPointerCapture(event.pointerId);
        goTo(event);
      }}
      onPointerMove={(event) => {
        if (held.current) goTo(event);
      }}
      onPointerUp={() => {
        held.current = false;
      }}
      onPointerCancel={() => {
        held.current = false;
      }}
    >
      <rect className={styles.minimapPaper} x={GUTTER.left} y="0" width={plot} height={HEIGHT} />
      <Outline {...props} />
      <rect
        className={styles.minimapWindow}
        x={x(from)}
        y="1"
        width={Math.max(4, x(to) - x(from))}
        height={HEIGHT - 2}
        rx="3"
      />
    </svg>
  );
}

/** Drawn once: from the least to the greatest along the whole log. */
const Outline = memo(
  function Outline({ whole, width, data, coarse }: Props) {
    const plot = Math.max(1, width - GUTTER.left - GUTTER.right);
    const x = (t: number) => (GUTTER.left + ((t - whole.from) / (whole.to - whole.from)) * plot).toFixed(1);
    const y = (value: number) =>
      (HEIGHT - 3 - ((value - coarse[0]) / (coarse[1] - coarse[0])) * (HEIGHT - 6)).toFixed(1);
    let over = "";
    let back = "";
    for (let i = 0; i < data.x.length; i++) {
      const [min, max] = [data.min[i], data.max[i]];
      if (min === null || max === null || min === undefined || max === undefined) continue;
      over += `${over === "" ? "M" : "L"}${x(data.x[i]!)} ${y(max)}`;
      back = `L${x(data.x[i]!)} ${y(min)}${back}`;
    }
    const path = `${over}${back}Z`;
    return <path className={styles.minimapLine} d={path} />;
  },
  (before, after) =>
    before.data === after.data &&
    before.width === after.width &&
    before.whole === after.whole &&
    before.coarse[0] === after.coarse[0] &&
    before.coarse[1] === after.coarse[1],
);
