import { useMemo } from "react";
import { Button } from "../show/button.tsx";
import { Panel } from "../show/panel.tsx";
import { useHint } from "../state/preferences.ts";
import { useStore } from "../state/use-store.ts";
import { bookCopy, type LogInfo, type Rec } from "./book-copy.ts";
import { daysDesk, go, narrowed, type Shelf, shelves, wholeLog } from "./desk.ts";
import { type DayGroup, dayGroups, listed, saysAll } from "./find.ts";
import { FindBar } from "./find-bar.tsx";
import { Heading } from "./heading.tsx";
import type { Formed, Kept } from "./kinds.ts";
import { words } from "./kinds.ts";
import styles from "./place.module.css";
import { countText, lineOf, logLine, logsOf, resultText, titleOf } from "./said.ts";
import { SiteMap } from "./site-map.tsx";
import { useSay } from "./use-say.ts";

/** Which kinds a shelf holds, and which of them is added from it. */
const holds: Readonly<Record<Shelf, { kinds: readonly Kept[]; add: readonly Formed[] }>> = {
  days: { kinds: [], add: ["day", "pull"] },
  sites: { kinds: ["site", "seabed"], add: ["site", "seabed"] },
  anchors: { kinds: ["anchor"], add: ["anchor"] },
  rigs: { kinds: ["rig"], add: ["rig"] },
  boats: { kinds: ["boat"], add: ["boat"] },
  series: { kinds: ["series"], add: ["series"] },
  logs: { kinds: [], add: [] },
};

/** The book from above: the sites on their map, and what is on the chosen shelf. */
export function Overview() {
  const copy = useStore(bookCopy);
  const { shelf } = useStore(daysDesk);
  const sites = useMemo(() => copy.records.site.filter(hasPlace), [copy]);
  const counts = shelfCounts(copy);
  const empty = shelves.every((one) => counts[one] === 0);
  const writable = !copy.readOnly;
  return (
    <>
      <Heading title={copy.title === "" ? "The book" : copy.title} line={copy.description}>
        {writable && <Button onClick={() => go({ page: "bring in", sent: null, pull: null })}>Bring in a log</Button>}
        {copy.via === "computer" && <Button onClick={() => go({ page: "devices" })}>Devices</Button>}
        {writable && !empty && (
          <Button look="strong" onClick={() => go({ page: "form", kind: "pull", id: null, about: null })}>
            Add a pull
          </Button>
        )}
      </Heading>
      {empty ? (
        <FirstSteps />
      ) : (
        <div className={styles.overview} data-map={sites.length > 0 || undefined}>
          <nav className={styles.shelves} aria-label="Shelves of the book">
            {shelves.map(
              (one) =>
                (counts[one] > 0 || one === shelf) && (
                  <button
                    key={one}
                    type="button"
                    aria-pressed={one === shelf}
                    onClick={() => daysDesk.put({ ...daysDesk.get(), shelf: one })}
                  >
                    {one} <span>{counts[one]}</span>
                  </button>
                ),
            )}
          </nav>
          {sites.length > 0 && (
            <div className={styles.map}>
              <SiteMap sites={sites} />
            </div>
          )}
          <div className={styles.list}>
            <FindBar />
            {writable && <AddButtons shelf={shelf} counts={counts} />}
            {shelf === "days" ? <DayList /> : shelf === "logs" ? <LogList /> : <KindLists kinds={holds[shelf].kinds} />}
          </div>
        </div>
      )}
    </>
  );
}

const hasPlace = (site: Rec) =>
  !site.hidden && typeof site.latitude_deg === "number" && typeof site.longitude_deg === "number";

function shelfCounts(copy: ReturnType<typeof bookCopy.get>): Readonly<Record<Shelf, number>> {
  const count = (kind: Kept) => copy.records[kind].filter((record) => !record.hidden).length;
  return {
    days: Math.max(count("day"), count("pull") > 0 ? 1 : 0),
    sites: count("site"),
    anchors: count("anchor"),
    rigs: count("rig"),
    boats: count("boat"),
    series: count("series"),
    logs: copy.logs.filter((log) => !log.hidden).length,
  };
}

const firstSteps: readonly { readonly kind: Formed; readonly says: string }[] = [
  { kind: "site", says: "where you pull: a name and a position" },
  { kind: "anchor", says: "what you pull: its shape, mass and fluke area" },
  { kind: "day", says: "when, in what weather, and who was there" },
  { kind: "pull", says: "one pull: rig, depth, scope, and what it came to" },
];

function FirstSteps() {
  return (
    <Panel title="A new book">
      <p className={styles.quiet}>
        A pull stands on its own; site, anchor and day can be told now or later. All of it works without a network.
      </p>
      <ul className={styles.steps}>
        {firstSteps.map(({ kind, says }) => (
          <li key={kind}>
            <Button
              look={kind === "site" ? "strong" : "plain"}
              onClick={() => go({ page: "form", kind, id: null, about: null })}
            >
              Add a {words[kind].one}
            </Button>
            <span className={styles.quiet}>{says}</span>
          </li>
        ))}
      </ul>
    </Panel>
  );
}

function AddButtons({ shelf, counts }: { readonly shelf: Shelf; readonly counts: Readonly<Record<Shelf, number>> }) {
  // Shelves without anything have no button of their own: what would fill them is added from the days.
  const missing = shelf === "days" ? shelves.filter((one) => counts[one] === 0).flatMap((one) => holds[one].add) : [];
  // A pull is added from the head of the place, always at hand.
  const add = [...new Set([...holds[shelf].add, ...missing])].filter((kind) => kind !== "pull");
  if (add.length === 0) return null;
  return (
    <div className={styles.adds}>
      {add.map((kind) => (
        <Button key={kind} onClick={() => go({ page: "form", kind, id: null, about: null })}>
          Add a {words[kind].one}
        </Button>
      ))}
    </div>
  );
}

function DayList() {
  const copy = useStore(bookCopy);
  const { narrow } = useStore(daysDesk);
  const groups = useMemo(() => dayGroups(copy, narrow), [copy, narrow]);
  if (groups.length === 0) return <NothingFound />;
  return groups.map((group) => <DayCard key={group.day?.id ?? "none"} group={group} />);
}

function DayCard({ group }: { readonly group: DayGroup }) {
  const copy = useStore(bookCopy);
  const say = useSay();
  const hint = useHint("days open a pull");
  const { day, pulls, logs } = group;
  return (
    <section className={styles.day}>
      {day === null ? (
        <h2>Pulls and logs of no day</h2>
      ) : (
        <h2>
          <button
            type="button"
            className={styles.dayHead}
            onClick={() => go({ page: "record", kind: "day", id: day.id })}
          >
            {titleOf(copy.records, "day", day)}
            <Signs record={day} />
          </button>
        </h2>
      )}
      {day !== null && <p className={styles.quiet}>{lineOf(copy.records, "day", day, say)}</p>}
      {hint.shown && pulls.length > 0 && (
        <p className={styles.hint}>Open a pull to see its log, its fields and their history.</p>
      )}
      <ul className={styles.rows}>
        {pulls.map((pull) => (
          <li key={pull.id}>
            <button
              type="button"
              className={styles.row}
              onClick={() => {
                hint.used();
                go({ page: "record", kind: "pull", id: pull.id });
              }}
            >
              <span className={styles.rowName}>
                {titleOf(copy.records, "pull", pull)}
                <Signs record={pull} />
              </span>
              <span className={styles.rowValue}>{resultText(pull, say)}</span>
              <span className={styles.rowLine}>
                {lineOf(copy.records, "pull", pull, say)}
                {logsOf(copy, "pull", pull.id).length > 0 && <span className={styles.tag}>log</span>}
              </span>
            </button>
          </li>
        ))}
        {logs.map((log) => (
          <LogRow key={log.id} log={log} />
        ))}
      </ul>
    </section>
  );
}

function Signs({ record }: { readonly record: Rec }) {
  return (
    <>
      {record.waits === true && <span className={styles.tag}>waits here</span>}
      {record.hidden && <span className={styles.tag}>put aside</span>}
    </>
  );
}

function LogRow({ log }: { readonly log: LogInfo }) {
  const copy = useStore(bookCopy);
  const pull = copy.records.pull.find((one) => one.id === log.pull);
  return (
    <li>
      <button type="button" className={styles.row} onClick={() => go(wholeLog(log.id))}>
        <span className={styles.rowName}>
          {log.name}
          <Signs record={log} />
        </span>
        <span className={styles.rowValue}>{pull === undefined ? "log" : titleOf(copy.records, "pull", pull)}</span>
        <span className={styles.rowLine}>{logLine(log)}</span>
      </button>
    </li>
  );
}

function LogList() {
  const copy = useStore(bookCopy);
  const { narrow } = useStore(daysDesk);
  const find = narrow.find.trim();
  const logs = copy.logs.filter((log) => (narrow.aside || !log.hidden) && (find === "" || saysAll(find, log.name)));
  if (logs.length === 0) return <NothingFound />;
  return (
    <ul className={styles.rows}>
      {logs.map((log) => (
        <LogRow key={log.id} log={log} />
      ))}
    </ul>
  );
}

function KindLists({ kinds }: { readonly kinds: readonly Kept[] }) {
  const copy = useStore(bookCopy);
  const say = useSay();
  const { narrow } = useStore(daysDesk);
  const lists = kinds.map((kind) => ({ kind, records: listed(copy, kind, narrow) }));
  if (lists.every(({ records }) => records.length === 0)) return <NothingFound />;
  return lists
    .filter(({ records }) => records.length > 0)
    .map(({ kind, records }) => (
      <section key={kind} className={styles.day}>
        <h2>{countText(records.length, words[kind].one, words[kind].many)}</h2>
        <ul className={styles.rows}>
          {records.map((record) => (
            <li key={record.id}>
              <button type="button" className={styles.row} onClick={() => go({ page: "record", kind, id: record.id })}>
                <span className={styles.rowName}>
                  {titleOf(copy.records, kind, record)}
                  <Signs record={record} />
                </span>
                <span className={styles.rowLine}>{lineOf(copy.records, kind, record, say)}</span>
              </button>
            </li>
          ))}
        </ul>
      </section>
    ));
}

function NothingFound() {
  const { narrow } = useStore(daysDesk);
  const open = narrow.find === "" && narrow.site === null && narrow.anchor === null && narrow.series === null;
  if (open) return null;
  return (
    <p className={styles.quiet}>
      Nothing here answers to that.{" "}
      <Button onClick={() => narrowed({ find: "", site: null, anchor: null, series: null })}>Show all</Button>
    </p>
  );
}
