import { useMemo } from "react";
import { againstText } from "../../publish/index.ts";
import type { Cell, SeriesPlan, SeriesSite } from "../../series/index.ts";
import { degreesText } from "../../words/index.ts";
import { byDecimal } from "../controls/by-decimal.tsx";
import { FaultNote } from "../controls/fault-note.tsx";
import { formatQuantity } from "../controls/numbers.ts";
import { Scroll } from "../controls/scroll.tsx";
import { useSize } from "../controls/use-size.ts";
import { DrawnText } from "../figure/drawn-figure.tsx";
import { FigureFrame } from "../figure/figure-frame.tsx";
import { useUnits } from "../state/preferences.ts";
import { type Question, useNewest } from "../work/worker.ts";
import styles from "./place.module.css";
import type { SiteWater } from "./series-work.ts";

/** In which water each angle can be had at each load, a drawing a site; the same as a table below it. */
export function WaterPictures({ text, plan }: { readonly text: string; readonly plan: SeriesPlan }) {
  const { system } = useUnits();
  const [ref, { width }] = useSize<HTMLDivElement>();
  const drawnAt = Math.round(width / 20) * 20;
  const ask = useMemo(
    () =>
      drawnAt < 100 ? null : (((work) => work.seriesWater(text, system, drawnAt)) satisfies Question<SiteWater[]>),
    [text, system, drawnAt],
  );
  const drawn = useNewest(ask);
  return (
    <div ref={ref} className={styles.pictures}>
      {drawn.fault !== null && <FaultNote of={drawn} what="the drawing of the water" />}
      {plan.series.sites.map((site) => {
        const water = drawn.answer?.find((one) => one.site === site.name);
        return (
          <div key={site.name}>
            {water !== undefined && (
              <FigureFrame kind="water" title={water.title} table={() => water.table} ownHand ownSize>
                <DrawnText svg={water.svg} />
              </FigureFrame>
            )}
            <p className={styles.told}>
              A bar: water in which the angle can be had at that load; the ring: where the depth moves it least.
            </p>
            <WaterTable site={site} cells={plan.table.filter((cell) => cell.site === site.name)} />
          </div>
        );
      })}
    </div>
  );
}

/** What the drawing shows, folded: by eye the drawing says it sooner. */
function WaterTable({ site, cells }: { readonly site: SeriesSite; readonly cells: readonly Cell[] }) {
  const { system } = useUnits();
  const length = (metres: number) => formatQuantity(metres, "length", { system, digits: 3 });
  const force = (newtons: number) => formatQuantity(newtons, "force", { system, digits: 3 });
  const angles = byDecimal(cells.map(({ angle }) => degreesText(angle)));
  const loads = byDecimal(cells.map(({ load }) => force(load)));
  const out = byDecimal(cells.map(({ had }) => had && length(had.length)));
  const bows = byDecimal(cells.map(({ had }) => had && force(had.bow)));
  return (
    <details className={styles.same}>
      <summary>The water of {site.name} as a table</summary>
      <Scroll name={`Water of ${site.name}`} className={styles.scroll}>
        <table className={styles.table}>
          <thead>
            <tr>
              {["angle", "load", "in water of", "best in", "out", "at the bow"].map((head) => (
                <th key={head} scope="col">
                  {head}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {cells.map((cell) => {
              const { angle, load, had, depths } = cell;
              return (
                <tr key={`${angle} ${load}`}>
                  <th scope="row">{angles(degreesText(angle))}</th>
                  <td>{loads(force(load))}</td>
                  {had === null || depths === null ? (
                    <td colSpan={4} className={styles.none}>
                      <strong>✕ none.</strong> {againstText(cell, system)}
                    </td>
                  ) : (
                    <>
                      <td>
                        {length(depths.least)} to {length(depths.most)}
                      </td>
                      <td>{length(had.depth)}</td>
                      <td>
                        {out(length(had.length))} <small>{had.rode}</small>
                      </td>
                      <td>{bows(force(had.bow))}</td>
                    </>
                  )}
                </tr>
              );
            })}
          </tbody>
        </table>
      </Scroll>
    </details>
  );
}
