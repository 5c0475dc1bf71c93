import { useMemo } from "react";
import { Panel } from "../controls/panel.tsx";
import { QuantityField } from "../controls/quantity-field.tsx";
import { bookCopy } from "../days/book-copy.ts";
import { useStore } from "../state/use-store.ts";
import { BesidePanel } from "./beside-panel.tsx";
import type { BookPulls } from "./book-pulls.ts";
import styles from "./place.module.css";
import { PriorsForm } from "./priors-form.tsx";
import { type HoldingState, holdingStore } from "./state.ts";

const change = (change: Partial<HoldingState>, label: string): void =>
  holdingStore.set((before) => ({ ...before, ...change }), { label });

/** Which pulls, and what is asked of them. */
export function Choose({ book, chosen }: { readonly book: BookPulls; readonly chosen: number }) {
  const state = useStore(holdingStore);
  const { series } = useStore(bookCopy).records;
  const names = useMemo(() => {
    const of = (key: "anchor" | "seabed" | "site"): string[] =>
      [...new Set(book.pulls.map((pull) => pull[key]).filter((name) => name !== undefined))].sort();
    return { anchor: of("anchor"), seabed: of("seabed"), site: of("site") };
  }, [book]);
  const all = state.anchors.length === 0;
  const toggle = (anchor: string): void => {
    const now = new Set(all ? names.anchor : state.anchors);
    if (now.has(anchor)) now.delete(anchor);
    else now.add(anchor);
    const left = names.anchor.filter((name) => now.has(name));
    change({ anchors: left.length === names.anchor.length ? [] : left }, "anchors");
  };
  return (
    <Panel title="Pulls looked at">
      <p>
        {chosen} of {book.pulls.length} pulls
      </p>
      <div className={styles.fields}>
        <Select
          label="Series"
          value={state.series}
          options={series.filter(({ hidden }) => !hidden).map(({ id, name }) => [id, String(name)])}
          onChange={(value) => change({ series: value }, "series")}
        />
        <Select
          label="Seabed"
          value={state.seabed}
          options={names.seabed.map((name) => [name, name])}
          onChange={(seabed) => change({ seabed }, "seabed")}
        />
        <Select
          label="Site"
          value={state.site}
          options={names.site.map((name) => [name, name])}
          onChange={(site) => change({ site }, "site")}
        />
        <DateField label="From" value={state.from} onChange={(from) => change({ from }, "first day")} />
        <DateField label="To" value={state.to} onChange={(to) => change({ to }, "last day")} />
      </div>
      <fieldset className={styles.anchors}>
        <legend>Anchors</legend>
        {names.anchor.map((anchor) => (
          <label key={anchor} className={styles.check}>
            <input type="checkbox" checked={all || state.anchors.includes(anchor)} onChange={() => toggle(anchor)} />
            <span>{anchor}</span>
          </label>
        ))}
      </fieldset>
      <div className={styles.fields}>
        <QuantityField
          field="holding-angle"
          label="At an angle at the anchor of"
          dimension="angle"
          value={state.angle}
          placeholder="as pulled"
          range={{ least: -Math.PI / 2, most: Math.PI / 2, expected: "an angle from -90° to 90° is expected" }}
          onChange={(angle) => change({ angle }, "angle")}
          onEmpty={() => change({ angle: null }, "angle")}
        />
        <QuantityField
          field="holding-mass"
          label="For anchors with a mass of"
          dimension="mass"
          value={state.mass}
          placeholder="each its own"
          range={{ least: 0.01, most: 1e6, expected: "a mass above zero is expected" }}
          onChange={(mass) => change({ mass }, "mass")}
          onEmpty={() => change({ mass: null }, "mass")}
        />
        <QuantityField
          field="holding-load"
          label="Size of each shape that holds"
          dimension="force"
          value={state.load}
          placeholder="none"
          range={{ least: 1e-3, most: 1e9, expected: "a load above zero is expected" }}
          onChange={(load) => change({ load }, "load")}
          onEmpty={() => change({ load: null }, "load")}
        />
        <label className={styles.field}>
          <span>With a chance of</span>
          <select
            className={styles.select}
            value={String(state.chance)}
            onChange={(event) => change({ chance: Number(event.target.value) }, "chance")}
          >
            {[...new Set([0.5, 0.8, 0.9, 0.95, 0.99, state.chance])]
              .sort((a, b) => a - b)
              .map((chance) => (
                <option key={chance} value={String(chance)}>
                  {Math.round(1000 * chance) / 10} %
                </option>
              ))}
          </select>
        </label>
      </div>
      <BesidePanel />
      <PriorsForm />
    </Panel>
  );
}

function Select({
  label,
  value,
  options,
  onChange,
}: {
  readonly label: string;
  readonly value: string;
  readonly options: readonly (readonly [value: string, name: string])[];
  readonly onChange: (value: string) => void;
}) {
  // What the address names but the book does not have is shown as it is named.
  const known = value === "" || options.some(([one]) => one === value);
  return (
    <label className={styles.field}>
      <span>{label}</span>
      <select className={styles.select} value={value} onChange={(event) => onChange(event.target.value)}>
        <option value="">all</option>
        {!known && <option value={value}>{value} (not in the book)</option>}
        {options.map(([one, name]) => (
          <option key={one} value={one}>
            {name}
          </option>
        ))}
      </select>
    </label>
  );
}

function DateField({
  label,
  value,
  onChange,
}: {
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
}) {
  return (
    <label className={styles.field}>
      <span>{label}</span>
      <input className={styles.select} type="date" value={value} onChange={(event) => onChange(event.target.value)} />
    </label>
  );
}
