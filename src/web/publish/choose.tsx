import { useId } from "react";
import { LICENCES, PRIVATE, type Private } from "../../publish/index.ts";
import { Panel } from "../controls/panel.tsx";
import { bookCopy } from "../days/book-copy.ts";
import { useStore } from "../state/use-store.ts";
import styles from "./place.module.css";
import { publishStore, type Sent } from "./state.ts";

const change = (part: Partial<Sent>, label: string): void =>
  publishStore.set((before) => ({ ...before, sent: { ...before.sent, ...part } }), {
    label,
    stroke: `publish ${label}`,
  });

const WORDS: Readonly<Record<Private, string>> = {
  people: "who was there",
  remarks: "remarks on pulls",
  positions: "where the sites lie",
};

/** Which pulls go out, under whose name, and what of them that is private. */
export function Choose() {
  const { sent: state } = useStore(publishStore);
  const { series } = useStore(bookCopy).records;
  const shown = series.filter(({ hidden }) => !hidden);
  const known = state.series === "" || shown.some(({ id }) => id === state.series);
  return (
    <Panel title="What goes out">
      <div className={styles.fields}>
        <label className={styles.field}>
          <span>Series</span>
          <select
            className={styles.box}
            value={state.series}
            onChange={(event) => change({ series: event.target.value }, "series")}
          >
            <option value="">every pull of the book</option>
            {!known && <option value={state.series}>{state.series} (not in the book)</option>}
            {shown.map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </select>
        </label>
        <Text name="title" label="Title" placeholder="name of the series" />
        <Text name="by" label="Tested by, as you want to be named" placeholder="not said" />
      </div>
      <Text name="note" label="What you want to say to viewers of the page" long />
      <Text name="words" label="Your own words in the report, Markdown; notes of the series come before them" long />
      <fieldset className={styles.private}>
        <legend>Private fields in the data package; left out unless ticked</legend>
        {PRIVATE.map((name) => (
          <label key={name} className={styles.check}>
            <input
              type="checkbox"
              checked={state.chosen.includes(name)}
              onChange={() =>
                change(
                  { chosen: PRIVATE.filter((one) => (one === name) !== state.chosen.includes(one)) },
                  "private fields",
                )
              }
            />
            <span>{WORDS[name]}</span>
          </label>
        ))}
      </fieldset>
      <label className={styles.check}>
        <input
          type="checkbox"
          checked={state.rawLogs}
          onChange={() => change({ rawLogs: !state.rawLogs }, "raw logs")}
        />
        <span>what was read during each pull, reading by reading, in the data package too</span>
      </label>
      <label className={styles.field}>
        <span>Licence of the data</span>
        <select
          className={styles.box}
          value={state.licence}
          onChange={(event) => change({ licence: event.target.value }, "licence")}
        >
          {Object.values(LICENCES).map(({ name, title }) => (
            <option key={name} value={name}>
              {title}
            </option>
          ))}
        </select>
      </label>
    </Panel>
  );
}

function Text({
  name,
  label,
  placeholder,
  long = false,
}: {
  readonly name: "title" | "by" | "note" | "words";
  readonly label: string;
  readonly placeholder?: string;
  readonly long?: boolean;
}) {
  const id = useId();
  const value = useStore(publishStore).sent[name];
  const put = (text: string): void => change({ [name]: text }, name);
  return (
    <div className={styles.field}>
      <label htmlFor={id}>{label}</label>
      {long ? (
        <textarea
          id={id}
          className={styles.box}
          rows={3}
          maxLength={20_000}
          value={value}
          onChange={(event) => put(event.target.value)}
        />
      ) : (
        <input
          id={id}
          className={styles.box}
          type="text"
          maxLength={200}
          autoComplete="off"
          placeholder={placeholder ?? ""}
          value={value}
          onChange={(event) => put(event.target.value)}
        />
      )}
    </div>
  );
}
