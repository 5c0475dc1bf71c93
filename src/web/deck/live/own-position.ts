/** This device's own position as an instrument: degrees, and the radius that holds it with 95 % chance, as the browser states it. */
import type { Came, OwnSource } from "./port-link.ts";
import type { LiveChannel } from "./reading.ts";

const channels: readonly LiveChannel[] = [
  { name: "latitude", quantity: "latitude", unit: "deg", precision: "double" },
  { name: "longitude", quantity: "longitude", unit: "deg", precision: "double" },
];

/** What it is called among the instruments. */
export const OWN_POSITION = "this device's position";

/** Whether this browser tells it here. */
export const tellsPosition = (): boolean => window.isSecureContext && "geolocation" in navigator;

/** Places as the device tells them. */
export const ownPosition: OwnSource = {
  name: OWN_POSITION,
  // A phone lying still may tell its place seldom.
  silent: 30_000,
  async *came(signal) {
    const waiting: Came[] = [];
    let failed: Error | null = null;
    let wake = () => {};
    const watch = navigator.geolocation.watchPosition(
      ({ coords: { latitude, longitude, accuracy } }) => {
        waiting.push({ readings: [{ at: Date.now(), values: { latitude, longitude, accuracy } }], channels });
        wake();
      },
      ({ message }) => {
        failed = new Error(message === "" ? "this device did not tell its position" : message);
        wake();
      },
      { enableHighAccuracy: true },
    );
    signal.addEventListener("abort", () => wake(), { once: true });
    try {
      while (!signal.aborted) {
        yield* waiting.splice(0);
        if (failed !== null) throw failed;
        await new Promise<void>((done) => {
          wake = done;
          if (waiting.length > 0 || failed !== null || signal.aborted) done();
        });
      }
    } finally {
      navigator.geolocation.clearWatch(watch);
    }
  },
};
