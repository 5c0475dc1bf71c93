/**
 * What a person chose on this device: units, theme, hints already used. Kept in localStorage, which can be read before
 * the first drawing; not part of an address, since whoever is sent one has chosen for himself.
 */
import { type Dimension, type UnitSystem, unitFor } from "../../quantity/index.ts";
import { createStore } from "./store.ts";
import { useStore } from "./use-store.ts";

export type Theme = "auto" | "light" | "dark" | "sun";

export interface Preferences {
  readonly system: UnitSystem;
  /** A unit chosen for one field, by the field's name: `{ load: "kN" }`. */
  readonly units: Readonly<Record<string, string>>;
  readonly theme: Theme;
  /** Names of first-use hints that have done their work. */
  readonly hintsUsed: readonly string[];
  /** Panels folded or unfolded by hand, by their names: true is open. */
  readonly open: Readonly<Record<string, boolean>>;
}

const KEY = "rodebench preferences";
const usual: Preferences = { system: "metric", units: {}, theme: "auto", hintsUsed: [], open: {} };
const themes: readonly Theme[] = ["auto", "light", "dark", "sun"];

export const preferences = createStore<Preferences>(kept());

function kept(): Preferences {
  try {
    const read = JSON.parse(localStorage.getItem(KEY) ?? "{}") as Partial<Preferences>;
    return {
      system: read.system === "us" ? "us" : "metric",
      units: typeof read.units === "object" && read.units !== null ? read.units : {},
      theme: themes.find((theme) => theme === read.theme) ?? "auto",
      open: typeof read.open === "object" && read.open !== null ? read.open : {},
      hintsUsed: Array.isArray(read.hintsUsed) ? read.hintsUsed.filter((name) => typeof name === "string") : [],
    };
  } catch {
    return usual;
  }
}

export function prefer(change: Partial<Preferences>): void {
  preferences.put({ ...preferences.get(), ...change });
  try {
    localStorage.setItem(KEY, JSON.stringify(preferences.get()));
  } catch {
    // A browser that keeps nothing: chosen for this visit.
  }
}

/** Puts the chosen theme on the page; "auto" follows the device. */
export function followTheme(): void {
  const show = () => {
    const { theme } = preferences.get();
    if (theme === "auto") delete document.documentElement.dataset.theme;
    else document.documentElement.dataset.theme = theme;
  };
  show();
  preferences.subscribe(show);
}

/** Fields whose values are small beside their dimension's own unit. */
const usualUnits: Readonly<Record<string, Readonly<Record<UnitSystem, string>>>> = {
  "readings movement": { metric: "mm", us: "in" },
  "± movement": { metric: "mm", us: "in" },
  "rig give": { metric: "mm", us: "in" },
  "± mass per length": { metric: "%", us: "%" },
  share: { metric: "%", us: "%" },
  thickness: { metric: "mm", us: "in" },
  wind: { metric: "kn", us: "kn" },
  gusts: { metric: "kn", us: "kn" },
  current: { metric: "kn", us: "kn" },
};

/** The unit of a field when none was chosen for it. */
export const unitByCustom = (field: string, dimension: Dimension, system: UnitSystem, usual?: string): string =>
  unitFor(dimension, system, usual ?? usualUnits[field]?.[system]);

export interface Units {
  readonly system: UnitSystem;
  /** The unit of a field: the one chosen for it, or the field's usual one, or the system's. */
  unitOf(field: string, dimension: Dimension, usual?: string): string;
}

export function useUnits(): Units {
  const { system, units } = useStore(preferences);
  return {
    system,
    unitOf(field, dimension, usual) {
      try {
        return unitByCustom(field, dimension, system, units[field] ?? usual);
      } catch {
        // Kept by an older bench, which knew another unit.
        return unitByCustom(field, dimension, system, usual);
      }
    },
  };
}

/** A hint shown in place until what it tells of was done once. */
export function useHint(name: string): { readonly shown: boolean; used(): void } {
  const { hintsUsed } = useStore(preferences);
  return {
    shown: !hintsUsed.includes(name),
    used: () => {
      const { hintsUsed: now } = preferences.get();
      if (!now.includes(name)) prefer({ hintsUsed: [...now, name] });
    },
  };
}

/** Whether a panel is open: as it was left by hand, else as it is at first. */
export function useOpen(name: string, atFirst: boolean): readonly [boolean, (open: boolean) => void] {
  const { open } = useStore(preferences);
  return [open[name] ?? atFirst, (next) => setOpen(name, next)];
}

const setOpen = (name: string, open: boolean): void => prefer({ open: { ...preferences.get().open, [name]: open } });

/** Opens a panel from elsewhere. */
export const unfold = (name: string): void => setOpen(name, true);
