import { lazy, Suspense, useEffect, useMemo, useRef, useState } from "react";
import { newId } from "../../api/ids.ts";
import { Button } from "../../show/button.tsx";
import { useSize } from "../../show/use-size.ts";
import { useHint, useUnits } from "../../state/preferences.ts";
import { createStore } from "../../state/store.ts";
import { useStore } from "../../state/use-store.ts";
import { bookCopy } from "../book-copy.ts";
import { type At, daysDesk, type LogPlace } from "../desk.ts";
import { Heading } from "../heading.tsx";
import { durationText, logLine, recordOf, titleOf } from "../said.ts";
import { useSay } from "../use-say.ts";
import { write } from "../written.ts";
import { type Channel, isLoad, shownIn, usualChannels } from "./channels.ts";
import { clockText, isDated } from "./clock.ts";
import styles from "./log.module.css";
import { MarkPanel } from "./mark-panel.tsx";
import { MarksLayer, STRIP } from "./marks-layer.tsx";
import { MarksTable } from "./marks-table.tsx";
import { Minimap } from "./minimap.tsx";
import { ReadingsTable } from "./readings-table.tsx";
import { Reduced } from "./reduced.tsx";
import { changed, type StandingMark, standingMarks } from "./standing-marks.ts";
import { Stretches } from "./stretches.ts";
import { useGestures } from "./use-gestures.ts";
import { type LogAnswer, useLog } from "./use-log.ts";
import { useReduction } from "./use-reduction.ts";
import { useTheme } from "./use-theme.ts";
import { drawnOf } from "./view-bytes.ts";
import { type Window, within, zoomed } from "./window.ts";

const Trace = lazy(() => import("./trace.tsx"));

/** The trace of a log, its marks, and what they say. */
export function LogPage({ at }: { readonly at: LogPlace }) {
  const copy = useStore(bookCopy);
  const { answer, wrong } = useLog(at.id);
  const info = copy.logs.find((log) => log.id === at.id);
  const pull = recordOf(copy.records, "pull", answer?.log.pull ?? info?.pull);
  const day = recordOf(copy.records, "day", answer?.log.day ?? info?.day ?? pull?.day);
  const back: { at: At; label: string } =
    pull !== undefined
      ? { at: { page: "record", kind: "pull", id: pull.id }, label: titleOf(copy.records, "pull", pull) }
      : day !== undefined
        ? { at: { page: "record", kind: "day", id: day.id }, label: titleOf(copy.records, "day", day) }
        : { at: { page: "book" }, label: "Book" };
  const title = String(answer?.log.name ?? info?.name ?? "Log");
  const line = info === undefined ? "" : logLine(info);
  if (answer === null) {
    return (
      <>
        <Heading back={back} title={title} line={line} />
        {wrong === null ? <p className={styles.quiet}>Fetching the log…</p> : <p role="alert">{wrong}</p>}
      </>
    );
  }
  const { from_s, to_s, rows } = answer.content;
  return (
    <>
      <Heading back={back} title={title} line={line} />
      {wrong !== null && <p role="alert">{wrong}</p>}
      {rows === 0 || from_s === null || to_s === null ? (
        <p className={styles.quiet}>No readings are in the book yet.</p>
      ) : (
        <Opened at={at} answer={answer} whole={{ from: from_s, to: Math.max(to_s, from_s + 1e-3) }} pull={pull} />
      )}
    </>
  );
}

const POINTS_PER_PIXEL = 1.5;

function Opened(props: {
  readonly at: LogPlace;
  readonly answer: LogAnswer;
  readonly whole: Window;
  readonly pull: ReturnType<typeof recordOf>;
}) {
  const { at, answer, pull } = props;
  const { from: wholeFrom, to: wholeTo } = props.whole;
  const whole = useMemo(() => ({ from: wholeFrom, to: wholeTo }), [wholeFrom, wholeTo]);
  const { channels } = answer.content;
  const { records, readOnly } = useStore(bookCopy);
  const { unitOf } = useUnits();
  const say = useSay();
  const theme = useTheme();
  const [box, { width }] = useSize<HTMLDivElement>();
  const hint = useHint("days trace");
  const markHint = useHint("days drag a mark");
  const [trouble, setTrouble] = useState<string | null>(null);
  const [drawn, setDrawn] = useState(0);

  // biome-ignore lint/correctness/useExhaustiveDependencies: what is left out is read anew when it is needed
  const view = useMemo(
    () => createStore<Window>(at.from === null || at.to === null ? whole : within({ from: at.from, to: at.to }, whole)),
    [whole],
  );
  useAddressed(view, whole, at);

  const names = at.channels?.filter((name) => channels.some((one) => one.name === name)) ?? usualChannels(channels);
  const namesText = names.join(",");
  const shown = channels.filter(({ name }) => names.includes(name));
  const stretches = useMemo(() => {
    const made: Stretches = new Stretches(
      answer.log.id,
      { whole, rows: answer.content.rows },
      namesText.split(","),
      (line) => {
        setTrouble(line);
        setDrawn((n) => n + 1);
      },
    );
    return made;
  }, [answer.log.id, answer.content.rows, whole, namesText]);
  useEffect(() => {
    const want = () => stretches.want(view.get(), Math.max(300, Math.ceil(POINTS_PER_PIXEL * width)));
    want();
    const leave = view.subscribe(want);
    return leave;
  }, [stretches, view, width]);
  useEffect(() => () => stretches.close(), [stretches]);

  // biome-ignore lint/correctness/useExhaustiveDependencies: what is left out is read anew when it is needed
  const lanes = useMemo(
    () =>
      shown.map((channel, i) => {
        const { unit, factor } = shownIn(channel, unitOf);
        return {
          channel,
          lane: {
            channel: channel.name,
            label: `${channel.name}, ${unit}`,
            factor,
            height: (i === 0 ? 300 : 120) + (i === shown.length - 1 ? 26 : 0),
            kind: i === 0 ? ("measured" as const) : ("other" as const),
            timed: i === shown.length - 1,
          },
        };
      }),
    [namesText, shown.map((channel) => shownIn(channel, unitOf).unit).join()],
  );
  // biome-ignore lint/correctness/useExhaustiveDependencies: drawn counts what has come
  const data = useMemo(
    () => lanes.map(({ lane }) => drawnOf(stretches.coarse, stretches.fine, lane.channel, lane.factor)),
    [lanes, stretches, drawn],
  );
  // biome-ignore lint/correctness/useExhaustiveDependencies: drawn counts what has come
  const ranges = useMemo(
    () => lanes.map(({ lane }) => rangeOf(drawnOf(stretches.coarse, null, lane.channel, lane.factor))),
    [lanes, stretches, drawn],
  );

  const outline = useMemo(
    () => drawnOf(stretches.coarse, null, lanes[0]!.lane.channel, lanes[0]!.lane.factor),
    [lanes, stretches.coarse],
  );

  const gestures = useGestures(box, view, whole, hint.used);
  const put = (change: Partial<LogPlace>) => daysDesk.put({ ...daysDesk.get(), at: { ...current(at), ...change } });
  const marks = useMemo(() => standingMarks(answer.marks), [answer.marks]);
  const load = shown.find(isLoad) ?? channels.find(isLoad);
  const reduction = useReduction({ answer, marks, channel: load?.name ?? null, view, whole, pull, records });
  const loadOf = (mark: StandingMark): { value: number; u: number } | null => {
    const found = reduction.reduced?.marks.find(
      (one) => one.kind === mark.kind && Math.abs(one.from - mark.from) < 1e-6,
    );
    return found ?? (mark.value === null ? null : { value: mark.value, u: mark.u });
  };
  const textOf = (mark: StandingMark): string => {
    const value = loadOf(mark);
    return value === null || !(value.value !== 0)
      ? mark.kind
      : `${mark.kind} ${say(value.value, "load", "force", value.u)}`;
  };
  const chosen = marks.find((mark) => mark.id === at.mark) ?? null;
  const total = lanes.reduce((sum, { lane }) => sum + lane.height, 0);
  const write1 = (label: string, mark: StandingMark, change: Parameters<typeof changed>[1]) =>
    void write(label, [changed(mark, change, newId)]).then(setTrouble);

  return (
    <div className={styles.page}>
      <div className={styles.tools}>
        <div className={styles.group}>
          <Button aria-label="Nearer" title="Nearer (+)" onClick={() => view.put(zoomed(view.get(), 2, 0.5, whole))}>
            +
          </Button>
          <Button
            aria-label="Farther"
            title="Farther (−)"
            onClick={() => view.put(zoomed(view.get(), 0.5, 0.5, whole))}
          >
            −
          </Button>
          <Button title="The whole log (0)" onClick={() => view.put(whole)}>
            All
          </Button>
          <Button
            aria-pressed={at.fit}
            title="The height follows what is in view"
            onClick={() => put({ fit: !at.fit })}
          >
            Fit height
          </Button>
        </div>
        {channels.length > 1 && (
          <fieldset className={styles.channels}>
            <legend className="unseen">Channels shown</legend>
            {channels.map((channel) => (
              <label key={channel.name}>
                <input
                  type="checkbox"
                  checked={names.includes(channel.name)}
                  disabled={names.length === 1 && names[0] === channel.name}
                  onChange={(event) => put({ channels: toggled(channels, names, channel.name, event.target.checked) })}
                />
                {channel.name}
              </label>
            ))}
          </fieldset>
        )}
      </div>
      {hint.shown && (
        <p className={styles.hint}>
          Drag to move along the log; pinch, wheel or + and − to come nearer; arrows when the trace has the focus.
        </p>
      )}
      {trouble !== null && (
        <p className={styles.wrong} role="alert">
          {trouble}
        </p>
      )}
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
        </div>
        {width > 0 && stretches.coarse !== null && (
          <Minimap view={view} whole={whole} width={width} data={outline} coarse={ranges[0]!} />
        )}
      </div>
      <Where view={view} whole={whole} />
      <div className={styles.columns}>
        <div className={styles.column}>
          {chosen !== null && (
            <MarkPanel
              mark={chosen}
              text={textOf(chosen)}
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

const current = (at: LogPlace): LogPlace => {
  const now = daysDesk.get().at;
  return now.page === "log" && now.id === at.id ? now : at;
};

const STILL = 200;

/** The window follows the address, and the address the window once it stands still. */
function useAddressed(view: ReturnType<typeof createStore<Window>>, whole: Window, at: LogPlace): void {
  const latest = useRef(at);
  latest.current = at;
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    const leave = view.subscribe(() => {
      clearTimeout(timer);
      timer = setTimeout(() => {
        const { from, to } = view.get();
        const all = from <= whole.from && to >= whole.to;
        const now = current(latest.current);
        const next = all ? { from: null, to: null } : { from: Number(from.toFixed(3)), to: Number(to.toFixed(3)) };
        if (now.from !== next.from || now.to !== next.to) daysDesk.put({ ...daysDesk.get(), at: { ...now, ...next } });
      }, STILL);
    });
    return () => {
      clearTimeout(timer);
      leave();
    };
  }, [view, whole]);
  const { from, to } = at;
  useEffect(() => {
    const now = view.get();
    const asked = from === null || to === null ? whole : within({ from, to }, whole);
    if (Math.abs(asked.from - now.from) > 0.002 || Math.abs(asked.to - now.to) > 0.002) view.put(asked);
  }, [from, to, view, whole]);
}

function toggled(channels: readonly Channel[], names: readonly string[], name: string, on: boolean): readonly string[] {
  return channels.map((channel) => channel.name).filter((one) => (one === name ? on : names.includes(one)));
}

/** Least and greatest of what is drawn, with a little room; zero is kept in view where it is near. */
function rangeOf(data: {
  min: readonly (number | null)[];
  max: readonly (number | null)[];
}): readonly [number, number] {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const value of data.min) if (value !== null && value < low) low = value;
  for (const value of data.max) if (value !== null && value > high) high = value;
  if (!(high >= low)) return [0, 1];
  if (low > 0 && low < 0.35 * high) low = 0;
  const room = 0.06 * Math.max(high - low, 1e-6 * Math.abs(high), 1e-9);
  return [low === 0 ? 0 : low - room, high + room];
}

/** Where the window stands, in words. */
function Where({ view, whole }: { readonly view: ReturnType<typeof createStore<Window>>; readonly whole: Window }) {
  const { from, to } = useStore(view);
  const step = (to - from) / 100;
  const all = from <= whole.from && to >= whole.to;
  const day = isDated(from)
    ? `${new Date(from * 1000).toISOString().slice(0, 10)}, UTC; `
    : "from the start of the log; ";
  return (
    <p className={styles.quiet}>
      {day}
      {all
        ? `all of it, ${durationText(to - from)}`
        : `${clockText(from, Math.min(1, step))} to ${clockText(to, Math.min(1, step))}, ${durationText(to - from)} of ${durationText(whole.to - whole.from)}`}
    </p>
  );
}
