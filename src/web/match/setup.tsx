import { Link } from "@tanstack/react-router";
import { type RefObject, useMemo } from "react";
import { drawRode } from "../../figure/index.ts";
import { type Rig, riseOf, withValue } from "../../rode/index.ts";
import { rigDesk } from "../rig/desk.ts";
import { Button } from "../show/button.tsx";
import { Panel } from "../show/panel.tsx";
import { QuantityField } from "../show/quantity-field.tsx";
import { Reading } from "../show/reading.tsx";
import { useSize } from "../show/use-size.ts";
import { useUnits } from "../state/preferences.ts";
import { type Answer, whyNot } from "./comparison.ts";
import { linesOf, type MatchState, matchDesk, paidOut, type Side, withRig } from "./desk.ts";
import styles from "./place.module.css";
import { SlideField } from "./slide-field.tsx";

/** One of the two setups: what its anchor feels, what is paid out, and how it lies. */
export function Setup({
  side,
  state,
  answer,
}: {
  readonly side: Side;
  readonly state: MatchState;
  readonly answer: Answer;
}) {
  const rig = state[side];
  const { system } = useUnits();
  const [ref, { width }] = useSize<HTMLDivElement>();
  const paid = paidOut(state, side);
  const lines = linesOf(rig);
  const settled = "settled" in answer ? answer.settled : null;
  const set = (next: Rig, label: string, stroke?: string) =>
    matchDesk.set((before) => ({ ...before, [side]: next }), { label, ...(stroke === undefined ? {} : { stroke }) });
  const drawn = useMemo(
    () =>
      "settled" in answer && width > 0
        ? drawRode({
            rig,
            traced: answer,
            units: system,
            width: Math.round(width),
          }).svg
        : null,
    [answer, rig, system, width],
  );
  const water = rig.setting.medium === "water";
  const depth = water ? rig.setting.depth : rig.setting.rise;
  const whole = rig.rode.reduce((sum, part) => sum + (part.kind === "line" ? part.length : 0), 0);
  return (
    <Panel
      title={rig.name}
      className={styles.setup}
      beside={
        <span className={styles.buttons}>
          <Button
            onClick={() =>
              matchDesk.set((before) => withRig(before, side, rigDesk.get().rig), { label: "rig of the bench" })
            }
          >
            Take the rig of the bench
          </Button>
          <Link
            to="/rig"
            onClick={() =>
              rigDesk.set((before) => ({ ...before, rig, load: { at: "bow", newtons: state.load } }), {
                label: `rig ${rig.name}`,
              })
            }
          >
            Open in Rig
          </Link>
        </span>
      }
    >
      <dl className={styles.numbers}>
        <Reading
          name="angle at the anchor"
          dimension="angle"
          value={settled?.anchor.angle ?? null}
          big
          note={settled !== null && "lift" in answer && answer.lift <= 0 ? "not lifted" : undefined}
        />
        <Reading name="load at the anchor" dimension="force" value={settled?.anchor.tension ?? null} />
        <Reading name="scope" dimension="ratio" field="scope" value={whole / riseOf(rig.setting)} />
        <Reading name="on the bottom" field="length" dimension="length" value={settled?.grounded ?? null} />
      </dl>
      {lines.length > 1 && (
        <label className={styles.paid}>
          <span>paid out and hauled in</span>
          <select
            value={paid.part}
            onChange={(event) =>
              matchDesk.set((before) => ({ ...before, paid: { ...before.paid, [side]: Number(event.target.value) } }), {
                label: "part that is paid out",
              })
            }
          >
            {lines.map(({ part, name }) => (
              <option key={part} value={part}>
                {name}
              </option>
            ))}
          </select>
        </label>
      )}
      <SlideField
        field="length"
        label={`length of ${paid.name}`}
        dimension="length"
        value={paid.length}
        least={1}
        most={150}
        onChange={(value, stroke) => set(withValue(rig, { what: "length", part: paid.part }, value), "length", stroke)}
      />
      <SlideField
        field="length"
        label={water ? "depth" : "rise"}
        dimension="length"
        value={depth}
        least={1}
        most={40}
        onChange={(value, stroke) =>
          set(withValue(rig, water ? { what: "depth" } : { what: "rise" }, value), water ? "depth" : "rise", stroke)
        }
      />
      <div className={styles.narrow}>
        <QuantityField
          field={water ? "length" : "slope"}
          label={water ? "roller above the water" : "slope of the ground"}
          dimension={water ? "length" : "angle"}
          value={rig.setting.medium === "water" ? rig.setting.rollerHeight : rig.setting.bottomSlope}
          range={
            water
              ? { least: 0, most: 100, expected: "a height of zero or more is expected" }
              : { least: -0.78, most: 0.78, expected: "a slope from -45 to 45 deg is expected" }
          }
          onChange={(value) =>
            set(
              rig.setting.medium === "water"
                ? { ...rig, setting: { ...rig.setting, rollerHeight: value } }
                : { ...rig, setting: { ...rig.setting, bottomSlope: value } },
              "setting",
              `setting ${side}`,
            )
          }
        />
      </div>
      <div ref={ref as RefObject<HTMLDivElement>} className={styles.drawing}>
        {drawn !== null ? (
          // biome-ignore lint/security/noDangerouslySetInnerHtml: drawn by src/figure, which escapes every text
          <div dangerouslySetInnerHTML={{ __html: drawn }} />
        ) : (
          <p className={styles.wrong}>{"settled" in answer ? "" : whyNot(rig.name, answer, system)}</p>
        )}
      </div>
    </Panel>
  );
}
