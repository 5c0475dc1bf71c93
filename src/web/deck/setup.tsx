import { useEffect, useState } from "react";
import { InputError } from "../../quantity/index.ts";
import { bounds, expects } from "../../record/index.ts";
import { CAUTION } from "../../words/index.ts";
import { Button } from "../controls/button.tsx";
import { type NumberField, NumberFields } from "../controls/number-fields.tsx";
import { Panel } from "../controls/panel.tsx";
import { PlaceLink } from "../controls/place-link.tsx";
import { bookCopy, look } from "../days/book-copy.ts";
import { rigStore } from "../rig/store.ts";
import { useStore } from "../state/use-store.ts";
import { begin, pullOf } from "./begin.ts";
import { helping, type OpenPull, openPulls } from "./help.ts";
import type { DeckState } from "./keep.ts";
import { deploymentOfPull } from "./loads.ts";
import styles from "./place.module.css";
import { Planned } from "./planned.tsx";
import { type Setup as SetupState, setupStore } from "./setup-state.ts";
import { StepsField } from "./steps-field.tsx";

const fields: readonly NumberField<"depth" | "paidOut" | "hold" | "heldFor" | "heldWithin" | "loadU" | "direction">[] =
  [
    {
      name: "depth",
      field: "deck depth",
      label: "Water at the anchor",
      dimension: "length",
      change: "depth",
      range: { above: 0, most: 1e4, expected: "a depth above zero is expected" },
    },
    {
      name: "paidOut",
      field: "deck rode",
      label: "Rode out, to the roller",
      dimension: "length",
      change: "rode out",
      range: { above: 0, most: 1e5, expected: "a length above zero is expected" },
    },
    {
      name: "hold",
      field: "deck hold",
      label: "Hold each load",
      dimension: "time",
      change: "hold",
      range: { least: 0, most: 1e5, expected: "a time of zero or more is expected" },
    },
    {
      name: "heldFor",
      field: "deck held for",
      label: "Held when kept for",
      dimension: "time",
      change: "hold rule",
      range: { ...bounds.pull.heldFor_s, expected: expects.heldFor_s },
      placeholder: "usual",
      optional: true,
    },
    {
      name: "heldWithin",
      field: "deck held within",
      label: "The anchor moving less than",
      dimension: "length",
      change: "hold rule",
      range: { ...bounds.pull.heldWithin_m, expected: expects.heldWithin_m },
      placeholder: "usual",
      optional: true,
    },
    {
      name: "loadU",
      field: "deck load ±",
      label: "± of a load read",
      dimension: "force",
      change: "± of a load",
      range: { least: 0, most: 1e9, expected: "a load of zero or more is expected" },
    },
    {
      name: "direction",
      field: "deck direction",
      label: "Pulled toward, true",
      dimension: "angle",
      change: "direction of the pull",
      range: { least: 0, most: 2 * Math.PI, expected: "0° to 360° from true north are expected" },
      placeholder: "none",
      optional: true,
    },
  ];

/** Before the pull: what is pulled, on what, in which water, and the loads. */
export function Setup({ state }: { readonly state: DeckState }) {
  const setup = useStore(setupStore);
  const { rig } = useStore(rigStore);
  const [read, setRead] = useState(state.cautioned);
  const [wrong, setWrong] = useState<string | null>(null);
  const set = (change: Partial<SetupState>, label: string) => setupStore.set({ ...setup, ...change }, { label });
  const go = async () => {
    try {
      const pull = pullOf(setup, rig);
      // What cannot lie so is refused here, not under load.
      for (const step of pull.steps.keys()) deploymentOfPull(pull, step);
      setWrong(null);
      await begin(pull);
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      setWrong(error.message);
    }
  };
  return (
    <Panel title="Set up a pull">
      <div className={styles.form}>
        <label className={styles.text}>
          Anchor
          <input
            value={setup.anchor}
            maxLength={200}
            onChange={(event) => set({ anchor: event.target.value }, "anchor")}
          />
        </label>
        <NumberFields
          fields={fields}
          values={setup}
          onChange={(name, value, label) => {
            if (value !== null || fields.some((one) => one.name === name && one.optional))
              set({ [name]: value }, label);
          }}
        />
        <StepsField loads={setup.loads} hold={setup.hold} onChange={(loads) => set({ loads }, "loads")} />
        <label className={styles.text}>
          Code on the sheet, where there is one
          <input
            value={setup.code}
            maxLength={20}
            spellCheck={false}
            autoCapitalize="characters"
            onChange={(event) => set({ code: event.target.value }, "code")}
          />
        </label>
      </div>
      <Planned
        code={setup.code}
        onCode={(code) => set({ code }, "code")}
        onTake={(planned) => {
          const { loadU, direction } = setup;
          setupStore.set({ ...planned, loadU, direction }, { label: `pull ${planned.code}` });
        }}
      />
      <p>
        Rode: <strong>{rig.name}</strong>, as it stands in <PlaceLink to="/rig">Rig</PlaceLink>; loads are read at the
        bow.
      </p>
      {wrong !== null && (
        <p className={styles.trouble} role="alert">
          {wrong}
        </p>
      )}
      {!state.cautioned && (
        <label className={styles.caution}>
          <input type="checkbox" checked={read} onChange={(event) => setRead(event.target.checked)} />
          <span>
            {CAUTION} <strong>Read and understood.</strong>
          </span>
        </label>
      )}
      <Button look="strong" className={styles.wide} disabled={!read} onClick={() => void go()}>
        Begin the pull
      </Button>
      <UnderWayElsewhere
        state={state}
        allowed={read}
        onHelp={(open) => {
          const pull = helping(open, setup.loadU);
          deploymentOfPull(pull);
          void begin(pull);
        }}
      />
    </Panel>
  );
}

/** Between two looks at what other devices have begun, ms. */
const LOOK = 5_000;

/** Pulls that other devices run: this one can help with one. */
function UnderWayElsewhere({
  state,
  allowed,
  onHelp,
}: {
  readonly state: DeckState;
  readonly allowed: boolean;
  readonly onHelp: (open: OpenPull) => void;
}) {
  const copy = useStore(bookCopy);
  useEffect(() => {
    const timer = setInterval(() => void look().catch(() => undefined), LOOK);
    return () => clearInterval(timer);
  }, []);
  const own = new Set(state.waiting.map(({ ids }) => ids.pull));
  return openPulls(copy, own, Date.now())
    .slice(0, 3)
    .map((open) => (
      <Button key={open.id} className={styles.wide} disabled={!allowed} onClick={() => onHelp(open)}>
        Help with the pull of {open.anchor || "an anchor"} begun {timeOf(open.begunAt)}
      </Button>
    ));
}

const timeOf = (ms: number): string => new Date(ms).toTimeString().slice(0, 5);
