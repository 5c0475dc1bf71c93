import { memo, useMemo } from "react";
import { catalogue } from "../../../gear/index.ts";
import { DEGREE } from "../../../quantity/index.ts";
import type { Boat } from "../../../sea/index.ts";
import type { RopeEnds } from "../../../sizing/index.ts";
import { Choice } from "../../controls/choice.tsx";
import { QuantityField } from "../../controls/quantity-field.tsx";
import styles from "../place.module.css";
import type { SnubberAsked } from "../state.ts";
import { changeSnubber } from "../store.ts";
import type { MapRange } from "./map-scale.ts";

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

/** How far the map reaches for a rope, and with the one that is chosen. */
export function useRange({ fibre, lay, length, diameter, bridle }: SnubberAsked): MapRange {
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

/** Rope, length, ends, loop and legs. */
export const SnubberFields = memo(function SnubberFields({
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
    <>
      <div className={styles.buttons}>
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
        <Choice<RopeEnds>
          label="Ends"
          value={snubber.ends}
          options={[
            { value: "spliced", label: "spliced" },
            { value: "knotted", label: "knotted" },
          ]}
          onChange={(ends) => changeSnubber({ ends }, "ends of the snubber")}
        />
      </div>
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
              range={{ least: -80 * DEGREE, most: 80 * DEGREE, expected: "an angle from -80 to 80° is expected" }}
              onChange={(heading) =>
                changeSnubber({ bridle: { ...bridle, heading } }, "heading of the bridle", "bridle heading")
              }
            />
          </>
        )}
      </div>
    </>
  );
});
