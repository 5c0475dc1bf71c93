import { memo, useEffect, useMemo } from "react";
import { longestLine, type NoEquilibrium, type Rig } from "../../../rode/index.ts";
import type { Boat } from "../../../sea/index.ts";
import type { SnubberMap, SteadyLoad, Surge } from "../../../sizing/index.ts";
import { announce } from "../../controls/announce.ts";
import { FaultNote } from "../../controls/fault-note.tsx";
import { FoldingPanel } from "../../controls/panel.tsx";
import { useUnits } from "../../state/preferences.ts";
import { type Question, useNewest } from "../../work/worker.ts";
import styles from "../place.module.css";
import type { SnubberAsked } from "../state.ts";
import { changeSnubber } from "../store.ts";
import { ChosenSnubber, verdictOf } from "./chosen-snubber.tsx";
import { LimitField } from "./limit-field.tsx";
import { limitsShown } from "./reasons.ts";
import { SnubberFields, useRange } from "./snubber-fields.tsx";
import { SnubberMapView, usualDiameter } from "./snubber-map.tsx";
import type { OneSnubber, Refused } from "./snubber-work.ts";

const COLUMNS = 44;
const ROWS = 26;

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
    return ((work): Promise<SnubberMap | NoEquilibrium | Refused> =>
      work.mapOfSnubbers(whole, lengths, diameters)) satisfies Question<SnubberMap | NoEquilibrium | Refused>;
  }, [rig, at, newtons, loadU, surge, mapKey, range]);
  const mapped = useNewest(askMap);
  const map = mapped.answer;
  const weighed = useNewest(
    useMemo(
      () =>
        ((work): Promise<OneSnubber | Refused> => work.oneSnubber(question)) satisfies Question<OneSnubber | Refused>,
      [question],
    ),
  );
  const one = weighed.answer;
  const verdict = verdictOf(one);
  useEffect(() => {
    if (one !== null) announce(`The chosen snubber: ${verdict}.`);
  }, [one, verdict]);

  const top = rig.rode[longestLineAtBow(rig)];
  const lengthUnit = unitOf("length", "length");
  return (
    <FoldingPanel
      name="snubber"
      title={snubber.bridle === null ? "A snubber that takes over" : "A bridle that takes over"}
    >
      <p className={styles.quiet}>
        On {rig.name}, {windText}, with the surge above. Hooked to {top?.name ?? "the rode"} and paid out on top of it.
      </p>
      <SnubberFields snubber={snubber} boat={boat} range={range} diameterUnit={usualDiameter(lengthUnit)} />
      <div className={styles.mapSides}>
        <div className={styles.mapSide}>
          <FaultNote of={mapped} what="the map of snubbers" />
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
      <FaultNote of={weighed} what="the chosen snubber" />
      {one !== null && <ChosenSnubber one={one} verdict={verdict} snubber={snubber} system={system} />}
    </FoldingPanel>
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
      {limitsShown
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
