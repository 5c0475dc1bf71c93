import { memo, useMemo, useRef, useState } from "react";
import { catalogue } from "../../../gear/index.ts";
import { InputError } from "../../../quantity/index.ts";
import type { Rig } from "../../../rode/index.ts";
import type { Measured } from "../../../sea/index.ts";
import type { LoadEnd, Plan, Surge } from "../../../sizing/index.ts";
import { announce } from "../../controls/announce.ts";
import { Button } from "../../controls/button.tsx";
import { FaultNote } from "../../controls/fault-note.tsx";
import { FoldingPanel } from "../../controls/panel.tsx";
import { QuantityField } from "../../controls/quantity-field.tsx";
import { type Question, useNewest } from "../../work/worker.ts";
import styles from "../place.module.css";
import type { Refused } from "../snubber/snubber-work.ts";
import type { SnubberAsked } from "../state.ts";
import { change, weatherStore } from "../store.ts";
import { allChain, type GearAsked, type GearCandidate, MOST_CANDIDATES, namesOf, rigOf } from "./gear.ts";
import { GearOverWinds, type LoadInWind } from "./gear-over-winds.tsx";
import { GearTable } from "./gear-table.tsx";
import type { GearAnswer } from "./gear-work.ts";

const chains = catalogue.rows.flatMap((row) => (row.kind === "chain" ? [row.name] : []));

/** The candidates, changed. */
const changeCandidates = (
  next: (candidates: readonly GearCandidate[]) => readonly GearCandidate[],
  label: string,
  stroke?: string,
): void => {
  const { gear } = weatherStore.get();
  change({ gear: { ...gear, candidates: next(gear.candidates) } }, label, stroke);
};
const removed = (i: number): void => changeCandidates((all) => all.filter((_, j) => j !== i), "remove a candidate");
const priced = (i: number, price: number | null): void =>
  changeCandidates((all) => all.map((one, j) => (j === i ? { ...one, price } : one)), "price", `price ${i}`);

/** Rodes side by side in the wind under the pointer; the ones no other beats are marked. */
export function GearPanel({
  gear,
  rig,
  snubber,
  at,
  mean,
  peak,
  surge,
  over,
  windText,
}: {
  readonly gear: GearAsked;
  readonly rig: Rig;
  readonly snubber: SnubberAsked;
  readonly at: LoadEnd;
  readonly mean: Measured;
  readonly peak: Measured | null;
  readonly surge: Surge | null;
  readonly over: readonly LoadInWind[];
  readonly windText: string;
}) {
  const { candidates, limits } = gear;
  const names = useMemo(() => namesOf(candidates, rig), [candidates, rig]);
  const ask = useMemo(() => {
    if (candidates.length === 0) return null;
    const { limits: _, ...chosen } = snubber;
    const question = {
      candidates: candidates.map((one, i) => ({
        name: names[i]!,
        rig: rigOf(one, rig),
        price: one.price,
        snubber: one.snubber === "chosen" ? { ...chosen, within: false } : one.snubber,
      })),
      at,
      mean: { value: mean.value, u: mean.u },
      peak: peak === null ? null : { value: peak.value, u: peak.u },
      surge,
      limits,
      loads: over.map(({ load }) => load),
    };
    return (async (work) => ({
      answer: await work.gearSideBySide(question),
      over,
      of: candidates,
    })) satisfies Question<Compared>;
  }, [candidates, names, limits, rig, snubber, at, mean.value, mean.u, peak, surge, over]);
  const outcome = useNewest(ask);
  const said = outcome.answer;
  return (
    <FoldingPanel name="gear" title="Gear side by side" beside={<PlanFiles />}>
      <p className={styles.quiet}>
        {windText}, with the surge above; those without a setting of their own lie where {rig.name} lies.
      </p>
      {said !== null &&
        candidates.length > 0 &&
        said.answer.kind === "gear" &&
        said.of.length === candidates.length && (
          <>
            <GearTable answer={said.answer} onRemove={removed} onPrice={priced} />
            <GearOverWinds answer={said.answer} over={said.over} />
          </>
        )}
      <FaultNote of={outcome} what="the comparison" />
      {said?.answer.kind === "refused" && (
        <p className={styles.wrong} role="alert">
          {said.answer.line}
        </p>
      )}
      <Adding gear={gear} rig={rig} snubber={snubber} />
    </FoldingPanel>
  );
}

interface Compared {
  readonly answer: GearAnswer | Refused;
  readonly over: readonly LoadInWind[];
  readonly of: readonly GearCandidate[];
}

const limitFields = [
  { name: "workingLoad", label: "Share of working load limits", field: "share", dimension: "ratio" },
  { name: "strength", label: "Share of strength in use, all alike", field: "share", dimension: "ratio" },
  { name: "ropeShare", label: "Share of a snubber's strength", field: "share", dimension: "ratio" },
  { name: "anchorAngle", label: "Angle at the anchor", field: "angle", dimension: "angle" },
  { name: "peak", label: "Peak at the bow", field: "load", dimension: "force" },
  { name: "weight", label: "Weight aboard", field: "displacement", dimension: "mass" },
] as const;

const Adding = memo(function Adding({
  gear,
  rig,
  snubber,
}: {
  readonly gear: GearAsked;
  readonly rig: Rig;
  readonly snubber: SnubberAsked;
}) {
  const [chain, setChain] = useState(
    chains.includes("chain 10 mm grade 30 ISO 4565") ? "chain 10 mm grade 30 ISO 4565" : chains[0]!,
  );
  const [length, setLength] = useState(40);
  const onAdd = (one: GearCandidate) => changeCandidates((all) => [...all, one], "add a candidate");
  const full = gear.candidates.length >= MOST_CANDIDATES;
  const kept = { name: "", rig, ownSetting: false, price: null };
  return (
    <div className={styles.group}>
      <div className={styles.adding}>
        <label className={styles.chosen}>
          All of one chain
          <select value={chain} onChange={(event) => setChain(event.target.value)}>
            {chains.map((name) => (
              <option key={name} value={name}>
                {name}
              </option>
            ))}
          </select>
        </label>
        <QuantityField
          field="length"
          label="its length"
          dimension="length"
          value={length}
          range={{ above: 0, most: 1e4, expected: "a length above zero is expected" }}
          onChange={setLength}
        />
        <Button disabled={full} onClick={() => onAdd(allChain(chain, length))}>
          + this chain
        </Button>
        <Button disabled={full} onClick={() => onAdd({ ...kept, snubber: null })}>
          + {rig.name}, as it is
        </Button>
        <Button
          disabled={full}
          onClick={() => {
            const { limits: _, ...chosen } = snubber;
            onAdd({ ...kept, snubber: { ...chosen, within: false } });
          }}
        >
          + with this snubber
        </Button>
      </div>
      <div className={styles.fields}>
        {limitFields.map(({ name, label, field, dimension }) => (
          <QuantityField
            key={name}
            field={field}
            label={`Limit: ${label[0]!.toLowerCase()}${label.slice(1)}`}
            {...(dimension === "ratio" ? { usualUnit: "%" } : {})}
            dimension={dimension}
            value={gear.limits[name] ?? null}
            digits={3}
            placeholder="off"
            range={{ above: 0, most: 1e9, expected: "a limit above zero is expected, or none" }}
            onChange={(value) =>
              change(
                { gear: { ...gear, limits: { ...gear.limits, [name]: value } } },
                `limit: ${label}`,
                `gear ${name}`,
              )
            }
            onEmpty={() => {
              const { [name]: _, ...rest } = gear.limits;
              change({ gear: { ...gear, limits: rest } }, `limit: ${label}`, `gear ${name}`);
            }}
          />
        ))}
      </div>
    </div>
  );
});

/** A plan's candidates, with the files it names. */
function PlanFiles() {
  const pick = useRef<HTMLInputElement>(null);
  const [wrong, setWrong] = useState<string | null>(null);
  const take = async (read: (files: typeof import("./plan-files.ts")) => Plan): Promise<void> => {
    try {
      const files = await import("./plan-files.ts");
      const plan = read(files);
      change(files.stateOfPlan(plan), `open ${plan.name}`);
      const left = files.limitsLeftOut(plan);
      setWrong(left.length === 0 ? null : `${plan.name}: its limits of ${left.join(", ")} are not looked at here`);
      announce(`${plan.candidates.length} candidates of ${plan.name} are side by side.`);
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      setWrong(error.message);
    }
  };
  return (
    <span className={styles.buttons}>
      <input
        ref={pick}
        type="file"
        multiple
        className="unseen"
        tabIndex={-1}
        aria-hidden="true"
        accept=".yaml,.yml,.json"
        onChange={(event) => {
          const chosen = [...(event.target.files ?? [])];
          event.target.value = "";
          if (chosen.length === 0) return;
          void Promise.all(chosen.map(async (file) => ({ name: file.name, text: await file.text() }))).then((texts) =>
            take((files) => files.planOfFiles(texts)),
          );
        }}
      />
      <Button title="The plan, and with it the boat and rigs it names" onClick={() => pick.current?.click()}>
        Open a plan
      </Button>
      <Button onClick={() => void take((files) => files.demoPlan())}>The demo's plan</Button>
      {wrong !== null && (
        <span className={styles.wrong} role="alert">
          {wrong}
        </span>
      )}
    </span>
  );
}
