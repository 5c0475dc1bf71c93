import { useEffect, useMemo, useRef, useState } from "react";
import { noEquilibriumLine } from "../../../words/index.ts";
import { announce } from "../../controls/announce.ts";
import { Button } from "../../controls/button.tsx";
import { Choice } from "../../controls/choice.tsx";
import { FaultNote } from "../../controls/fault-note.tsx";
import { formatQuantity } from "../../controls/numbers.ts";
import { FoldingPanel } from "../../controls/panel.tsx";
import { useUnits } from "../../state/preferences.ts";
import placeStyles from "../place.module.css";
import type { WeatherState } from "../state.ts";
import styles from "./gale.module.css";
import { GaleBeside } from "./gale-beside.tsx";
import { besides, galeQuestion, rigBeside } from "./gale-questions.ts";
import { secondsOf } from "./gale-record.ts";
import { GaleRide } from "./gale-ride.tsx";
import { useGale } from "./use-gale.ts";

type Minutes = "10" | "30" | "60";
type Speed = "1" | "4" | "16";

/** The boat and rode of the place, in the wind under the pointer with its gusts and the sea around, in time. */
export function GalePanel({ state, wind }: { readonly state: WeatherState; readonly wind: number }) {
  const { rig } = state;
  const { system, unitOf } = useUnits();
  const gale = useGale();
  const [minutes, setMinutes] = useState<Minutes>("10");
  const [speed, setSpeed] = useState<Speed>("4");
  const [plays, setPlays] = useState(true);
  const [seconds, setSeconds] = useState(0);
  const clock = useRef(0);
  const [beside, setBeside] = useState("none");
  const other = useGale();
  const question = useMemo(() => galeQuestion(state, rig, wind, Number(minutes)), [state, rig, wind, minutes]);
  const otherRig = useMemo(() => (beside === "none" ? null : rigBeside(state, Number(beside))), [state, beside]);
  const choices = useMemo(() => besides(state), [state]);
  // Two side by side are shown as far as both have come.
  const both = other.question !== null;
  const ridden = both ? Math.min(secondsOf(gale.record), secondsOf(other.record)) : secondsOf(gale.record);
  const most = useRef(ridden);
  most.current = ridden;
  useEffect(() => {
    if (gale.state === "none" || !plays) return;
    let asked = 0;
    let before = performance.now();
    let told = 0;
    const tick = (now: number): void => {
      asked = requestAnimationFrame(tick);
      clock.current = Math.min(most.current, clock.current + ((now - before) / 1000) * Number(speed));
      before = now;
      if (now - told > 250) {
        told = now;
        setSeconds(clock.current);
      }
    };
    asked = requestAnimationFrame(tick);
    return () => cancelAnimationFrame(asked);
  }, [gale.state, plays, speed]);
  const over = gale.state === "over" ? gale.answer?.bow.largest : undefined;
  useEffect(() => {
    if (over !== undefined)
      announce(`Ridden: largest load at the bow ${formatQuantity(over, "force", { system, digits: 2 })}.`);
  }, [over, system]);
  const { answer } = gale;
  const begin = (): void => {
    if (question === null) return;
    gale.begin(question);
    const second = otherRig === null ? null : galeQuestion(state, otherRig, wind, Number(minutes));
    if (second === null) other.clear();
    else other.begin(second);
  };
  const asked = gale.question;
  const speedText = (value: number): string =>
    formatQuantity(value, "speed", { system, unit: unitOf("wind", "speed", "kn"), digits: 3 });
  const changed =
    asked !== null &&
    question !== null &&
    (asked.rig !== question.rig ||
      asked.boat !== question.boat ||
      asked.wind[0]!.speed !== question.wind[0]!.speed ||
      asked.sea?.significantHeight !== question.sea?.significantHeight ||
      asked.gusts?.kind !== question.gusts?.kind);
  return (
    <FoldingPanel name="gale" title="In a gale">
      <p className={placeStyles.quiet}>
        The boat rides to {rig.name} in {speedText(wind)}, with gusts and the sea as stated above: sheering, surging,
        the rode lifting and falling. One drawing of gusts and waves; the same every time.
      </p>
      {question === null ? (
        <p className={placeStyles.quiet}>
          {rig.setting.medium !== "water"
            ? "The rig hangs in air: a rode in water is expected here."
            : "The boat's windage is not stated: put it in below."}
        </p>
      ) : (
        <div className={styles.player}>
          <Choice<Minutes>
            label="Minutes to ride"
            value={minutes}
            options={[
              { value: "10", label: "10" },
              { value: "30", label: "30" },
              { value: "60", label: "60" },
            ]}
            onChange={setMinutes}
          />
          <label className={styles.beside}>
            <span>Beside it, in the same sea</span>
            <select value={beside} onChange={(event) => setBeside(event.target.value)}>
              <option value="none">nothing</option>
              {choices.map(({ index, name }) => (
                <option key={index} value={String(index)}>
                  {name}
                </option>
              ))}
            </select>
          </label>
          {gale.state === "riding" || other.state === "riding" ? (
            <Button
              onClick={() => {
                gale.stop();
                if (other.state === "riding") other.stop();
              }}
            >
              Stop the ride
            </Button>
          ) : (
            <Button
              look="strong"
              onClick={() => {
                clock.current = 0;
                setSeconds(0);
                setPlays(true);
                begin();
              }}
            >
              {gale.state === "none" ? "Ride it" : changed ? "Ride it as it is now" : "Ride it again"}
            </Button>
          )}
          <span className={placeStyles.quiet}>
            {gale.state === "riding"
              ? `${Math.floor((100 * ridden) / (asked?.duration ?? 1))} % ridden`
              : gale.state === "stopped"
                ? `stopped after ${Math.round(ridden / 60)} min`
                : gale.state === "over"
                  ? `${Math.round(ridden / 60)} min ridden`
                  : ""}
          </span>
        </div>
      )}
      {beside !== "none" && otherRig === null && (
        <p className={placeStyles.wrong} role="alert">
          The rode beside it cannot be rigged: its snubber does not fit it, or no catalogue has its rope.
        </p>
      )}
      {[gale, other].map(
        ({ none }, i) =>
          none !== null && (
            <p key={i === 0 ? "own" : "beside"} className={placeStyles.wrong} role="alert">
              No equilibrium in this wind{i === 0 ? "" : ", of the rode beside it"}: {noEquilibriumLine(none, system)}.
            </p>
          ),
      )}
      {(gale.fault ?? other.fault) !== null && (
        <FaultNote of={{ fault: (gale.fault ?? other.fault)!, again: begin }} what="the ride" />
      )}
      {asked !== null && gale.record.count > 0 && (
        <>
          <div className={styles.player}>
            <Button onClick={() => setPlays(!plays)} aria-pressed={plays}>
              {plays ? "Pause" : "Play"}
            </Button>
            <input
              type="range"
              aria-label="Second shown"
              min={0}
              max={Math.max(1, ridden)}
              step={0.2}
              value={Math.min(seconds, ridden)}
              onChange={(event) => {
                clock.current = Number(event.target.value);
                setSeconds(clock.current);
                setPlays(false);
              }}
            />
            <span className={styles.seconds}>{clockText(seconds)}</span>
            <Choice<Speed>
              label="Speed"
              labelUnseen
              value={speed}
              options={[
                { value: "1", label: "real time" },
                { value: "4", label: "4 ×" },
                { value: "16", label: "16 ×" },
              ]}
              onChange={setSpeed}
            />
          </div>
          <div className={both ? styles.pair : undefined}>
            <GaleRide question={asked} record={gale.record} answer={answer} clock={clock} named={both} />
            {other.question !== null && other.record.count > 0 && (
              <GaleRide question={other.question} record={other.record} answer={other.answer} clock={clock} named />
            )}
          </div>
        </>
      )}
      {answer !== null && other.answer !== null && (
        <GaleBeside first={answer} second={other.answer} name={other.question!.rig.name} />
      )}
      {answer !== null && (
        <p className={placeStyles.quiet}>
          ± is that of one ride this long; the doubt of the boat's windage, about a fifth of every load, comes on top.
          An estimate, not a promise that a boat stays put.
        </p>
      )}
    </FoldingPanel>
  );
}

function clockText(seconds: number): string {
  const whole = Math.floor(seconds);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
}
