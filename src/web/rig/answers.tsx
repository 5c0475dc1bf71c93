import { useEffect } from "react";
import {
  type Certainty,
  isUneven,
  type NoEquilibrium,
  type Rig,
  remarksOn,
  type SettledUncertainty,
} from "../../rode/index.ts";
import { boundsText, remarkLine, spreadWords } from "../../words/index.ts";
import { announce } from "../controls/announce.ts";
import { formatQuantity } from "../controls/numbers.ts";
import { Reading } from "../controls/reading.tsx";
import { useUnits } from "../state/preferences.ts";
import styles from "./answers.module.css";
import type { Drawn } from "./scene.ts";

/** The numbers of the moment, big, each with its ±; and what the same rode in the other medium would give. */
export function Answers({
  drawn,
  none,
  over,
  uncertainty,
  waiting,
}: {
  readonly drawn: Drawn | null;
  readonly none: NoEquilibrium | null;
  readonly over: Drawn | null;
  readonly uncertainty: SettledUncertainty | null;
  /** The ± is being worked out and is not there yet. */
  readonly waiting: boolean;
}) {
  const { system, unitOf } = useUnits();
  const sure = uncertainty?.firstOrder ?? null;
  const settled = none === null && drawn !== null ? drawn.settled : null;
  const other = over?.settled ?? null;
  const say = (value: number, dimension: "angle" | "force" | "length", field: string, u?: number) =>
    formatQuantity(value, dimension, {
      system,
      unit: unitOf(field, dimension),
      ...(u !== undefined && u > 0 ? { u } : { digits: 3 }),
    });
  const lain = over === null ? "" : over.rig.setting.medium === "air" ? "in air" : "afloat";
  const beside = (value: number | undefined, dimension: "angle" | "force" | "length", field: string) =>
    value === undefined ? undefined : `${say(value, dimension, field)} ${lain}`;
  /** Where 95 of 100 draws lie, where ± would mislead. */
  const range = (
    name: keyof Certainty,
    value: number | undefined,
    dimension: "angle" | "force" | "length",
    field: string,
  ) => {
    const bounds = uncertainty?.spread?.bounds[name];
    return value === undefined || bounds === undefined || !isUneven(value, sure?.[name] ?? 0, bounds)
      ? undefined
      : `95 of 100: ${boundsText(bounds, dimension, { system, unit: unitOf(field, dimension) })}`;
  };
  const notes = (...each: (string | undefined)[]) => each.filter((note) => note !== undefined).join("; ") || undefined;

  const sentence =
    settled === null
      ? "No equilibrium."
      : `Angle at the anchor ${say(settled.anchor.angle, "angle", "angle", sure?.anchorAngle)}, load there ${say(settled.anchor.tension, "force", "load", sure?.anchorTension)}, at the bow ${say(settled.bow.tension, "force", "load", sure?.bowTension)}, span ${say(settled.span, "length", "span", sure?.span)}.`;
  useEffect(() => announce(sentence), [sentence]);

  return (
    <div className={styles.frame}>
      <dl className={styles.answers}>
        <Reading
          name="angle at the anchor"
          field="angle"
          dimension="angle"
          value={settled?.anchor.angle ?? null}
          u={sure?.anchorAngle}
          note={notes(
            range("anchorAngle", settled?.anchor.angle, "angle", "angle"),
            beside(other?.anchor.angle, "angle", "angle"),
          )}
          big
        />
        <Reading
          name="load at the anchor"
          field="load"
          dimension="force"
          value={settled?.anchor.tension ?? null}
          u={sure?.anchorTension}
          note={notes(
            range("anchorTension", settled?.anchor.tension, "force", "load"),
            beside(other?.anchor.tension, "force", "load"),
          )}
          big
        />
        <Reading
          name="load at the bow"
          field="load"
          dimension="force"
          value={settled?.bow.tension ?? null}
          u={sure?.bowTension}
          note={notes(
            range("bowTension", settled?.bow.tension, "force", "load"),
            beside(other?.bow.tension, "force", "load"),
          )}
          big
        />
        <Reading
          name="span"
          dimension="length"
          value={settled?.span ?? null}
          u={sure?.span}
          note={notes(range("span", settled?.span, "length", "span"), beside(other?.span, "length", "span"))}
        />
        <Reading
          name="on the ground"
          field="grounded"
          dimension="length"
          value={settled?.grounded ?? null}
          u={sure?.grounded}
          note={notes(
            range("grounded", settled?.grounded, "length", "grounded"),
            beside(other?.grounded, "length", "grounded"),
          )}
        />
        <Reading name="sag" dimension="length" value={settled?.sag ?? null} u={sure?.sag} />
        <Reading name="stretch" dimension="length" value={settled?.stretch ?? null} />
        <Reading name="scope" dimension="ratio" value={settled?.scope ?? null} note="rode over height" />
      </dl>
      {waiting && <p className={styles.waiting}>working out the ±…</p>}
      <Draws uncertainty={settled === null ? null : uncertainty} />
      <Taken rig={settled === null ? null : (drawn?.rig ?? null)} />
    </div>
  );
}

/** What draws of what is not known say beside the numbers. */
function Draws({ uncertainty }: { readonly uncertainty: SettledUncertainty | null }) {
  const { lifted, without } = spreadWords(uncertainty);
  if (lifted === null && without === null) return null;
  return (
    <p className={styles.waiting}>
      {[lifted, without === null ? null : `no equilibrium ${without}`].filter((line) => line !== null).join("; ")}
    </p>
  );
}

/** What the rig leaves open and the numbers take for granted. */
function Taken({ rig }: { readonly rig: Rig | null }) {
  const { system } = useUnits();
  const remarks = rig === null ? [] : remarksOn(rig);
  if (remarks.length === 0) return null;
  return <p className={styles.waiting}>{remarks.map((remark) => remarkLine(remark, system)).join("; ")}</p>;
}
