import { lazy, Suspense, useState } from "react";
import { boatNetwork } from "../../api/client.ts";
import { Button } from "../../controls/button.tsx";
import { Panel } from "../../controls/panel.tsx";
import place from "../place.module.css";
import styles from "./devices.module.css";
import type { Network } from "./use-boat-network.ts";

// Only where a device may come: what draws it is no part of the place.
const AddressCode = lazy(async () => ({ default: (await import("./address-code.tsx")).AddressCode }));

/** A code shown here, and who was let in before it was. */
interface Code {
  readonly code: string;
  readonly until: number;
  readonly before: ReadonlySet<string>;
}

/** How a further device comes in: where it goes, and the code that lets one in. */
export function PairingPanel({
  network,
  tried,
}: {
  readonly network: Network;
  readonly tried: (work: () => Promise<unknown>) => Promise<void>;
}) {
  const [code, setCode] = useState<Code | null>(null);
  const issue = async (): Promise<void> => {
    const before = new Set(network.devices.map(({ id }) => id));
    const made = await (await boatNetwork.code.$post()).json();
    setCode({ ...made, before });
  };
  const lives = code !== null && network.codeUntil === code.until;
  const came = code === null ? undefined : network.devices.find(({ id }) => !code.before.has(id));
  return (
    <Panel title="Open to the boat's network">
      <ol className={styles.steps}>
        <li>
          On the phone or tablet, open this address, or point its camera at the square
          <div className={styles.addresses}>
            {network.addresses.map((address) => (
              <div key={address}>
                <code className={styles.address}>{address}</code>
                <Suspense fallback={<div className={styles.picture} />}>
                  <AddressCode address={address} />
                </Suspense>
              </div>
            ))}
          </div>
          {network.fingerprint !== null && (
            <p className={place.quiet}>
              Before it trusts this computer's authority, compare the fingerprint (SHA-256){" "}
              <code className={styles.fingerprint}>{network.fingerprint}</code>
            </p>
          )}
        </li>
        <li>
          Type a code there, and a name for the device.
          {lives ? (
            <p>
              <strong className={styles.code}>{`${code.code.slice(0, 4)} ${code.code.slice(4)}`}</strong> lets one
              device in, until {clock(code.until)}
            </p>
          ) : (
            <p className={place.quiet} role="status">
              {came !== undefined
                ? `${came.name} is let in; the code is used up.`
                : code !== null
                  ? "The code ran out, or was tried too often."
                  : network.codeUntil !== null
                    ? `The code shown in the terminal is good until ${clock(network.codeUntil)}; a new one ends it.`
                    : "No code is waiting."}
            </p>
          )}
        </li>
      </ol>
      <div className={place.actions}>
        <Button look={lives ? "plain" : "strong"} onClick={() => void tried(issue)}>
          {code === null ? "Let a device in" : lives ? "Another code" : "Let another device in"}
        </Button>
        <Button onClick={() => void tried(() => boatNetwork.$delete())}>Close it to the network</Button>
      </div>
    </Panel>
  );
}

const clock = (moment: number): string =>
  new Date(moment).toLocaleTimeString("en-GB", { hour: "2-digit", minute: "2-digit" });
