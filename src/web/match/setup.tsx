import { isUneven, type Rig, riseOf, type SettledUncertainty, withValue } from "../../rode/index.ts";
import { boundsText, spreadWords } from "../../words/index.ts";
import { Button } from "../controls/button.tsx";
import { Panel } from "../controls/panel.tsx";
import { PlaceLink } from "../controls/place-link.tsx";
import { QuantityField } from "../controls/quantity-field.tsx";
import { Reading } from "../controls/reading.tsx";
import { rigStore } from "../rig/store.ts";
import { useUnits } from "../state/preferences.ts";
import { type Answer, whyNot } from "./comparison.ts";
import styles from "./place.module.css";
import { SlideField } from "./slide-field.tsx";
import { LETTER, linesOf, type MatchState, paidOut, type Side, withRig } from "./state.ts";
import { matchStore } from "./store.ts";

/** One of the two setups: what its anchor feels, what is paid out, and how it lies. */
export function Setup({
  side,
  state,
  answer,
  uncertainty,
}: {
  readonly side: Side;
  readonly state: MatchState;
  readonly answer: Answer;
  readonly uncertainty: SettledUncertainty | null;
}) {
  const rig = state[side];
  const { system } = useUnits();
  const paid = paidOut(state, side);
  const lines = linesOf(rig);
  const settled = "settled" in answer ? answer.settled : null;
  const { firstOrder: sure, spread } = uncertainty ?? { firstOrder: null, spread: null };
  const angle = settled?.anchor.angleToBottom;
  const range =
    spread != null && angle !== undefined && isUneven(angle, sure?.angleToBottom ?? 0, spread.bounds.angleToBottom)
      ? `95 of 100: ${boundsText(spread.bounds.angleToBottom, "angle", { system })}`
      : undefined;
  const { lifted } = spreadWords(uncertainty);
  const set = (next: Rig, label: string, stroke?: string) =>
    matchStore.set((before) => ({ ...before, [side]: next }), { label, ...(stroke === undefined ? {} : { stroke }) });
  const water = rig.setting.medium === "water";
  const depth = water ? rig.setting.depth : rig.setting.rise;
  const whole = rig.rode.reduce((sum, part) => sum + (part.kind === "line" ? part.length : 0), 0);
  return (
    <Panel
      title={`${LETTER[side]}: ${rig.name}`}
      className={`${styles.setup} ${styles[side]}`}
      beside={
        <span className={styles.buttons}>
          <Button
            onClick={() =>
              matchStore.set((before) => withRig(before, side, rigStore.get().rig), { label: "rig from Rig" })
            }
          >
            Take the rig from Rig
          </Button>
          <PlaceLink
            to="/rig"
            onClick={() =>
              rigStore.set((before) => ({ ...before, rig, load: { at: "bow", newtons: state.load } }), {
                label: `rig ${rig.name}`,
              })
            }
          >
            Open in Rig
          </PlaceLink>
        </span>
      }
    >
      <dl className={styles.numbers}>
        <Reading
          name="angle to the bottom at the anchor"
          dimension="angle"
          value={angle ?? null}
          u={sure?.angleToBottom}
          big
          note={
            [
              settled !== null && "excess" in answer && answer.excess <= 0 ? "not lifted" : undefined,
              range,
              lifted ?? undefined,
            ]
              .filter((note) => note !== undefined)
              .join("; ") || undefined
          }
        />
        <Reading
          name="load at the anchor"
          dimension="force"
          value={settled?.anchor.tension ?? null}
          u={sure?.anchorTension}
        />
        <Reading name="scope" dimension="ratio" field="scope" value={whole / riseOf(rig.setting)} />
        <Reading
          name="on the bottom"
          field="length"
          dimension="length"
          value={settled?.grounded ?? null}
          u={sure?.grounded}
        />
      </dl>
      {lines.length > 1 && (
        <label className={styles.paid}>
          <span>Paid out and hauled in</span>
          <select
            value={paid.part}
            onChange={(event) =>
              matchStore.set(
                (before) => ({ ...before, paid: { ...before.paid, [side]: Number(event.target.value) } }),
                {
                  label: "part that is paid out",
                },
              )
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
        label={`Length of ${paid.name}`}
        dimension="length"
        value={paid.length}
        least={1}
        most={150}
        onChange={(value, stroke) => set(withValue(rig, { what: "length", part: paid.part }, value), "length", stroke)}
      />
      <SlideField
        field="length"
        label={water ? "Depth" : "Rise"}
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
          label={water ? "Roller above the water" : "Slope of the ground"}
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
      {!("settled" in answer) && <p className={styles.wrong}>{whyNot(LETTER[side], answer, system)}</p>}
    </Panel>
  );
}
