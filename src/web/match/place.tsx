import { Link } from "@tanstack/react-router";
import { type RefObject, useEffect, useMemo, useState } from "react";
import { drawRode } from "../../figure/index.ts";
import { formatQuantity } from "../../quantity/index.ts";
import { match, type NoEquilibrium, type Rig, riseOf, sayWhy, settleTraced, withValue } from "../../rode/index.ts";
import { rigDesk } from "../rig/desk.ts";
import { announce } from "../show/announce.ts";
import { Button } from "../show/button.tsx";
import { Choice } from "../show/choice.tsx";
import { Panel } from "../show/panel.tsx";
import { QuantityField } from "../show/quantity-field.tsx";
import { Reading } from "../show/reading.tsx";
import { useSize } from "../show/use-size.ts";
import { useAddress } from "../state/address.ts";
import { useUnits } from "../state/preferences.ts";
import { useUndoable } from "../state/undoable.ts";
import { useStore } from "../state/use-store.ts";
import { inWorker, useNewest } from "../work/worker.ts";
import { matchCodec } from "./address.ts";
import { linesOf, type MatchState, matchDesk, paidOut, type Side, withRig } from "./desk.ts";
import styles from "./place.module.css";
import { SlideField } from "./slide-field.tsx";

/** Two setups under one load, moved until their anchors feel the same. */
export function Place() {
  useAddress(matchDesk, matchCodec);
  useUndoable(matchDesk);
  const state = useStore(matchDesk);
  const { system } = useUnits();
  const answers = { one: useAnswer(state, "one"), other: useAnswer(state, "other") };
  const said = comparison(state, answers, system);
  useEffect(() => announce(said.words), [said.words]);
  const [refused, setRefused] = useState<string | null>(null);

  const bring = (side: Side): void => {
    const [from, to] = side === "other" ? [state.one, state.other] : [state.other, state.one];
    const found = match(from, to, { at: "bow", newtons: state.load }, paidOut(state, side).part);
    if (found.kind === "noEquilibrium") {
      const { why, nearest } = sayWhy(found.cause, found.given, found.limit, system);
      setRefused(`${to.name} cannot be matched to ${from.name}: ${why}; ${nearest}`);
      return;
    }
    setRefused(null);
    matchDesk.set((before) => ({ ...before, [side]: found.otherRig }), { label: `${to.name} matched to ${from.name}` });
  };

  return (
    <div className={styles.place}>
      <h1>Match</h1>
      <Panel title="Under one load">
        <SlideField
          field="load"
          label="load at both bows"
          dimension="force"
          value={state.load}
          least={50}
          most={30_000}
          onChange={(load, stroke) => matchDesk.set((before) => ({ ...before, load }), { label: "load", stroke })}
        />
        <p className={styles.said} data-same={said.same || undefined}>
          {said.words}
        </p>
        <div className={styles.buttons}>
          <Button look="strong" onClick={() => bring("other")}>
            Pay out {state.other.name} until it feels like {state.one.name}
          </Button>
          <Button onClick={() => bring("one")}>
            Pay out {state.one.name} until it feels like {state.other.name}
          </Button>
        </div>
        {refused !== null && (
          <p className={styles.wrong} role="alert">
            {refused}
          </p>
        )}
      </Panel>
      <div className={styles.sides}>
        <Setup side="one" state={state} answer={answers.one} />
        <Setup side="other" state={state} answer={answers.other} />
      </div>
      <MapPanel state={state} />
      <p className={styles.quiet}>
        Equal angle and equal load are what the anchor feels of the rode; seabed, yaw and surge remain. Loaded gear
        hurts people: keep below the working load limits, and put makers' limits, local rules and licensed practice
        first.
      </p>
    </div>
  );
}

type Answer = ReturnType<typeof settleTraced>;

function useAnswer(state: MatchState, side: Side): Answer {
  const rig = state[side];
  return useMemo(() => settleTraced(rig, { at: "bow", newtons: state.load }), [rig, state.load]);
}

/** Angles nearer than this read the same on any gauge. */
const SAME = 0.05 * (Math.PI / 180);

function comparison(
  state: MatchState,
  { one, other }: Record<Side, Answer>,
  system: "metric" | "us",
): { words: string; same: boolean } {
  const name = (side: Side) => state[side].name;
  if (!("settled" in one)) return { words: whyNot(name("one"), one, system), same: false };
  if (!("settled" in other)) return { words: whyNot(name("other"), other, system), same: false };
  const apart = other.settled.anchor.angle - one.settled.anchor.angle;
  if (one.lift <= 0 && other.lift <= 0)
    return { words: "Neither anchor is lifted: both are pulled along the bottom.", same: true };
  if (Math.abs(apart) <= SAME) return { words: "Both anchors are pulled at the same angle.", same: true };
  const [steeper, flatter] = apart > 0 ? [name("other"), name("one")] : [name("one"), name("other")];
  return {
    words: `${steeper} pulls its anchor ${formatQuantity(Math.abs(apart), "angle", { digits: 2 })} steeper than ${flatter}.`,
    same: false,
  };
}

function whyNot(name: string, none: NoEquilibrium, system: "metric" | "us"): string {
  const { why, nearest } = sayWhy(none.cause, none.given, none.limit, system);
  return `${name}: ${why}; ${nearest}.`;
}

/** Below this many px a drawing has no room for the ± of its height. */
const NARROW = 420;

function Setup({ side, state, answer }: { readonly side: Side; readonly state: MatchState; readonly answer: Answer }) {
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
            ...(width < NARROW ? { riseU: 0 } : {}),
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

function MapPanel({ state }: { readonly state: MatchState }) {
  const { system } = useUnits();
  const [ref, { width }] = useSize<HTMLDivElement>();
  const drawnAt = Math.round(width / 20) * 20;
  const ask = useMemo(
    () =>
      drawnAt === 0
        ? null
        : () =>
            inWorker().matchMap({
              kind: state.map,
              one: state.one,
              other: state.other,
              paid: state.paid,
              load: state.load,
              units: system,
              width: drawnAt,
            }),
    [state, system, drawnAt],
  );
  const svg = useNewest(ask);
  return (
    <Panel
      title="Over depth"
      beside={
        <Choice
          label="map over depth and"
          labelUnseen
          value={state.map}
          options={[
            { value: "load", label: "depth and load" },
            { value: "scope", label: "depth and scope" },
          ]}
          onChange={(map) => matchDesk.set((before) => ({ ...before, map }), { label: "map" })}
        />
      }
    >
      <div ref={ref as RefObject<HTMLDivElement>} className={styles.drawing}>
        {/* biome-ignore lint/security/noDangerouslySetInnerHtml: drawn by src/figure, which escapes every text */}
        {svg !== null && <div dangerouslySetInnerHTML={{ __html: svg }} />}
      </div>
      <p className={styles.quiet}>
        {state.map === "load"
          ? "Each line joins depths and loads at which a setup pulls its anchor at one angle: solid the first, dashed the second. Read across at one load: on two lines of one angle both anchors feel the same, and where they cross, in the same depth too. Ring and square are the two as they stand."
          : "At every depth, the scope at which each setup pulls its anchor at the angle the first has now. Ring and square are the two as they stand."}
      </p>
    </Panel>
  );
}
