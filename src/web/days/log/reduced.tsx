import { useState } from "react";
import type { Measured } from "../../../pull/index.ts";
import { roundedTo } from "../../../quantity/index.ts";
import {
  countText,
  durationText,
  firstMovementText,
  heldText,
  holdRuleText,
  offsetText,
  traceWords,
  trackApartText,
  trackClockText,
  zeroText,
} from "../../../words/index.ts";
import { ApiTrouble, book, OutOfReach } from "../../api/client.ts";
import { announce } from "../../controls/announce.ts";
import { Button } from "../../controls/button.tsx";
import { Choice } from "../../controls/choice.tsx";
import { formatQuantity, significant, withMinus } from "../../controls/numbers.ts";
import { Panel } from "../../controls/panel.tsx";
import { Reading } from "../../controls/reading.tsx";
import { useUnits } from "../../state/preferences.ts";
import type { Store } from "../../state/store.ts";
import type { RecordHere } from "../book-copy.ts";
import { Carried, Doubts } from "../carried.tsx";
import { useSay } from "../use-say.ts";
import { noteTransaction, write } from "../written.ts";
import { clockText } from "./clock.ts";
import styles from "./log.module.css";
import type { Reduction } from "./use-reduction.ts";
import { WayChart } from "./way-chart.tsx";
import type { Window } from "./window.ts";

/** What the log says of the pull, in words and numbers, from the marks as they stand. */
export function Reduced(props: {
  readonly reduction: Reduction;
  readonly pull: RecordHere<"pull"> | undefined;
  readonly logName: string;
  readonly logId: string;
  /** True when the reduction's marks are in the book already. */
  readonly marked: boolean;
  readonly view: Store<Window>;
  readonly readOnly: boolean;
}) {
  const { reduction, pull, readOnly } = props;
  const { reduced, channel } = reduction;
  const say = useSay();
  const { system } = useUnits();
  const [wrong, setWrong] = useState<string | null>(null);
  const [told, setTold] = useState<string | null>(null);
  const [finding, setFinding] = useState(false);
  if (channel === null) return null;

  const find = async (): Promise<void> => {
    setFinding(true);
    try {
      const { stretch } = reduction;
      const json = {
        readAt: reduction.readAt,
        channel,
        ...(stretch === null || reduction.reduceView === null ? {} : { from_s: stretch.from, to_s: stretch.to }),
      };
      const param = { id: props.logId };
      const got = await (await book.logs[":id"]["automatic-marks"].$post({ param, json })).json();
      if (got.transaction !== null) noteTransaction(got.transaction, `marks of ${props.logName}`);
      announce(
        got.marks.length === 0
          ? "no mark that was not there"
          : countText(got.marks.length, "mark found", "marks found"),
      );
      setWrong(null);
      setTold(got.marks.length === 0 ? "Nothing was found that is not marked already." : null);
    } catch (error) {
      if (error instanceof OutOfReach) setWrong("the book finds the marks, and it is out of reach now");
      else if (error instanceof ApiTrouble) setWrong(error.message);
      else throw error;
    } finally {
      setFinding(false);
    }
  };

  const held = reduced?.held;
  const words = traceWords(system, (seconds) => clockText(seconds, 0.1));
  const evidence = reduced?.evidence ?? null;
  return (
    <Panel
      title="What the log says"
      beside={
        !readOnly && (
          <div className={styles.group}>
            {reduction.reduceView !== null && (
              <Button disabled={reduction.busy} onClick={reduction.reduceView}>
                Reduce what is in view
              </Button>
            )}
            {reduction.stretch !== null && (
              <Button look={props.marked ? "plain" : "strong"} disabled={finding} onClick={() => void find()}>
                {finding ? "Looking…" : "Find marks"}
              </Button>
            )}
          </div>
        )
      }
    >
      {!reduction.readAtKnown && (
        <Choice
          label="The load was read at the"
          value={reduction.readAt}
          options={[
            { value: "bow", label: "bow" },
            { value: "anchor", label: "anchor" },
          ]}
          onChange={reduction.setReadAt}
        />
      )}
      {(wrong ?? reduction.wrong) !== null && (
        <p className={styles.wrong} role="alert">
          {wrong ?? reduction.wrong}
        </p>
      )}
      {told !== null && <p className={styles.quiet}>{told}</p>}
      {reduced === null && reduction.busy && <p className={styles.quiet}>Reducing…</p>}
      {held !== undefined && held.kind !== "notKnown" && (
        <>
          <dl className={styles.answers}>
            <Reading
              big
              kind="measured"
              field="load"
              name={`${held.kind === "gaveWay" ? "gave way at" : "held at least"}, read at the ${held.at}`}
              dimension="force"
              value={held.newtons}
              u={held.u}
              note={words.held(held.why)}
            />
          </dl>
          {evidence !== null && <Carried evidence={evidence} />}
          {evidence !== null && <Doubts doubts={evidence.doubts} units={system} />}
          {(evidence === null || evidence.deployment === null) && (
            <p className={styles.quiet}>
              {pull === undefined
                ? "A log of a pull with its rig would also tell the load at the other end."
                : "With its rig told, the load at the other end stands here too."}
            </p>
          )}
        </>
      )}
      {held?.kind === "notKnown" && <p>{heldText(held, (value, u) => say(value, "load", "force", u), words)}.</p>}
      {reduced !== null && <Words reduced={reduced} words={words} stated={pull?.trackClock_s ?? null} />}
      {pull !== undefined && reduced?.clock?.kind === "told" && !readOnly && (
        <WriteClock pull={pull} offset={reduced.clock.offset} onWritten={setWrong} />
      )}
      {reduced !== null && <WayChart name={props.logName} reduced={reduced} readAt={reduction.readAt} />}
      {pull !== undefined && held !== undefined && held.kind !== "notKnown" && !readOnly && !isSame(pull, held) && (
        <div className={styles.group}>
          <Button
            onClick={() => {
              const result = { kind: held.kind, load_N: held.newtons, u_N: held.u };
              void write(`result of pull ${String(pull.number ?? "")}`.trim(), [
                {
                  kind: "pull",
                  id: pull.id,
                  makes: false,
                  set: { result, loadAt: held.at },
                  was: { result: pull.result ?? null, loadAt: pull.loadAt ?? null },
                },
              ]).then(setWrong);
            }}
          >
            Write it as the pull's result
          </Button>
          <span className={styles.quiet}>{say(held.newtons, "load", "force", held.u)}</span>
        </div>
      )}
      <p className={styles.quiet}>
        These are estimates from one log. Keep within the working load limits of your gear and its makers' instructions;
        nothing here promises that an anchor holds.
      </p>
    </Panel>
  );
}

/** One touch makes what load and track tell of the track's clock the pull's stated one, as it is shown. */
function WriteClock({
  pull,
  offset,
  onWritten,
}: {
  readonly pull: RecordHere<"pull">;
  readonly offset: Measured;
  /** What went wrong; null: nothing. */
  readonly onWritten: (wrong: string | null) => void;
}) {
  return (
    <div className={styles.group}>
      <Button
        onClick={() =>
          void write(`track clock of pull ${String(pull.number ?? "")}`.trim(), [
            {
              kind: "pull",
              id: pull.id,
              makes: false,
              set: { trackClock_s: roundedTo(offset.value, offset.u) },
              was: { trackClock_s: pull.trackClock_s ?? null },
            },
          ]).then(onWritten)
        }
      >
        Write it as the pull's track clock
      </Button>
      <span className={styles.quiet}>{withMinus(offsetText(offset))}</span>
    </div>
  );
}

function isSame(pull: RecordHere<"pull">, held: { kind: string; newtons: number }): boolean {
  const result = pull.result as { kind?: string; load_N?: number } | null | undefined;
  return result?.kind === held.kind && Math.abs((result.load_N ?? Number.NaN) - held.newtons) < 0.5;
}

function Words({
  reduced,
  words,
  stated,
}: {
  readonly reduced: NonNullable<Reduction["reduced"]>;
  readonly words: ReturnType<typeof traceWords>;
  /** The track's clock as the pull states it, s. */
  readonly stated: number | null;
}) {
  const say = useSay();
  const force = (value: number, u?: number) => say(value, "load", "force", u);
  const { system } = useUnits();
  const { zero, set, log } = reduced;
  const top = Math.max(0, ...reduced.peaks.map((peak) => peak.load.value));
  const lines = [
    `${countText(log.readings, "reading", "readings")} in ${durationText(log.to - log.from)}${log.gaps.length === 0 ? "" : `, ${countText(log.gaps.length, "gap", "gaps")}`}; one reading scatters by ${force(log.noise)}.`,
    `Zero: ${zeroText(zero, force, words)}.`,
    reduced.plateaus.length === 0
      ? "No load was held."
      : `${countText(reduced.plateaus.length, "plateau", "plateaus")}, the highest ${force(Math.max(...reduced.plateaus.map((one) => one.load.value)))}.`,
    top > 0 ? `${countText(reduced.peakCount, "peak", "peaks")}, the highest ${force(top)}.` : "",
    reduced.drags.length === 0
      ? ""
      : `${countText(reduced.drags.length, "drag", "drags")}: ${words.mark(reduced.drags[0]!.why)}.`,
    ...reduced.reversals.map((one) => `Reversal: ${words.reversal(one)}.`),
    ...reduced.steps.map(
      ({ planned, outcome }) =>
        `Step of ${force(planned.load)}: ${outcome.kind === "notReached" ? "not reached" : `${outcome.kind === "held" ? "held" : "cut short after"} ${durationText(outcome.held)}`}.`,
    ),
    `${firstMovementText(reduced.first, (seconds) => clockText(seconds, 0.1), system)}.`,
    set.kind === "measured"
      ? `Set distance: ${formatQuantity(set.distance.value, "length", { u: set.distance.u })}.`
      : "",
    stated !== null && reduced.rule.tracked
      ? `Clock of the track: ${withMinus(significant(stated, 3))} s added to its times, as stated.`
      : "",
    reduced.clock === null ? "" : `${withMinus(trackClockText(reduced.clock))}.`,
    reduced.apart === null ? "" : `No overlap: ${trackApartText(reduced.apart.seconds)}.`,
    `${holdRuleText(reduced.rule, system)}.`,
    reduced.corrected > 0 ? `${countText(reduced.corrected, "mark is", "marks are")} as corrected by hand.` : "",
    reduced.unmatched > 0
      ? `${countText(reduced.unmatched, "correction finds", "corrections find")} no mark any more.`
      : "",
  ].filter((line) => line !== "");
  return (
    <ul className={styles.words}>
      {lines.map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ul>
  );
}
