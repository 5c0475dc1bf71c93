import { useMemo } from "react";
import { Panel } from "../controls/panel.tsx";
import { PlaceLink } from "../controls/place-link.tsx";
import { useSize } from "../controls/use-size.ts";
import { DrawnFigure } from "../figure/drawn-figure.tsx";
import type { ShownFigure } from "../figure/shown-figure.ts";
import { useUnits } from "../state/preferences.ts";
import { useStore } from "../state/use-store.ts";
import { type Question, useNewest } from "../work/worker.ts";
import { bookCopy } from "./book-copy.ts";
import styles from "./place.module.css";

/** What the pulls of the book came to, an anchor a row; what they allow to be said is worked out in Holding. */
export function HoldingChart() {
  const { records } = useStore(bookCopy);
  const { system } = useUnits();
  const [ref, { width }] = useSize<HTMLDivElement>();
  const drawnAt = Math.round((width - 34) / 20) * 20;
  const { pull, series, day, site, seabed, anchor, rigVersion } = records;
  const ask = useMemo(
    () =>
      drawnAt < 100
        ? null
        : (((work) =>
            work
              .bookPulls({ pull, series, day, site, seabed, anchor, rigVersion } as never)
              .then(({ pulls }) =>
                pulls.length === 0
                  ? null
                  : work.pullsFigure(pulls, [...new Set(pulls.map((one) => one.anchor))].sort(), system, drawnAt),
              )) satisfies Question<ShownFigure | null>),
    [pull, series, day, site, seabed, anchor, rigVersion, system, drawnAt],
  );
  const figure = useNewest(ask).answer;
  return (
    <div ref={ref}>
      {figure !== null && (
        <Panel title="What each held" beside={<PlaceLink to="/holding">What they allow to be said</PlaceLink>}>
          <DrawnFigure
            kind="pulls"
            ofBook
            figure={figure}
            titleUnseen
            caption={
              <p className={styles.quiet}>
                Filled diamond: gave way there. Arrow on: held that and was let go. Bar: gave way somewhere along it.
                Arrow back: never held.
              </p>
            }
          />
        </Panel>
      )}
    </div>
  );
}
