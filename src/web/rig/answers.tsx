import { useEffect } from "react";
import { formatQuantity } from "../../quantity/index.ts";
import type { Certainty, NoEquilibrium } from "../../rode/index.ts";
import { announce } from "../show/announce.ts";
import { Reading } from "../show/reading.tsx";
import { useUnits } from "../state/preferences.ts";
import styles from "./answers.module.css";
import type { Drawn } from "./scene.ts";

/** The numbers of the moment, big, each with its ±; and what the same rode in the other medium would give. */
export function Answers({
  drawn,
  none,
  over,
  sure,
  waiting,
}: {
  readonly drawn: Drawn | null;
  readonly none: NoEquilibrium | null;
  readonly over: Drawn | null;
  readonly sure: Certainty | null;
  /** The ± is being worked out and is not there yet. */
  readonly waiting: boolean;
}) {
  const { system, unitOf } = useUnits();
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
          note={beside(other?.anchor.angle, "angle", "angle")}
          big
        />
        <Reading
          name="load at the anchor"
          field="load"
          dimension="force"
          value={settled?.anchor.tension ?? null}
          u={sure?.anchorTension}
          note={beside(other?.anchor.tension, "force", "load")}
          big
        />
        <Reading
          name="load at the bow"
          field="load"
          dimension="force"
          value={settled?.bow.tension ?? null}
          u={sure?.bowTension}
          note={beside(other?.bow.tension, "force", "load")}
          big
        />
        <Reading
          name="span"
          dimension="length"
          value={settled?.span ?? null}
          u={sure?.span}
          note={beside(other?.span, "length", "span")}
        />
        <Reading
          name="on the ground"
          field="grounded"
          dimension="length"
          value={settled?.grounded ?? null}
          u={sure?.grounded}
          note={beside(other?.grounded, "length", "grounded")}
        />
        <Reading name="sag" dimension="length" value={settled?.sag ?? null} u={sure?.sag} />
        <Reading name="stretch" dimension="length" value={settled?.stretch ?? null} />
        <Reading name="scope" dimension="ratio" value={settled?.scope ?? null} note="rode over height" />
      </dl>
      {waiting && <p className={styles.waiting}>working out the ±…</p>}
      <Overloaded drawn={settled === null ? null : drawn} />
    </div>
  );
}

/** Parts that carry more than they may: said where the numbers are, since it matters more than they do. */
function Overloaded({ drawn }: { readonly drawn: Drawn | null }) {
  const { system, unitOf } = useUnits();
  if (drawn === null) return null;
  const force = (value: number) => formatQuantity(value, "force", { system, unit: unitOf("load", "force"), digits: 3 });
  const lines = drawn.rig.rode.flatMap((part, i) => {
    const load = drawn.loads[i]!;
    const { workingLoad, breakingLoad, name } = part;
    if (breakingLoad !== undefined && load > breakingLoad)
      return [`${name} carries ${force(load)}, above its breaking load of ${force(breakingLoad)}.`];
    if (workingLoad !== undefined && load > workingLoad)
      return [`${name} carries ${force(load)}, over its working load limit of ${force(workingLoad)}.`];
    return [];
  });
  if (lines.length === 0) return null;
  return (
    <ul className={styles.overloaded}>
      {[...new Set(lines)].map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ul>
  );
}
