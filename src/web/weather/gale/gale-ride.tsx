/** One ride as it is seen: boat and rode in motion, loads in time, time at each load, and its numbers. */
import type { RideQuestion } from "../../../motion/index.ts";
import { lowestWorkingLoad } from "../../../rode/index.ts";
import { Reading } from "../../controls/reading.tsx";
import { FigureFrame } from "../../figure/figure-frame.tsx";
import { useUnits } from "../../state/preferences.ts";
import placeStyles from "../place.module.css";
import styles from "./gale.module.css";
import type { GaleAnswer, GaleRecord } from "./gale-record.ts";
import { GaleShares, GaleTrace } from "./gale-trace.tsx";
import { GaleView } from "./gale-view.tsx";

const files = () => import("./gale-files.ts");

export function GaleRide({
  question,
  record,
  answer,
  clock,
  named,
}: {
  readonly question: RideQuestion;
  readonly record: GaleRecord;
  readonly answer: GaleAnswer | null;
  readonly clock: { readonly current: number };
  /** Named where two stand side by side. */
  readonly named: boolean;
}) {
  const { rig, boat } = question;
  const limit = lowestWorkingLoad(rig);
  const still = answer?.atRest?.bow.tension ?? 0;
  const { unitOf } = useUnits();
  const overTime = `Loads over the time ridden: ${rig.name}`;
  return (
    <section className={styles.ride} aria-label={`Ride to ${rig.name}`}>
      {named && <p className={styles.name}>{rig.name}</p>}
      <FigureFrame
        kind="moment"
        title={`In motion, to scale: ${rig.name}`}
        ownHand
        table={async () => (await files()).positionsTable(record, clock.current)}
      >
        <GaleView rig={rig} boat={boat} record={record} clock={clock} />
      </FigureFrame>
      <div className={styles.below}>
        <FigureFrame
          kind="ride"
          title={overTime}
          ownHand
          table={async () => (await files()).samplesTable(record)}
          redrawn={async () => (await files()).drawnSamples(record, overTime, still, unitOf("load", "force"))}
        >
          <GaleTrace record={record} clock={clock} still={still} limit={limit} />
        </FigureFrame>
        <GaleShares rig={rig.name} record={record} still={still} limit={limit} />
      </div>
      {answer !== null && <GaleNumbers answer={answer} />}
    </section>
  );
}

function GaleNumbers({ answer }: { readonly answer: GaleAnswer }) {
  return (
    <dl className={placeStyles.numbers}>
      <Reading name="mean load at the bow" field="load" dimension="force" value={answer.bow.mean} u={answer.bow.u} />
      <Reading
        name="largest load at the bow"
        field="load"
        dimension="force"
        value={answer.bow.largest}
        digits={2}
        big
      />
      <Reading
        name="largest of three hours"
        field="load"
        dimension="force"
        value={answer.bowExtremes?.mostProbable.value ?? null}
        u={answer.bowExtremes?.mostProbable.u}
        note={answer.bowExtremes === null ? "too few peaks yet" : "most likely"}
      />
      <Reading
        name="angle at the anchor then"
        field="angle"
        dimension="angle"
        value={answer.angleAtLargest}
        digits={2}
      />
      <Reading
        name="over the load at rest"
        dimension="ratio"
        value={answer.overStill?.bow ?? null}
        digits={2}
        note="same mean load"
      />
      <Reading
        name="anchor's end lifted"
        dimension="ratio"
        value={answer.liftedShare}
        digits={2}
        note="share of the time"
      />
      {answer.ropes.map(({ part, name, heat }) => (
        <Reading
          key={part}
          name="turned to heat"
          field="energy"
          dimension="energy"
          value={heat.value}
          u={heat.u}
          note={name}
        />
      ))}
    </dl>
  );
}
