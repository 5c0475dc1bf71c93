import { useCallback, useEffect, useState } from "react";
import { ApiTrouble, api, OutOfReach } from "../api/client.ts";
import { Button } from "../show/button.tsx";
import { Panel } from "../show/panel.tsx";
import { Heading } from "./heading.tsx";
import styles from "./place.module.css";

interface Device {
  readonly id: string;
  readonly name: string;
  readonly addedAt: number;
  readonly seenAt: number;
}

interface Network {
  readonly open: boolean;
  readonly addresses: readonly string[];
  readonly codeUntil: number | null;
  readonly exposes: readonly string[];
  readonly devices: readonly Device[];
}

/** Who may reach the book over the boat's network, and what that exposes; asked and answered at the computer only. */
export function Devices() {
  const [network, setNetwork] = useState<Network | null>(null);
  const [wrong, setWrong] = useState<string | null>(null);
  const [code, setCode] = useState<{ code: string; until: number } | null>(null);

  const tried = useCallback(async (act: () => Promise<unknown>): Promise<void> => {
    try {
      await act();
      setNetwork(await api.get<Network>("/boat-network"));
      setWrong(null);
    } catch (error) {
      if (error instanceof OutOfReach)
        setWrong("this asks the computer that holds the book, which is out of reach now");
      else if (error instanceof ApiTrouble) setWrong(error.message);
      else throw error;
    }
  }, []);
  useEffect(() => {
    void tried(async () => undefined);
  }, [tried]);

  return (
    <>
      <Heading
        back={{ at: { page: "book" }, label: "Book" }}
        title="Devices"
        line="Who may reach this book over the boat's own network"
      />
      {wrong !== null && (
        <p className={styles.wrong} role="alert">
          {wrong}
        </p>
      )}
      {network !== null && (
        <div className={styles.columns}>
          <div className={styles.column}>
            {network.devices.length > 0 && (
              <Panel
                title={network.devices.length === 1 ? "One device let in" : `${network.devices.length} devices let in`}
              >
                <ul className={styles.rows}>
                  {network.devices.map((device) => (
                    <li key={device.id} className={styles.row}>
                      <span className={styles.rowName}>{device.name}</span>
                      <Button
                        aria-label={`Withdraw ${device.name}`}
                        onClick={() => void tried(() => api.delete(`/boat-network/devices/${device.id}`))}
                      >
                        Withdraw
                      </Button>
                      <span className={styles.rowLine}>{deviceLine(device)}</span>
                    </li>
                  ))}
                </ul>
              </Panel>
            )}
            {network.open ? (
              <Panel title="Open to the boat's network">
                <ul>
                  {network.addresses.map((address) => (
                    <li key={address}>
                      <a href={address}>{address}</a>
                    </li>
                  ))}
                </ul>
                {code !== null && (
                  <p>
                    Code for one device: <strong>{code.code}</strong>, until {clock(code.until)}
                  </p>
                )}
                <div className={styles.actions}>
                  <Button
                    look="strong"
                    onClick={() => void tried(async () => setCode(await api.post("/boat-network/code", {})))}
                  >
                    {code === null ? "Let a device in" : "Another code"}
                  </Button>
                  <Button onClick={() => void tried(() => api.delete("/boat-network"))}>Close it</Button>
                </div>
              </Panel>
            ) : (
              <Panel title="Closed">
                <p>
                  Only this computer reaches the book. To let a phone or tablet in, open the bench with{" "}
                  <code>rodebench open --boat-network</code>; it shows a code for each device.
                </p>
              </Panel>
            )}
          </div>
          {network.exposes.length > 0 && (
            <Panel title={network.open ? "What this exposes" : "What opening would expose"}>
              <ul className={styles.acts}>
                {network.exposes.map((sentence) => (
                  <li key={sentence}>{sentence}</li>
                ))}
              </ul>
            </Panel>
          )}
        </div>
      )}
    </>
  );
}

const clock = (moment: number): string =>
  new Date(moment).toLocaleTimeString("en-GB", { hour: "2-digit", minute: "2-digit" });

const when = (moment: number): string =>
  new Date(moment).toLocaleString("en-GB", { dateStyle: "medium", timeStyle: "short" });

const deviceLine = ({ addedAt, seenAt }: Device): string => `let in ${when(addedAt)} · last here ${when(seenAt)}`;
