import type { UnitSystem } from "../../quantity/index.ts";
import type { CarriedLoad, Deployment, Doubt, PullEvidence } from "../../study/index.ts";
import { doubtLine } from "../../words/index.ts";
import { formatQuantity } from "../controls/numbers.ts";
import { Reading } from "../controls/reading.tsx";
import { useUnits } from "../state/preferences.ts";
import styles from "./carried.module.css";

/** The loads of a pull at the other end of its rode, as it lay, and the angle at the anchor. */
export function Carried({ evidence }: { readonly evidence: PullEvidence }) {
  const { system } = useUnits();
  const { deployment, deploymentHeld, heldTo, gaveWayBy, readAt } = evidence;
  const one = heldTo === gaveWayBy || heldTo === null || gaveWayBy === null;
  const loads = [
    { what: one ? "that is" : "held", load: heldTo === gaveWayBy ? null : heldTo, by: deploymentHeld },
    { what: one ? "that is" : "gave way by", load: gaveWayBy, by: deployment },
  ].flatMap(({ what, load, by }) => (load?.kind === "carried" && by !== null ? [{ what, load, by }] : []));
  if (loads.length === 0) return null;
  const other = readAt === "bow" ? "anchor" : "bow";
  return (
    <dl className={styles.answers}>
      {loads.map(({ what, load, by }) => (
        <Reading
          key={what}
          big
          field="load"
          name={`${what}, at the ${other}`}
          dimension="force"
          value={load[other].value}
          u={load[other].u}
          note={lay(by, system)}
        />
      ))}
      <Angle load={loads.at(-1)!.load} />
    </dl>
  );
}

function Angle({ load }: { readonly load: CarriedLoad }) {
  return (
    <Reading
      name="angle at the anchor, above the bottom"
      field="angle at the anchor"
      dimension="angle"
      value={load.angleToBottom.value}
      u={load.angleToBottom.u}
    />
  );
}

/** The rig as it lay: "37 m of rode in 6 m of water". */
function lay({ rig, length }: Deployment, system: UnitSystem): string {
  const metres = (value: number) => formatQuantity(value, "length", { system, digits: 3 });
  const { setting } = rig;
  const where =
    setting.medium === "air" ? `over a rise of ${metres(setting.rise)}` : `in ${metres(setting.depth)} of water`;
  return `carried by ${metres(length.value)} of rode ${where}`;
}

export function Doubts({ doubts, units }: { readonly doubts: readonly Doubt[]; readonly units: UnitSystem }) {
  // Without a rig there is nothing to doubt: what it would tell is said in its own words.
  const told = doubts
    .filter(({ kind }) => kind !== "noRig" && kind !== "noResult")
    .map((doubt) => doubtLine(doubt, units));
  if (told.length === 0) return null;
  return (
    <ul className={styles.doubts} aria-label="What to doubt">
      {told.map((line) => (
        <li key={line}>
          {line.charAt(0).toUpperCase()}
          {line.slice(1)}.
        </li>
      ))}
    </ul>
  );
}
