import { useMemo } from "react";
import type { ReducedLog } from "../../../study/index.ts";
import { useSize } from "../../controls/use-size.ts";
import { DrawnFigure } from "../../figure/drawn-figure.tsx";
import type { ShownFigure } from "../../figure/shown-figure.ts";
import { useUnits } from "../../state/preferences.ts";
import { type Question, useNewest } from "../../work/worker.ts";
import styles from "./log.module.css";

/** Load held over how far the anchor had gone by then; nothing where fewer than two are known. */
export function WayChart({
  name,
  reduced: { way },
  readAt,
}: {
  readonly name: string;
  readonly reduced: Extract<ReducedLog, { kind: "reduced" }>;
  readonly readAt: "anchor" | "bow";
}) {
  const { system } = useUnits();
  const [ref, { width }] = useSize<HTMLDivElement>();
  const drawnAt = Math.round(width / 20) * 20;
  const ask = useMemo(
    () =>
      drawnAt < 100 || way.length < 2
        ? null
        : (((work) => work.wayFigure(name, way, readAt, system, drawnAt)) satisfies Question<ShownFigure>),
    [name, way, readAt, system, drawnAt],
  );
  const figure = useNewest(ask).answer;
  return (
    <div ref={ref}>
      {way.length >= 2 && figure !== null && (
        <DrawnFigure
          kind="way"
          ofBook
          figure={figure}
          caption={
            <p className={styles.quiet}>
              Each load held, numbered in the order of time, over how far the anchor had gone by its end. Bars: one
              standard uncertainty; the ways share their error.
            </p>
          }
        />
      )}
    </div>
  );
}
