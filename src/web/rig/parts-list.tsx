import { lazy, memo, Suspense, useCallback, useId, useState } from "react";
import type { Part, PointPart } from "../../rode/index.ts";
import { Button } from "../controls/button.tsx";
import { formatQuantity, significant } from "../controls/numbers.ts";
import { QuantityField } from "../controls/quantity-field.tsx";
import { useUnits } from "../state/preferences.ts";
import { PartName } from "./part-name.tsx";
import { changedPart, hungOn, movedPart, paidOut, sliding, withoutPart, withPart } from "./parts.ts";
import styles from "./parts-list.module.css";
import { rigStore } from "./store.ts";

/** The catalogue and its search come when a part is added. */
const PartPicker = lazy(() => import("./part-picker.tsx").then(({ PartPicker: picker }) => ({ default: picker })));

/** The rode's parts in order from the anchor to the bow, each with its length or mass and what it carries. */
export function PartsList({
  rode: all,
  loads,
}: {
  readonly rode: readonly Part[];
  readonly loads: Float64Array | null;
}) {
  const id = useId();
  const [adding, setAdding] = useState(false);
  // On a phone a row is no higher than its field until parts are to be moved.
  const [arranging, setArranging] = useState(false);
  const slides = sliding(all);
  const put = (rode: readonly Part[], label: string) =>
    rigStore.set({ ...rigStore.get(), rig: { ...rigStore.get().rig, rode } }, { label });
  return (
    <section className={styles.rode} aria-labelledby={id}>
      <h3 id={id} className={styles.title}>
        Rode, from the anchor to the bow
      </h3>
      <ol className={styles.list} data-arranging={arranging || undefined}>
        {all.map((part, i) => (
          <PartRow
            // biome-ignore lint/suspicious/noArrayIndexKey: parts have no identity but their place
            key={i}
            part={part}
            index={i}
            count={all.length}
            slides={slides.includes(i)}
            load={loads?.[i] ?? null}
            twin={all.some((one, j) => j !== i && one.name === part.name)}
          />
        ))}
      </ol>
      <div className={styles.below}>
        <Button onClick={() => setAdding(true)} aria-haspopup="dialog">
          <span aria-hidden="true">+</span> Add a part
        </Button>
        <Button className={styles.arrange} aria-pressed={arranging} onClick={() => setArranging(!arranging)}>
          Move or remove
        </Button>
      </div>
      {adding && (
        <Suspense fallback={<p>Opening the catalogue…</p>}>
          <PartPicker
            onClose={() => setAdding(false)}
            onPick={(part, where) => {
              const { rode } = rigStore.get().rig;
              const line = paidOut(rode);
              const next =
                where === "anchor"
                  ? withPart(rode, 0, part)
                  : where === "bow" || line < 0
                    ? withPart(rode, rode.length, part)
                    : hungOn(rode, longestLine(rode), part as PointPart);
              put(next, `add ${part.name}`);
              setAdding(false);
            }}
          />
        </Suspense>
      )}
    </section>
  );
}

function longestLine(rode: readonly Part[]): number {
  let longest = -1;
  rode.forEach((part, i) => {
    const best = rode[longest];
    if (part.kind === "line" && (best?.kind !== "line" || part.length > best.length)) longest = i;
  });
  return longest;
}

const PartRow = memo(function PartRow({
  part,
  index,
  count,
  slides,
  load,
  twin,
}: {
  readonly part: Part;
  readonly index: number;
  readonly count: number;
  readonly slides: boolean;
  readonly load: number | null;
  /** Another part has the same name: to ears, each is told by its place as well. */
  readonly twin: boolean;
}) {
  const called = twin ? `${part.name}, part ${index + 1}` : part.name;
  const change = useCallback(
    (next: Part, label = `another for ${part.name}`) => {
      const state = rigStore.get();
      rigStore.set({ ...state, rig: { ...state.rig, rode: changedPart(state.rig.rode, index, next) } }, { label });
    },
    [part.name, index],
  );
  const arrange = (rode: readonly Part[], label: string) => {
    const state = rigStore.get();
    rigStore.set({ ...state, rig: { ...state.rig, rode } }, { label });
  };
  const rode = () => rigStore.get().rig.rode;
  const lines = () => rode().filter((each) => each.kind === "line").length;
  return (
    <li className={styles.part}>
      <PartSign part={part} />
      <div className={styles.what}>
        <PartName part={part} called={called} onChange={change} />
        <Strength part={part} load={load} />
      </div>
      <div className={styles.amount}>
        {part.kind === "line" ? (
          <QuantityField
            field="length"
            label={`Length of ${called}`}
            labelUnseen
            dimension="length"
            value={part.length}
            range={{ above: 0, most: 1e5, expected: "a length above zero is expected" }}
            onChange={(length) => change({ ...part, length }, `length of ${part.name}`)}
          />
        ) : (
          <QuantityField
            field="mass"
            label={`Mass of ${called}`}
            labelUnseen
            dimension="mass"
            value={part.mass}
            range={{ above: 0, most: 1e7, expected: "a mass above zero is expected" }}
            onChange={(mass) => change({ ...part, mass }, `mass of ${part.name}`)}
          />
        )}
      </div>
      <div className={styles.acts}>
        <Button
          look="bare"
          disabled={index === 0}
          aria-label={`Move ${called} toward the anchor`}
          title="Toward the anchor"
          onClick={() => arrange(movedPart(rode(), index, index - 1), `move ${part.name}`)}
        >
          <Sign d="M5 15l7-7 7 7" />
        </Button>
        <Button
          look="bare"
          disabled={index === count - 1}
          aria-label={`Move ${called} toward the bow`}
          title="Toward the bow"
          onClick={() => arrange(movedPart(rode(), index, index + 1), `move ${part.name}`)}
        >
          <Sign d="M5 9l7 7 7-7" />
        </Button>
        <Button
          look="bare"
          disabled={part.kind === "line" && lines() === 1}
          aria-label={`Remove ${called}`}
          title={
            part.kind === "line" && lines() === 1 ? "A rode needs a line" : slides ? "Take it off the line" : "Remove"
          }
          onClick={() => arrange(withoutPart(rode(), index), `remove ${part.name}`)}
        >
          <Sign d="M6 6l12 12M18 6L6 18" />
        </Button>
      </div>
    </li>
  );
});

function Sign({ d }: { readonly d: string }) {
  return (
    <svg width="20" height="20" viewBox="0 0 24 24" aria-hidden="true">
      <path d={d} fill="none" stroke="currentColor" strokeWidth="2.2" strokeLinecap="round" strokeLinejoin="round" />
    </svg>
  );
}

/** The line the part is drawn with. */
function PartSign({ part }: { readonly part: Part }) {
  return (
    <svg className={styles.sign} width="28" height="28" viewBox="0 0 28 28" aria-hidden="true">
      {part.kind === "line" ? (
        <path className={styles.stroke} data-material={part.material ?? "line"} d="M2 24L26 4" />
      ) : (
        <circle className={styles.dot} cx="14" cy="14" r={Math.min(9, 3.5 + 1.4 * Math.cbrt(part.mass))} />
      )}
    </svg>
  );
}

/** What the part carries, against its working load limit. */
function Strength({ part, load }: { readonly part: Part; readonly load: number | null }) {
  const { system, unitOf } = useUnits();
  const force = (value: number) => formatQuantity(value, "force", { system, unit: unitOf("load", "force"), digits: 3 });
  const { workingLoad, breakingLoad } = part;
  if (load === null) return null;
  if (workingLoad === undefined) {
    const broken = breakingLoad !== undefined && load > breakingLoad;
    return (
      <span className={styles.strength} data-over={broken || undefined}>
        carries {force(load)}; no working load limit is stated
      </span>
    );
  }
  const share = load / workingLoad;
  const over = share > 1;
  return (
    <span className={styles.strength} data-over={over || undefined}>
      <span className={styles.bar} aria-hidden="true">
        <span style={{ inlineSize: `${Math.min(100, 100 * share)}%` }} />
      </span>
      {over ? "over its limit: " : ""}
      {force(load)} of {force(workingLoad)}, {significant(100 * share, 2)} %
      {breakingLoad !== undefined && load > breakingLoad ? "; above its breaking load" : ""}
    </span>
  );
}
