import { useState } from "react";
import { Button } from "../controls/button.tsx";
import { formatQuantity } from "../controls/numbers.ts";
import { FoldingPanel } from "../controls/panel.tsx";
import { note } from "./keep.ts";
import styles from "./place.module.css";
import { meanTilt, type Tilt, turned } from "./tilt.ts";
import { useTilt } from "./use-tilt.ts";

const show = ({ angle, u }: Tilt) => formatQuantity(angle, "angle", { u });

/** The device laid on the rode as an angle gauge: once each way round, and its own zero falls out. */
export function Gauge({ bowAngle }: { readonly bowAngle: number | null }) {
  const tilt = useTilt();
  const [first, setFirst] = useState<Tilt | null>(null);
  const [second, setSecond] = useState<Tilt | null>(null);
  const now = meanTilt(tilt.readings);
  const both = first !== null && second !== null ? turned(first, second) : null;
  return (
    <FoldingPanel name="deck gauge" title="Angle by this device" open={false}>
      <p>
        Ease the load off first, or read from clear of the line. Lay the device's long side along the rode, top toward
        the boat; then turn it end for end.
        {bowAngle === null
          ? ""
          : ` By the load the rode leaves the bow at ${formatQuantity(bowAngle, "angle", { digits: 3 })}.`}
      </p>
      {tilt.why !== null && (
        <p className={styles.trouble} role="alert">
          {tilt.why}
        </p>
      )}
      <p role="status">
        {first === null ? "" : `One way: ${show(first)}. `}
        {tilt.running ? `${tilt.readings.length} readings${now === null ? "" : `, ${show(now)}`}` : ""}
        {both === null ? "" : `Angle ${show(both.angle)}, the device's own zero ${show(both.zero)}.`}
      </p>
      {tilt.running ? (
        <Button
          look="strong"
          className={styles.wide}
          disabled={now === null}
          onClick={() => {
            tilt.stop();
            if (first === null) setFirst(now);
            else setSecond(now);
          }}
        >
          Take this
        </Button>
      ) : both === null ? (
        <Button className={styles.wide} onClick={() => void tilt.start()}>
          {first === null ? "Measure one way" : "Measure turned end for end"}
        </Button>
      ) : (
        <Button
          look="strong"
          className={styles.wide}
          onClick={() => {
            void note({ kind: "angle", angle: both.angle.angle, u: both.angle.u });
            setFirst(null);
            setSecond(null);
          }}
        >
          Keep this angle
        </Button>
      )}
    </FoldingPanel>
  );
}
