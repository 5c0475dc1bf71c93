import { reasonsOf } from "../../../sizing/index.ts";
import { cannotBeRigged } from "../../../words/index.ts";
import { formatQuantity } from "../../controls/numbers.ts";
import { Reading } from "../../controls/reading.tsx";
import { useUnits } from "../../state/preferences.ts";
import styles from "../place.module.css";
import type { SnubberAsked } from "../state.ts";
import { BridlePlan } from "./bridle-plan.tsx";
import { reasonShown } from "./reasons.ts";
import type { OneSnubber, Refused } from "./snubber-work.ts";

/** The chosen snubber against its limits, in words. */
export function verdictOf(one: OneSnubber | Refused | null): string {
  if (one === null) return "";
  if ("kind" in one) return one.line;
  const { tried } = one;
  if (tried.kind === "tried") {
    const passed = reasonsOf(tried.verdict.mask);
    return passed.length === 0 ? "within all limits" : passed.map((reason) => reasonShown(reason).long).join("; ");
  }
  if (tried.kind === "notTaken") return reasonShown("notTaken").long;
  if (tried.kind === "notSnubbed") return cannotBeRigged[tried.why];
  return "the rode has no equilibrium under the mean load";
}

/** What the chosen snubber comes to. */
export function ChosenSnubber({
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
              u={one.sure?.u ?? undefined}
              big
            />
            <Reading
              name="rope, of its strength in use"
              field="share"
              dimension="ratio"
              value={tried.loads.ropeShare}
              digits={2}
              note={`${formatQuantity(Math.max(...tried.atPeak.legs), "force", { system, unit: unitOf("load", "force"), digits: 2 })} in it`}
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
            <BridlePlan
              rope={`${snubber.fibre} ${snubber.lay}`}
              bridle={tried.snubbed.bridle}
              pull={tried.snatch.loads[tried.snubbed.line]!}
            />
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
