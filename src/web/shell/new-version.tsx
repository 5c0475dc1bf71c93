import { registerSW } from "virtual:pwa-register";
import { useEffect, useRef, useState } from "react";
import { Button } from "../controls/button.tsx";
import styles from "./shell.module.css";

const HOUR = 3_600_000;

/** Keeps the bench on the device, and tells when a new version waits: it comes when asked for, never by itself. */
export function NewVersion() {
  const [waits, setWaits] = useState(false);
  const take = useRef<() => Promise<void>>(async () => undefined);
  useEffect(() => {
    let timer: ReturnType<typeof setInterval> | undefined;
    take.current = registerSW({
      immediate: true,
      onNeedRefresh: () => setWaits(true),
      onRegisteredSW(_, registration) {
        if (registration) timer = setInterval(() => void registration.update().catch(() => undefined), HOUR);
      },
    });
    return () => clearInterval(timer);
  }, []);
  if (!waits) return null;
  return (
    <div className={styles.note} role="status">
      <p>A new version of the bench is ready.</p>
      <Button look="strong" onClick={() => void take.current()}>
        Use it now
      </Button>
      <Button onClick={() => setWaits(false)}>Later</Button>
    </div>
  );
}
