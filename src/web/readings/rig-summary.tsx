import { type RefObject, useMemo } from "react";
import { drawRode } from "../../figure/index.ts";
import { type Rig, riseOf, settleTraced, shapeOf } from "../../rode/index.ts";
import { Button } from "../controls/button.tsx";
import { formatQuantity } from "../controls/numbers.ts";
import { Panel } from "../controls/panel.tsx";
import { PlaceLink } from "../controls/place-link.tsx";
import { QuantityField } from "../controls/quantity-field.tsx";
import { useSize } from "../controls/use-size.ts";
import { FigureFrame } from "../figure/figure-frame.tsx";
import { rodeTable } from "../figure/rode-table.ts";
import { rigStore } from "../rig/store.ts";
import { useUnits } from "../state/preferences.ts";
import styles from "./place.module.css";
import type { ReadingsState } from "./state.ts";

/** The rig the readings were taken on, in short, and what is not known of it: those are what the fit may move. */
export function RigSummary({ state, onRig }: { readonly state: ReadingsState; readonly onRig: (rig: Rig) => void }) {
  const { rig } = state;
  const { system } = useUnits();
  const length = (value: number) => formatQuantity(value, "length", { system, digits: 4 });
  const uncertain = (key: "massPerLength" | "rise", value: number | null) => {
    const { [key]: _, ...others } = rig.uncertainty;
    onRig({ ...rig, uncertainty: value === null ? others : { ...others, [key]: value } });
  };
  const load = heaviest(state);
  return (
    <Panel
      title={rig.name}
      beside={
        <span className={styles.files}>
          <Button onClick={() => onRig(rigStore.get().rig)}>Take the rig from Rig</Button>
          <PlaceLink
            to="/rig"
            onClick={() =>
              rigStore.set((before) => ({ ...before, rig, load: { at: state.loadCellAt, newtons: load } }), {
                label: `rig ${rig.name}`,
              })
            }
          >
            Open in Rig
          </PlaceLink>
        </span>
      }
    >
      <ul className={styles.parts}>
        <li>
          {rig.setting.medium === "air" ? "in air" : "in water"}, rise {length(riseOf(rig.setting))}
        </li>
        {rig.rode.map((part, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: parts have no name but their place
          <li key={i}>{part.kind === "line" ? `${length(part.length)} of ${part.name}` : part.name}</li>
        ))}
      </ul>
      <Drawing state={state} load={load} />
      <p className={styles.quiet}>
        Standard uncertainty of the rig: what it states, the fit may move. Left empty, a value stays as given.
      </p>
      <div className={styles.fields}>
        <QuantityField
          field="± mass per length"
          label="Mass per length ±"
          dimension="ratio"
          usualUnit="%"
          value={rig.uncertainty.massPerLength ?? null}
          range={{ above: 0, most: 0.5, expected: "a share from 0 to 50 % is expected" }}
          onEmpty={() => uncertain("massPerLength", null)}
          onChange={(value) => uncertain("massPerLength", value)}
          placeholder="as given"
        />
        <QuantityField
          field="± rise"
          label="Rise ±"
          dimension="length"
          value={rig.uncertainty.rise ?? null}
          range={{ above: 0, most: riseOf(rig.setting) / 2, expected: "less than half the rise is expected" }}
          onEmpty={() => uncertain("rise", null)}
          onChange={(value) => uncertain("rise", value)}
          placeholder="as given"
        />
      </div>
    </Panel>
  );
}

/** The rig to scale, under the heaviest load read: whether it is the one that was pulled is seen at a glance. */
function Drawing({ state, load }: { readonly state: ReadingsState; readonly load: number }) {
  const { rig, loadCellAt } = state;
  const { system } = useUnits();
  const [ref, { width }] = useSize<HTMLDivElement>();
  const traced = useMemo(() => {
    const answer = settleTraced(rig, { at: loadCellAt, newtons: load });
    return "settled" in answer ? answer : null;
  }, [rig, loadCellAt, load]);
  const svg = useMemo(
    () =>
      traced !== null && width > 0
        ? drawRode({ rig, traced, loadCellAt, units: system, width: Math.round(width) }).svg
        : null,
    [rig, traced, loadCellAt, system, width],
  );
  return (
    <FigureFrame
      kind="rode"
      title={`${rig.name}, under the heaviest load read`}
      ownHand
      table={traced === null ? null : () => rodeTable([{ rig, shape: shapeOf(traced) }])}
    >
      <div ref={ref as RefObject<HTMLDivElement>} className={styles.drawing}>
        {/* biome-ignore lint/security/noDangerouslySetInnerHtml: drawn by src/figure, which escapes every text */}
        {svg !== null && <div dangerouslySetInnerHTML={{ __html: svg }} />}
      </div>
    </FigureFrame>
  );
}

/** The heaviest load read, N; before any, twice the weight of the rode, which lifts any chain off the ground. */
function heaviest({ rig, readings, release }: ReadingsState): number {
  const read = [...readings, ...release].map((row) => row.load ?? 0);
  const most = Math.max(0, ...read);
  if (most > 0) return most;
  const mass = rig.rode.reduce((sum, part) => sum + (part.kind === "line" ? part.length * part.massPerLength : 0), 0);
  return Math.max(100, 2 * 9.81 * mass);
}
