import { memo, useEffect, useMemo } from "react";
import { catalogue } from "../../gear/index.ts";
import { formatQuantity } from "../../quantity/index.ts";
import { longestLine, type NoEquilibrium, type Rig } from "../../rode/index.ts";
import type { Boat } from "../../sea/index.ts";
import { type RopeEnds, reasonsOf, type SnubberMap, type SteadyLoad, type Surge } from "../../sizing/index.ts";
import { announce } from "../show/announce.ts";
import { Choice } from "../show/choice.tsx";
import { Panel } from "../show/panel.tsx";
import { QuantityField } from "../show/quantity-field.tsx";
import { Reading } from "../show/reading.tsx";
import { useUnits } from "../state/preferences.ts";
import { inWorker, useNewest } from "../work/worker.ts";
import { BridlePlan } from "./bridle-plan.tsx";
import { changeSnubber, type SnubberAsked } from "./desk.ts";
import { LimitField } from "./limit-field.tsx";
import styles from "./place.module.css";
import { limitsSaid, reasonSaid } from "./reasons.ts";
import { type MapRange, SnubberMapView, usualDiameter } from "./snubber-map.tsx";
import type { OneSnubber, Refused } from "./snubber-work.ts";

const COLUMNS = 44;
const ROWS = 26;
const DEG = Math.PI / 180;

/** Fibres and lays whose strength the catalogue has, with the sizes it has them in, m. */
const ropes = (() => {
  const found = new Map<string, { fibre: string; lay: string; least: number; most: number }>();
  for (const row of catalogue.rows) {
    if (row.kind !== "rope" || row.breakingLoad === undefined) continue;
    const name = `${row.fibre} ${row.lay}`;
    const one = found.get(name) ?? { fibre: row.fibre, lay: row.lay, least: row.diameter, most: row.diameter };
    found.set(name, { ...one, least: Math.min(one.least, row.diameter), most: Math.max(one.most, row.diameter) });
  }
  return found;
})();

/** A snubber, or a bridle of two: which lengths and diameters keep within the limits, and why the others do not. */
export function SnubberPanel({
  rig,
  boat,
  load,
  loadU,
  surge,
  snubber,
  windText,
}: {
  readonly rig: Rig;
  readonly boat: Boat;
  readonly load: SteadyLoad;
  readonly loadU: number;
  readonly surge: Surge;
  readonly snubber: SnubberAsked;
  readonly windText: string;
}) {
  const { system, unitOf } = useUnits();
  const range = useRange(snubber);
  const { at, newtons } = load;
  const question = useMemo(
    () => ({ rig, load: { at, newtons } as SteadyLoad, loadU, surge, snubber }),
    [rig, at, newtons, loadU, surge, snubber],
  );
  // The map does not change with the one that is chosen on it.
  const { length: _l, diameter: _d, ...others } = snubber;
  const mapKey = JSON.stringify(others);
  const askMap = useMemo(() => {
    const asked = JSON.parse(mapKey) as Omit<SnubberAsked, "length" | "diameter">;
    const over = (count: number, [from, to]: readonly [number, number]) =>
      Float64Array.from({ length: count }, (_, i) => from + ((to - from) * (i + 0.5)) / count);
    const [lengths, diameters] = [over(COLUMNS, range.lengths), over(ROWS, range.diameters)];
    const whole = {
      rig,
      load: { at, newtons } as SteadyLoad,
      loadU,
      surge,
      snubber: { ...asked, length: 1, diameter: 0.01 },
    };
    return async () => inWorker().mapOfSnubbers(whole, lengths, diameters);
  }, [rig, at, newtons, loadU, surge, mapKey, range]);
  const map = useNewest<SnubberMap | NoEquilibrium | Refused>(askMap);
  const one = useNewest<OneSnubber | Refused>(useMemo(() => async () => inWorker().oneSnubber(question), [question]));
  const verdict = verdictOf(one);
  useEffect(() => {
    if (one !== null) announce(`The chosen snubber: ${verdict}.`);
  }, [one, verdict]);

  const top = rig.rode[longestLineAtBow(rig)];
  const lengthUnit = unitOf("length", "length");
  return (
    <Panel title={snubber.bridle === null ? "A snubber that takes over" : "A bridle that takes over"}>
      <p className={styles.quiet}>
        On {rig.name}, {windText}, with the surge above. Hooked to {top?.name ?? "the rode"} and paid out on top of it.
      </p>
      <SnubberFields snubber={snubber} boat={boat} range={range} diameterUnit={usualDiameter(lengthUnit)} />
      <div className={styles.mapSides}>
        <div className={styles.mapSide}>
          {map?.kind === "map" ? (
            <SnubberMapView
              map={map}
              range={range}
              length={snubber.length}
              diameter={snubber.diameter}
              verdict={verdict}
              onChoose={(length, diameter, stroke) => changeSnubber({ length, diameter }, "chosen snubber", stroke)}
            />
          ) : (
            <p className={styles.wrong}>
              {map === null
                ? ""
                : map.kind === "refused"
                  ? map.line
                  : "The rode has no equilibrium under the mean load."}
            </p>
          )}
        </div>
        <Limits limits={snubber.limits} looped={snubber.slack > 0} />
      </div>
      {one !== null && <ChosenSaid one={one} verdict={verdict} snubber={snubber} system={system} />}
    </Panel>
  );
}

const Limits = memo(function Limits({
  limits,
  looped,
}: {
  readonly limits: SnubberAsked["limits"];
  readonly looped: boolean;
}) {
  return (
    <div className={styles.limits}>
      <h3>Limits</h3>
      {limitsSaid
        .filter(({ name }) => name !== "loopShare" || looped)
        .map((limit) => (
          <LimitField
            key={limit.name}
            limit={limit}
            value={limits[limit.name]}
            onLimit={(value, stroke) => {
              const { [limit.name]: _, ...rest } = limits;
              changeSnubber(
                { limits: value === undefined ? rest : { ...rest, [limit.name]: value } },
                `limit: ${limit.label}`,
                stroke,
              );
            }}
          />
        ))}
    </div>
  );
});

/** Index of the line next to the bow. */
const longestLineAtBow = (rig: Rig): number => {
  const last = rig.rode.findLastIndex((part) => part.kind === "line");
  return last < 0 ? longestLine(rig) - 1 : last;
};

function useRange({ fibre, lay, length, diameter, bridle }: SnubberAsked): MapRange {
  const rope = ropes.get(`${fibre} ${lay}`);
  const shortest = bridle === null ? 0.5 : Math.max(0.5, 0.55 * bridle.beam);
  const longest = length > 25 ? 60 : 25;
  const [least, most] = [rope?.least ?? 0.008, rope?.most ?? 0.032];
  const thickest = Math.min(most, Math.max(0.03, 1.2 * diameter));
  return useMemo(
    () => ({ lengths: [shortest, longest], diameters: [least, Math.max(thickest, least + 0.004)] }),
    [shortest, longest, least, thickest],
  );
}

const SnubberFields = memo(function SnubberFields({
  snubber,
  boat,
  range,
  diameterUnit,
}: {
  readonly snubber: SnubberAsked;
  readonly boat: Boat;
  readonly range: MapRange;
  readonly diameterUnit: string;
}) {
  const { bridle } = snubber;
  return (
    <div className={styles.fields}>
      <label className={styles.chosen}>
        Rope
        <select
          value={`${snubber.fibre} ${snubber.lay}`}
          onChange={(event) => {
            const { fibre, lay, least, most } = ropes.get(event.target.value)!;
            const diameter = Math.min(most, Math.max(least, snubber.diameter));
            changeSnubber({ fibre, lay, diameter }, "rope of the snubber");
          }}
        >
          {[...ropes.keys()].map((name) => (
            <option key={name} value={name}>
              {name}
            </option>
          ))}
        </select>
      </label>
      <QuantityField
        field="length"
        label={bridle === null ? "Length" : "Length of each leg"}
        dimension="length"
        value={snubber.length}
        digits={3}
        range={{ least: range.lengths[0], most: 60, expected: "a length from the map's least to 60 m is expected" }}
        onChange={(length) => changeSnubber({ length }, "length of the snubber", "snubber length")}
      />
      <QuantityField
        field="rope diameter"
        usualUnit={diameterUnit}
        label="Diameter"
        dimension="length"
        value={snubber.diameter}
        digits={3}
        range={{ least: 0.5 * range.diameters[0], most: 0.12, expected: "a diameter of the catalogue's is expected" }}
        onChange={(diameter) => changeSnubber({ diameter }, "diameter of the snubber", "snubber diameter")}
      />
      <Choice<RopeEnds>
        label="Ends"
        value={snubber.ends}
        options={[
          { value: "spliced", label: "spliced" },
          { value: "knotted", label: "knotted" },
        ]}
        onChange={(ends) => changeSnubber({ ends }, "ends of the snubber")}
      />
      <QuantityField
        field="length"
        label="Slack of the chain's loop"
        dimension="length"
        value={snubber.slack === 0 ? null : snubber.slack}
        placeholder="ample"
        range={{ least: 0, most: 100, expected: "a length from 0 to 100 m is expected, or none" }}
        onChange={(slack) => changeSnubber({ slack }, "slack of the loop", "slack")}
        onEmpty={() => changeSnubber({ slack: 0 }, "slack of the loop", "slack")}
      />
      <Choice
        label="Legs"
        value={bridle === null ? "one" : "two"}
        options={[
          { value: "one", label: "one rope" },
          { value: "two", label: "bridle" },
        ]}
        onChange={(legs) =>
          changeSnubber(
            { bridle: legs === "one" ? null : { beam: Number((0.5 * boat.beam).toPrecision(2)), heading: 0 } },
            "legs",
          )
        }
      />
      {bridle !== null && (
        <>
          <QuantityField
            field="boat length"
            label="Between the cleats"
            dimension="length"
            value={bridle.beam}
            range={{ above: 0.05, most: 100, expected: "a distance above zero is expected" }}
            onChange={(beam) => changeSnubber({ bridle: { ...bridle, beam } }, "cleats of the bridle", "bridle beam")}
          />
          <QuantityField
            field="angle"
            label="Boat off the pull"
            dimension="angle"
            value={bridle.heading}
            range={{ least: -80 * DEG, most: 80 * DEG, expected: "an angle from -80 to 80° is expected" }}
            onChange={(heading) =>
              changeSnubber({ bridle: { ...bridle, heading } }, "heading of the bridle", "bridle heading")
            }
          />
        </>
      )}
    </div>
  );
});

function verdictOf(one: OneSnubber | Refused | null): string {
  if (one === null) return "";
  if ("kind" in one) return one.line;
  const { tried } = one;
  if (tried.kind === "tried") {
    const passed = reasonsOf(tried.verdict.mask);
    return passed.length === 0 ? "within all limits" : passed.map((reason) => reasonSaid(reason).long).join("; ");
  }
  if (tried.kind === "notTaken") return reasonSaid("notTaken").long;
  if (tried.kind === "notSnubbed")
    return tried.why === "legsTooShort" ? "the legs do not meet: longer ones are expected" : "cannot be rigged here";
  return "the rode has no equilibrium under the mean load";
}

function ChosenSaid({
  one,
  verdict,
  snubber,
  system,
}: {
  readonly one: OneSnubber | Refused;
  readonly verdict: string;
  readonly snubber: SnubberAsked;
  readonly system: "metric" | "us";
}) {
  const { unitOf } = useUnits();
  const fine = verdict === "within all limits";
  const tried = "tried" in one && one.tried.kind === "tried" ? one.tried : null;
  const text = (value: number, u: number) =>
    formatQuantity(value, "length", { system, unit: unitOf("length", "length"), u });
  return (
    <div className={styles.group}>
      <p className={styles.verdict} data-fine={fine || undefined}>
        {verdict[0]?.toUpperCase()}
        {verdict.slice(1)}.
      </p>
      {tried !== null && "sure" in one && (
        <div className={snubber.bridle === null ? undefined : styles.withPlan}>
          <dl className={styles.numbers}>
            <Reading
              name="peak at the bow, snubbed"
              field="load"
              dimension="force"
              value={tried.loads.peak}
              u={one.sure?.u}
              big
            />
            <Reading
              name="rope, of its strength in use"
              field="share"
              dimension="ratio"
              value={tried.loads.ropeShare}
              digits={2}
              note={`${formatQuantity(tried.atPeak.legs[0]!, "force", { system, unit: unitOf("load", "force"), digits: 2 })} in it`}
            />
            <Reading
              name="angle at the anchor, snubbed"
              field="angle"
              dimension="angle"
              value={tried.loads.anchorAngle}
              digits={2}
            />
            <Reading
              name="rope drawn out, mean to peak"
              field="movement"
              dimension="length"
              value={tried.atPeak.distance - tried.atMean.distance}
              digits={2}
            />
            <Reading
              name="heat of one surge"
              field="energy"
              dimension="energy"
              value={tried.heat.perCycle.value}
              u={tried.heat.perCycle.u}
            />
            {tried.atPeak.legs.length > 1 && (
              <Reading
                name="harder pulled leg"
                field="load"
                dimension="force"
                value={Math.max(...tried.atPeak.legs)}
                digits={2}
                note={`the other ${formatQuantity(Math.min(...tried.atPeak.legs), "force", { system, unit: unitOf("load", "force"), digits: 2 })}`}
              />
            )}
          </dl>
          {tried.snubbed.bridle !== undefined && (
            <BridlePlan bridle={tried.snubbed.bridle} pull={tried.snatch.loads[tried.snubbed.line]!} />
          )}
        </div>
      )}
      {tried !== null && (
        <p className={styles.quiet}>
          The length is that of rope that has worked in: cut {text(tried.cutNew.value, tried.cutNew.u)} of new rope
          {snubber.bridle === null ? "" : " for each leg"}, and the working-in makes up the rest. Strength is that of
          wet rope with {snubber.ends} ends.
        </p>
      )}
    </div>
  );
}
