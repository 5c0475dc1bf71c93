import { useMemo } from "react";
import { onePullFigure } from "../../publish/index.ts";
import { Panel } from "../controls/panel.tsx";
import { useSize } from "../controls/use-size.ts";
import { DrawnText } from "../figure/drawn-figure.tsx";
import { FigureFrame } from "../figure/figure-frame.tsx";
import { useUnits } from "../state/preferences.ts";
import { onePullOf } from "./ended.ts";
import type { EndedPull } from "./keep.ts";

/** The pull that ended as it went: load over time, its steps and marks. Of what this device has: no network is needed. */
export default function EndedFigure({ pull }: { readonly pull: EndedPull }) {
  const { system } = useUnits();
  const [ref, { width }] = useSize<HTMLDivElement>();
  const drawnAt = Math.round(width / 20) * 20;
  const made = useMemo(() => onePullFigure(onePullOf(pull), system), [pull, system]);
  if (made.table.rows.length === 0) return null;
  return (
    <Panel title="The pull that ended">
      <div ref={ref}>
        {drawnAt >= 100 && (
          <FigureFrame
            kind="one-pull"
            ofBook
            title={made.title}
            table={() => made.table}
            ownHand
            ownSize
            uncertain={made.uncertain}
            caption={<p>{made.uncertain}</p>}
          >
            <DrawnText svg={made.draw(drawnAt, 260).svg} />
          </FigureFrame>
        )}
      </div>
    </Panel>
  );
}
