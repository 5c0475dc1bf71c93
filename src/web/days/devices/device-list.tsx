import { useState } from "react";
import { Button } from "../../controls/button.tsx";
import { Panel } from "../../controls/panel.tsx";
import place from "../place.module.css";
import styles from "./devices.module.css";
import type { Device } from "./use-boat-network.ts";

/** The devices let in to the book. A key is taken back in two steps: no undo gives it again. */
export function DeviceList({
  devices,
  onWithdraw,
}: {
  readonly devices: readonly Device[];
  readonly onWithdraw: (device: Device) => void;
}) {
  const [asked, setAsked] = useState<string | null>(null);
  return (
    <Panel title={devices.length === 1 ? "One device let in" : `${devices.length} devices let in`}>
      <ul className={styles.devices}>
        {devices.map((device) => (
          <li key={device.id}>
            <div className={styles.device}>
              <span className={styles.name}>{device.name}</span>
              <span className={place.quiet}>
                let in {when(device.addedAt)} · last here {when(device.seenAt)}
              </span>
            </div>
            {asked === device.id ? (
              <div className={styles.sure}>
                <p>
                  {device.name} is refused from its next request on, and needs a new code to come back. What it wrote
                  stays in the book; what waits on it stays on it.
                </p>
                <div className={place.actions}>
                  <Button
                    look="strong"
                    onClick={() => {
                      setAsked(null);
                      onWithdraw(device);
                    }}
                  >
                    Withdraw its key
                  </Button>
                  <Button onClick={() => setAsked(null)}>Leave it in</Button>
                </div>
              </div>
            ) : (
              <Button aria-label={`Withdraw ${device.name}`} onClick={() => setAsked(device.id)}>
                Withdraw
              </Button>
            )}
          </li>
        ))}
      </ul>
    </Panel>
  );
}

const when = (moment: number): string =>
  new Date(moment).toLocaleString("en-GB", { dateStyle: "medium", timeStyle: "short" });
