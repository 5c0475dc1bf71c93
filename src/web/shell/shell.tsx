import { lazy, Suspense, useDeferredValue } from "react";
import type { UnitSystem } from "../../quantity/index.ts";
import { announced } from "../controls/announce.ts";
import { prefer, preferences, type Theme } from "../state/preferences.ts";
import { useStore } from "../state/use-store.ts";
import { useHeadHeight } from "./head-height.ts";
import { PlaceShown } from "./place-shown.tsx";
import { PlacesBar } from "./places-bar.tsx";
import styles from "./shell.module.css";
import { UndoButtons } from "./undo-buttons.tsx";
import { UnreadAddress } from "./unread-address.tsx";

// After the first answer: neither has anything to say before it.
const Waiting = lazy(async () => ({ default: (await import("./waiting.tsx")).Waiting }));
const NewVersion = lazy(async () => ({ default: (await import("./new-version.tsx")).NewVersion }));

/** What stands around every place: the bar of places, undo, units, theme, notes, the live region. */
export function Shell() {
  const head = useHeadHeight();
  const answered = useDeferredValue(true, false);
  return (
    <div className={styles.shell}>
      <a className={styles.skip} href="#place">
        Skip to the place
      </a>
      <header className={styles.head} ref={head}>
        <span className={styles.mark}>
          <img src="/icon.svg" alt="" />
          <span className={styles.word}>rodebench</span>
        </span>
        <PlacesBar />
        <div className={styles.tools}>
          <UndoButtons />
          <UnitsSwitch />
          <ThemeSwitch />
        </div>
      </header>
      <div className={styles.notes}>
        {answered && (
          <Suspense>
            <Waiting />
            <NewVersion />
          </Suspense>
        )}
      </div>
      <main id="place" className={styles.main} tabIndex={-1}>
        <UnreadAddress />
        <PlaceShown />
      </main>
      <LiveRegion />
    </div>
  );
}

function UnitsSwitch() {
  const { system } = useStore(preferences);
  return (
    <select
      className={styles.select}
      aria-label="Units"
      value={system}
      onChange={(event) => prefer({ system: event.target.value as UnitSystem, units: {} })}
    >
      <option value="metric">metric</option>
      <option value="us">US</option>
    </select>
  );
}

const themes: readonly { readonly value: Theme; readonly label: string }[] = [
  { value: "auto", label: "system" },
  { value: "light", label: "light" },
  { value: "dark", label: "dark" },
  { value: "sun", label: "full sun" },
];

function ThemeSwitch() {
  const { theme } = useStore(preferences);
  return (
    <select
      className={styles.select}
      aria-label="Theme"
      value={theme}
      onChange={(event) => prefer({ theme: event.target.value as Theme })}
    >
      {themes.map(({ value, label }) => (
        <option key={value} value={value}>
          {label}
        </option>
      ))}
    </select>
  );
}

function LiveRegion() {
  const sentence = useStore(announced);
  return (
    <div className="unseen" role="status" aria-live="polite">
      {sentence}
    </div>
  );
}
