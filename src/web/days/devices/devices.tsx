import { boatNetwork } from "../../api/client.ts";
import { announce } from "../../controls/announce.ts";
import { Panel } from "../../controls/panel.tsx";
import { Heading } from "../heading.tsx";
import styles from "../place.module.css";
import { DeviceList } from "./device-list.tsx";
import own from "./devices.module.css";
import { PairingPanel } from "./pairing-panel.tsx";
import { useBoatNetwork } from "./use-boat-network.ts";

/** Who may reach the book over the boat's network, and what that exposes; asked and answered at the computer only. */
export function Devices() {
  const { network, wrong, tried } = useBoatNetwork();
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
            {network.open ? <PairingPanel network={network} tried={tried} /> : <Closed />}
            {network.devices.length > 0 && (
              <DeviceList
                devices={network.devices}
                onWithdraw={(device) =>
                  void tried(async () => {
                    await boatNetwork.devices[":id"].$delete({ param: { id: device.id } });
                    announce(`the key of ${device.name} is withdrawn`);
                  })
                }
              />
            )}
          </div>
          <Panel title={network.open ? "What this exposes" : "What opening would expose"}>
            <ul className={styles.entries}>
              {network.exposes.map((sentence) => (
                <li key={sentence}>{sentence}</li>
              ))}
            </ul>
          </Panel>
        </div>
      )}
    </>
  );
}

function Closed() {
  return (
    <Panel title="Closed">
      <p>Only this computer reaches the book. To let a phone or tablet in, stop the bench and open it with</p>
      <code className={own.command}>rodebench open BOOK --boat-network --https</code>
      <p className={styles.quiet}>
        With https a device also works without the network, and writes offline. Here and in the terminal stands then
        where a device goes, and a code for each.
      </p>
    </Panel>
  );
}
