import { type RefObject, useMemo } from "react";
import { drawTogether } from "../../figure/index.ts";
import { shapeOf } from "../../rode/index.ts";
import { useSize } from "../controls/use-size.ts";
import { FigureFrame } from "../figure/figure-frame.tsx";
import { rodeTable } from "../figure/rode-table.ts";
import { useUnits } from "../state/preferences.ts";
import type { Answer } from "./comparison.ts";
import styles from "./place.module.css";
import { LETTER, type MatchState, type Side } from "./state.ts";

/** Both rodes from one anchor, to one scale, each in its colour and with its sign. */
export function BothDrawn({
  state,
  answers,
}: {
  readonly state: MatchState;
  readonly answers: Readonly<Record<Side, Answer>>;
}) {
  const { system } = useUnits();
  const [ref, { width }] = useSize<HTMLDivElement>();
  const { one, other } = answers;
  const svg = useMemo(() => {
    if (!("settled" in one) || !("settled" in other) || width === 0) return null;
    const named = (side: Side) => ({ ...state[side], name: `${LETTER[side]}, ${state[side].name}` });
    return drawTogether({
      first: { rig: named("one"), traced: one },
      second: { rig: named("other"), traced: other },
      units: system,
      width: Math.round(width),
    }).svg;
  }, [one, other, state, system, width]);
  const named = (side: Side) => ({ ...state[side], name: `${LETTER[side]}, ${state[side].name}` });
  const table =
    "settled" in one && "settled" in other
      ? () =>
          rodeTable([
            { rig: named("one"), shape: shapeOf(one) },
            { rig: named("other"), shape: shapeOf(other) },
          ])
      : null;
  return (
    <FigureFrame kind="together" title="Both rodes from one anchor, to scale" ownHand table={table}>
      <div ref={ref as RefObject<HTMLDivElement>} className={styles.drawing}>
        {/* biome-ignore lint/security/noDangerouslySetInnerHtml: drawn by src/figure, which escapes every text */}
        {svg !== null && <div dangerouslySetInnerHTML={{ __html: svg }} />}
      </div>
    </FigureFrame>
  );
}
