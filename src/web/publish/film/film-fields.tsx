import { useId, useRef } from "react";
import { CORNERS } from "../../../publish/index.ts";
import { Button } from "../../controls/button.tsx";
import { FilePick } from "../../controls/file-pick.tsx";
import { QuantityField } from "../../controls/quantity-field.tsx";
import placeStyles from "../place.module.css";
import { changeFilm } from "./change.ts";
import styles from "./film.module.css";
import type { LogOfPull } from "./logs-of-pulls.ts";
import { BOUNDS, type FilmState, type FilmTyped } from "./state.ts";
import type { Clip } from "./use-clip.ts";

const RATES = ["24", "25", "30", "50", "60", "24000/1001", "30000/1001", "60000/1001"];
const SIZES = ["1920x1080", "3840x2160", "1080x1920", "1280x720"];
const CORNER_WORDS: Readonly<Record<(typeof CORNERS)[number], string>> = {
  "below-left": "below, left",
  "below-right": "below, right",
  "above-left": "above, left",
  "above-right": "above, right",
};

/** Log and clip, how they lie beside each other, and where in the frame the overlay stands. */
export function FilmFields({
  state,
  wrong,
  pulls,
  chosen,
  clip,
}: {
  readonly state: FilmState;
  readonly wrong: FilmTyped["wrong"];
  readonly pulls: readonly LogOfPull[];
  /** Id of the log. */
  readonly chosen: string;
  readonly clip: Clip;
}) {
  const pick = useRef<HTMLInputElement>(null);
  return (
    <>
      <div className={`${placeStyles.fields} ${styles.fields}`}>
        <label className={placeStyles.field}>
          <span>log of a pull</span>
          <select
            className={placeStyles.box}
            value={chosen}
            onChange={(event) => changeFilm({ log: event.target.value }, "log")}
          >
            {!pulls.some(({ log }) => log.id === chosen) && <option value={chosen}>{chosen} (not in the book)</option>}
            {pulls.map(({ log, named }) => (
              <option key={log.id} value={log.id}>
                {named}
              </option>
            ))}
          </select>
        </label>
        <Typed
          name="rate"
          label="Frames a second of the clip, exactly"
          value={state.rate}
          wrong={wrong.rate}
          offered={RATES}
        />
        <QuantityField
          field="film mark"
          label="The mark, in the log from its first reading"
          dimension="time"
          value={state.mark}
          range={{ least: BOUNDS.mark[0], most: BOUNDS.mark[1], expected: "a time is expected" }}
          onChange={(mark) => changeFilm({ mark }, "mark")}
        />
        <QuantityField
          field="film mark frame"
          label="Frame of the clip that shows it, the first being 0"
          dimension="ratio"
          plain
          digits={9}
          value={state.markFrame}
          range={{ least: 0, most: BOUNDS.markFrame[1], expected: "a whole number from 0 is expected" }}
          onChange={(frame) => changeFilm({ markFrame: Math.round(frame) }, "mark")}
        />
        <Typed
          name="cuts"
          label="Stretches of the clip that are in the film"
          placeholder="all, or 0..250,900..1200"
          value={state.cuts}
          wrong={wrong.cuts}
        />
        <Typed name="size" label="Size of a frame, pixels" value={state.size} wrong={wrong.size} offered={SIZES} />
        <label className={placeStyles.field}>
          <span>corner it stands in</span>
          <select
            className={placeStyles.box}
            value={state.corner}
            onChange={(event) => changeFilm({ corner: event.target.value as FilmState["corner"] }, "corner")}
          >
            {CORNERS.map((corner) => (
              <option key={corner} value={corner}>
                {CORNER_WORDS[corner]}
              </option>
            ))}
          </select>
        </label>
        <QuantityField
          field="film share"
          label="Share of the frame's width"
          dimension="ratio"
          usualUnit="%"
          value={state.share}
          range={{ least: BOUNDS.share[0], most: BOUNDS.share[1], expected: "a share from 10 % to 90 % is expected" }}
          onChange={(share) => changeFilm({ share }, "share")}
        />
        <QuantityField
          field="film load u"
          label="± of a load read"
          dimension="force"
          placeholder="not known"
          value={state.loadU}
          range={{ least: 0, most: BOUNDS.loadU[1], expected: "a standard uncertainty not below zero is expected" }}
          onChange={(loadU) => changeFilm({ loadU }, "uncertainty")}
          onEmpty={() => changeFilm({ loadU: null }, "uncertainty")}
        />
      </div>
      <div className={placeStyles.buttons}>
        <Button onClick={() => pick.current?.click()}>
          {clip.address === null ? "Open a clip" : "Open another clip"}
        </Button>
        <FilePick pick={pick} label="Clip" accept="video/*" onPick={clip.take} />
        {clip.address !== null && (
          <>
            <span className={styles.name}>{clip.name}</span>
            <Button onClick={() => clip.take(null)}>Without a clip</Button>
          </>
        )}
      </div>
      {clip.wrong !== null && (
        <p className={placeStyles.wrong} role="alert">
          {clip.wrong}
        </p>
      )}
    </>
  );
}

function Typed({
  name,
  label,
  value,
  wrong,
  offered = [],
  placeholder = "",
}: {
  readonly name: "rate" | "cuts" | "size";
  readonly label: string;
  readonly value: string;
  readonly wrong: string | undefined;
  readonly offered?: readonly string[];
  readonly placeholder?: string;
}) {
  const id = useId();
  return (
    <div className={placeStyles.field}>
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        className={placeStyles.box}
        type="text"
        autoComplete="off"
        spellCheck={false}
        maxLength={2000}
        placeholder={placeholder}
        list={`${id}-offered`}
        aria-invalid={wrong !== undefined}
        aria-describedby={wrong === undefined ? undefined : `${id}-wrong`}
        value={value}
        onChange={(event) => changeFilm({ [name]: event.target.value }, name)}
      />
      <datalist id={`${id}-offered`}>
        {offered.map((text) => (
          <option key={text} value={text} />
        ))}
      </datalist>
      {wrong !== undefined && (
        <p className={placeStyles.wrong} id={`${id}-wrong`} role="alert">
          {wrong}
        </p>
      )}
    </div>
  );
}
