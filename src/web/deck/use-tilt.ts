/** Readings of the device's tilt along its long side, degrees above the level, while they are asked for. */
import { useCallback, useEffect, useRef, useState } from "react";

interface Asking {
  requestPermission?: () => Promise<"granted" | "denied">;
}

export interface TiltReadings {
  readonly readings: readonly number[];
  readonly running: boolean;
  /** Why there are none, in one line. */
  readonly why: string | null;
  start(): Promise<void>;
  stop(): void;
}

/** More than a quarter of an hour at 60 Hz is no reading of one angle. */
const MOST = 54_000;

export function useTilt(): TiltReadings {
  const [readings, setReadings] = useState<readonly number[]>([]);
  const [running, setRunning] = useState(false);
  const [why, setWhy] = useState<string | null>(null);
  const heard = useRef<number[]>([]);
  useEffect(() => {
    if (!running) return;
    const hear = ({ beta }: DeviceOrientationEvent) => {
      if (beta === null || heard.current.length >= MOST) return;
      heard.current.push(beta);
      setReadings([...heard.current]);
    };
    window.addEventListener("deviceorientation", hear);
    return () => window.removeEventListener("deviceorientation", hear);
  }, [running]);
  const start = useCallback(async () => {
    setWhy(null);
    if (!window.isSecureContext || typeof DeviceOrientationEvent === "undefined") {
      setWhy("this device does not tell its tilt here: a page over https is needed");
      return;
    }
    const asked = DeviceOrientationEvent as unknown as Asking;
    if (asked.requestPermission !== undefined && (await asked.requestPermission()) !== "granted") {
      setWhy("this device was not let tell its tilt");
      return;
    }
    heard.current = [];
    setReadings([]);
    setRunning(true);
  }, []);
  return { readings, running, why, start, stop: useCallback(() => setRunning(false), []) };
}
