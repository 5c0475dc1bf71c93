import { lazy, Suspense, useMemo, useState } from "react";
import { changedMark, type EffectiveMark, effectiveMarks } from "../../../study/index.ts";
import { newId } from "../../api/ids.ts";
import { Hint } from "../../controls/hint.tsx";
import { useSize } from "../../controls/use-size.ts";
import { FigureFrame } from "../../figure/figure-frame.tsx";
import { useHint } from "../../state/preferences.ts";
import { createStore } from "../../state/store.ts";
import { useStore } from "../../state/use-store.ts";
import { bookCopy } from "../book-copy.ts";
import type { RecordHere } from "../records.ts";
import { daysStore, type LogPlace } from "../state.ts";
import { useSay } from "../use-say.ts";
import { write } from "../written.ts";
import { isLoad, usualChannels } from "./channels.ts";
import styles from "./log.module.css";
import { MarkPanel } from "./mark-panel.tsx";
import { STRIP } from "./mark-sign.ts";
import { MarksLayer } from "./marks-layer.tsx";
import { MarksTable } from "./marks-table.tsx";
import { Minimap } from "./minimap.tsx";
import { ReadingsTable } from "./readings-table.tsx";
import { Reduced } from "./reduced.tsx";
import { TraceReadOut } from "./trace-read-out.tsx";
import { TraceTools } from "./trace-tools.tsx";
import { current, useAddressed } from "./use-addressed.ts";
import { useGestures } from "./use-gestures.ts";
import { useLanes } from "./use-lanes.ts";
import type { LogAnswer } from "./use-log.ts";
import { useReduction } from "./use-reduction.ts";
import { useTheme } from "./use-theme.ts";
import { Where } from "./where.tsx";
import { type Window, within } from "./window.ts";

const Trace = lazy(() => import("./trace.tsx"));
const files = () => import("./trace-files.ts");

/** A log that holds readings: its trace with the marks in hand, and what they say below. */
export function OpenedLog(props: {
  readonly at: LogPlace;
  readonly answer: LogAnswer;
  readonly whole: Window;
  readonly pull: RecordHere<"pull"> | undefined;
}) {
  const { at, answer, pull } = props;
  const { from: wholeFrom, to: wholeTo } = props.whole;
  const whole = useMemo(() => ({ from: wholeFrom, to: wholeTo }), [wholeFrom, wholeTo]);
  const { channels } = answer.content;
  const { records, logs, readOnly } = useStore(bookCopy);
  const say = useSay();
  const theme = useTheme();
  const [box, { width }] = useSize<HTMLDivElement>();
  const hint = useHint("days trace");
  const markHint = useHint("days drag a mark");
  const [trouble, setTrouble] = useState<string | null>(null);

  // biome-ignore lint/correctness/useExhaustiveDependencies: what is left out is read anew when it is needed
  const view = useMemo(
    () => createStore<Window>(at.from === null || at.to === null ? whole : within({ from: at.from, to: at.to }, whole)),
    [whole],
  );
  useAddressed(view, whole, at);

  const names = at.channels?.filter((name) => channels.some((one) => one.name === name)) ?? usualChannels(channels);
  const shown = channels.filter(({ name }) => names.includes(name));
  const { lanes, data, ranges, outline, stretches, drawn } = useLanes({
    log: answer.log.id,
    rows: answer.content.rows,
    shown,
    view,
    whole,
    width,
    onTrouble: setTrouble,
  });

  const gestures = useGestures(box, view, whole, hint.used);
  const put = (change: Partial<LogPlace>) => daysStore.put({ ...daysStore.get(), at: { ...current(at), ...change } });
  const marks = useMemo(() => effectiveMarks(answer.marks), [answer.marks]);
  const load = shown.find(isLoad) ?? channels.find(isLoad);
  const reduction = useReduction({ answer, marks, channel: load?.name ?? null, view, whole, pull, records, logs });
  // As it was measured where it lies now: at another end it is another mark.
  const measuredAt = (mark: EffectiveMark) =>
    reduction.reduced?.marks.find(
      (one) => one.kind === mark.kind && Math.abs(one.from - mark.from) < 1e-6 && Math.abs(one.to - mark.to) < 1e-6,
    );
  const loadOf = (mark: EffectiveMark): { value: number; u: number } | null =>
    measuredAt(mark) ?? (mark.value === null ? null : { value: mark.value, u: mark.u });
  const textOf = (mark: EffectiveMark): string => {
    const value = loadOf(mark);
    return value === null || !(value.value !== 0)
      ? mark.kind
      : `${mark.kind} ${say(value.value, "load", "force", value.u)}`;
  };
  const chosen = marks.find((mark) => mark.id === at.mark) ?? null;
  const title = `Trace of ${String(answer.log.name ?? "the log")}`;
  const traced = () =>
    lanes.map(({ lane }, i) => ({ ...lane.shown, measured: lane.kind === "measured", data: data[i]! }));
  const total = lanes.reduce((sum, { lane }) => sum + lane.height, 0);
  const write1 = (label: string, mark: EffectiveMark, change: Parameters<typeof changedMark>[1]) =>
    void write(label, [changedMark(mark, change, newId)]).then(setTrouble);

  return (
    <div className={styles.page}>
      <TraceTools
        view={view}
        whole={whole}
        channels={channels}
        names={names}
        fit={at.fit}
        onFit={(fit) => put({ fit })}
        onChannels={(channels) => put({ channels })}
      />
      {hint.shown && (
        <Hint>
          Drag to move along the log; pinch, wheel or + and − to come nearer; arrows when the trace has the focus.
        </Hint>
      )}
      {trouble !== null && (
        <p className={styles.wrong} role="alert">
          {trouble}
        </p>
      )}
      <FigureFrame
        kind="trace"
        ofBook
        title={title}
        ownHand
        table={async () => (await files()).traceTable(traced(), view.get())}
        redrawn={async () => {
          const stand = marks.filter(({ takenAway }) => !takenAway);
          const told = stand.map((mark) => ({ at: mark.from, text: textOf(mark) }));
          return (await files()).traceSvg(title, traced(), told, view.get());
        }}
      >
        <div className={styles.frame}>
          <div
            ref={box}
            className={styles.trace}
            role="application"
            // biome-ignore lint/a11y/noNoninteractiveTabindex: the trace is moved by keys
            tabIndex={0}
            aria-roledescription="trace"
            aria-label={`Trace of ${names.join(", ")} over time. Arrows move along, plus and minus come nearer and go farther, 0 shows all. The tables below say the same in words.`}
            data-rows={answer.content.rows}
            {...gestures}
          >
            {marks.length > 0 && <div style={{ height: STRIP }} />}
            <Suspense fallback={<div style={{ height: total }} />}>
              {width > 0 &&
                lanes.map(({ lane }, i) => (
                  <div key={lane.channel} className={styles.lane}>
                    <p className={styles.laneName} data-kind={lane.kind}>
                      {lane.label}
                    </p>
                    <Trace
                      lane={lane}
                      width={width}
                      view={view}
                      data={data[i]!}
                      range={at.fit ? null : ranges[i]!}
                      theme={theme}
                    />
                  </div>
                ))}
            </Suspense>
            {width > 0 && marks.length > 0 && (
              <MarksLayer
                marks={marks}
                view={view}
                whole={whole}
                width={width}
                height={STRIP + total}
                chosen={at.mark}
                textOf={textOf}
                hint={markHint.shown ? "drag to correct" : null}
                readOnly={readOnly}
                onChoose={(mark) => put({ mark })}
                onMove={(mark, from, to) => {
                  markHint.used();
                  write1(`move ${mark.kind}`, mark, { change: "move", from, to });
                }}
              />
            )}
            {width > 0 && <TraceReadOut box={box} lanes={lanes} data={data} view={view} width={width} />}
          </div>
          {width > 0 && stretches.coarse !== null && (
            <Minimap view={view} whole={whole} width={width} data={outline} coarse={ranges[0]!} />
          )}
        </div>
      </FigureFrame>
      <Where view={view} whole={whole} />
      <div className={styles.columns}>
        <div className={styles.column}>
          {chosen !== null && (
            <MarkPanel
              mark={chosen}
              text={textOf(chosen)}
              why={(chosen.byHand === null ? null : measuredAt(chosen)?.why) ?? chosen.why}
              readOnly={readOnly}
              onClose={() => put({ mark: null })}
              onChange={(label, change) => write1(label, chosen, change)}
            />
          )}
          <Reduced
            reduction={reduction}
            pull={pull}
            logName={String(answer.log.name ?? "log")}
            logId={answer.log.id}
            marked={marks.some((mark) => mark.automatic?.detail?.why !== undefined)}
            view={view}
            readOnly={readOnly}
          />
        </div>
        <div className={styles.column}>
          <MarksTable
            marks={marks}
            valueOf={loadOf}
            chosen={at.mark}
            view={view}
            whole={whole}
            log={answer.log.id}
            readOnly={readOnly}
            onChoose={(mark) => put({ mark })}
          />
          <ReadingsTable
            lanes={lanes.map(({ lane, channel }) => ({ lane, channel }))}
            stretches={stretches}
            view={view}
            drawn={drawn}
          />
        </div>
      </div>
    </div>
  );
}
