import { Link, Outlet } from "@tanstack/react-router";
import type { UnitSystem } from "../../quantity/index.ts";
import { places } from "../places.ts";
import { announced } from "../show/announce.ts";
import { prefer, preferences, type Theme } from "../state/preferences.ts";
import { useStore } from "../state/use-store.ts";
import { NewVersion } from "./new-version.tsx";
import styles from "./shell.module.css";
import { UndoButtons } from "./undo-buttons.tsx";
import { Waiting } from "./waiting.tsx";

/** What stands around every place: the bar of places, undo, units, theme, notes, the live region. */
export function Shell() {
  return (
    <div className={styles.shell}>
      <a className={styles.skip} href="#place">
        Skip to the place
      </a>
      <header className={styles.head}>
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
      <main id="place" className={styles.main} tabIndex={-1}>
        <Outlet />
      </main>
      <div className={styles.notes}>
        <Waiting />
        <NewVersion />
      </div>
      <LiveRegion />
    </div>
  );
}

function PlacesBar() {
  return (
    <nav className={styles.places} aria-label="Places">
      <ul>
        {places.map((place) => (
          <li key={place.path}>
            <Link className={styles.place} to={place.path} title={place.about} activeOptions={{ includeSearch: false }}>
              <svg viewBox="0 0 24 24" aria-hidden="true">
                <path d={place.sign} />
              </svg>
              {place.name}
            </Link>
          </li>
        ))}
      </ul>
    </nav>
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
  { value: "auto", label: "as device" },
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
