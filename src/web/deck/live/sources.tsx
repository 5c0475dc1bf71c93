import { useEffect, useRef, useState } from "react";
import { InputError } from "../../../quantity/index.ts";
import { countText } from "../../../words/index.ts";
import { Button } from "../../controls/button.tsx";
import { FoldingPanel } from "../../controls/panel.tsx";
import { useStore } from "../../state/use-store.ts";
import styles from "../place.module.css";
import type { DeckPull } from "../pull.ts";
import { warnBySound } from "../sound.ts";
import { addPort, addPosition, addServer } from "./follow.ts";
import { type LiveStand, liveStore } from "./live-store.ts";
import { OWN_POSITION, tellsPosition } from "./own-position.ts";
import { askBluetooth, askSerial, type Port, reachable } from "./port.ts";
import { serverInstruments } from "./server-link.ts";

/** Speeds of serial lines, the usual first. */
const SPEEDS = [9600, 4800, 19200, 38400, 57600, 115200] as const;

/** Where loads come from: instruments of the bench, of this device, and the keys all the while. */
export function Sources({ pull }: { readonly pull: DeckPull }) {
  const [named, setNamed] = useState<readonly string[]>([]);
  const [speed, setSpeed] = useState<number>(SPEEDS[0]);
  const [wrong, setWrong] = useState<string | null>(null);
  useEffect(() => void serverInstruments().then(setNamed), []);
  const followed = new Set((pull.live ?? []).map(({ name }) => name));
  const { serial, bluetooth } = reachable();
  const ask = (asking: () => Promise<Port>) => async () => {
    try {
      setWrong(null);
      await addPort(await asking());
    } catch (error) {
      // Nothing chosen in the browser's own list is no trouble.
      if (error instanceof DOMException && error.name === "NotFoundError") return;
      setWrong(error instanceof InputError || error instanceof Error ? error.message : String(error));
    }
  };
  const free = named.filter((name) => !followed.has(name));
  return (
    <FoldingPanel name="deck instruments" title="Instruments" open={false}>
      {free.map((name) => (
        <Button key={name} className={styles.wide} onClick={() => void addServer(name)}>
          Follow {name}
        </Button>
      ))}
      {serial && (
        <div className={styles.lastLine}>
          <label className={styles.text}>
            Speed of the serial line, baud
            <select value={speed} onChange={(event) => setSpeed(Number(event.target.value))}>
              {SPEEDS.map((one) => (
                <option key={one}>{one}</option>
              ))}
            </select>
          </label>
          <Button onClick={() => void ask(() => askSerial(speed))()}>Serial cable here</Button>
        </div>
      )}
      {bluetooth && (
        <Button className={styles.wide} onClick={() => void ask(askBluetooth)()}>
          Bluetooth here
        </Button>
      )}
      {free.length === 0 && followed.size === 0 && !serial && !bluetooth && (
        <p>
          None: the bench was opened without <code>--live</code>, and this browser reaches none itself. Loads are typed.
        </p>
      )}
      {tellsPosition() && !followed.has(OWN_POSITION) && (
        <Button className={styles.wide} onClick={() => void addPosition()}>
          Follow this device's position
        </Button>
      )}
      {wrong !== null && (
        <p className={styles.trouble} role="alert">
          {wrong}
        </p>
      )}
    </FoldingPanel>
  );
}

/** How each instrument stands, above everything while one is lost. */
export function Stands({ pull }: { readonly pull: DeckPull }) {
  const shown = useStore(liveStore);
  if (shown.pull !== pull.ids.pull) return null;
  return (
    <>
      {(pull.live ?? []).map(({ name }) => (
        <Stand key={name} name={name} stand={shown.of[name]} />
      ))}
    </>
  );
}

const GONE = ["lost", "silent", "closed"];

function Stand({ name, stand }: { readonly name: string; readonly stand: LiveStand | undefined }) {
  const state = stand?.state ?? "waiting";
  const gone = GONE.includes(state);
  const before = useRef(gone);
  useEffect(() => {
    if (gone && !before.current) warnBySound(false);
    before.current = gone;
  }, [gone]);
  if (!gone)
    return (
      <p className={styles.quiet} data-instrument={state}>
        {name}: {state === "waiting" ? "listening" : countText(stand!.rows.length, "reading", "readings")}
      </p>
    );
  return (
    <p className={styles.trouble} role="alert" data-instrument={state}>
      <span aria-hidden="true">⚠</span> <strong>{state === "silent" ? "SILENT" : "LOST"}</strong>: {name}
      {stand?.why ? ` (${stand.why})` : ""}. {state === "closed" ? "" : "It is looked for again; "}
      loads can be typed.
    </p>
  );
}
