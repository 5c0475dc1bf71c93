import { useEffect, useRef, useState } from "react";
import { PlaceLink } from "../controls/place-link.tsx";
import { usePhone } from "../controls/use-media.ts";
import { type PlaceEntry, places } from "../places.ts";
import { location } from "../state/location.ts";
import { useStore } from "../state/use-store.ts";
import styles from "./shell.module.css";

/** The way between the places; on a phone four within reach of a thumb, and the others one touch behind. */
export function PlacesBar() {
  const phone = usePhone();
  const shown = phone ? places.filter(({ near }) => near) : places;
  return (
    <nav className={styles.places} aria-label="Places">
      <ul>
        {shown.map((place) => (
          <li key={place.path}>
            <LinkTo place={place} />
          </li>
        ))}
        {phone && <More of={places.filter(({ near }) => !near)} />}
      </ul>
    </nav>
  );
}

function LinkTo({ place }: { readonly place: PlaceEntry }) {
  return (
    <PlaceLink className={styles.place} to={place.path} title={place.about}>
      <Sign d={place.sign} />
      {place.name}
    </PlaceLink>
  );
}

const Sign = ({ d }: { readonly d: string }) => (
  <svg viewBox="0 0 24 24" aria-hidden="true">
    <path d={d} />
  </svg>
);

const DOTS = "M5 12h.1M12 12h.1M19 12h.1";

/** The places beyond the bar; called by the one that is open, where it is among them. */
function More({ of }: { readonly of: readonly PlaceEntry[] }) {
  const [open, setOpen] = useState(false);
  const { path } = useStore(location);
  const item = useRef<HTMLLIElement>(null);
  const opener = useRef<HTMLButtonElement>(null);
  const here = of.find((place) => place.path === path);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a place was chosen
  useEffect(() => setOpen(false), [path]);
  useEffect(() => {
    if (!open) return;
    const away = (event: Event): void => {
      if (item.current?.contains(event.target as Node) !== true) setOpen(false);
    };
    document.addEventListener("pointerdown", away);
    return () => document.removeEventListener("pointerdown", away);
  }, [open]);
  return (
    <li
      ref={item}
      onKeyDown={(event) => {
        if (event.key !== "Escape" || !open) return;
        setOpen(false);
        opener.current?.focus();
      }}
    >
      <button
        ref={opener}
        type="button"
        className={styles.place}
        aria-expanded={open}
        aria-label={here === undefined ? "More places" : `${here.name}; more places`}
        data-here={here !== undefined || undefined}
        onClick={() => setOpen(!open)}
      >
        <Sign d={here?.sign ?? DOTS} />
        {here?.name ?? "More"}
      </button>
      {open && (
        <ul className={styles.more}>
          {of.map((place) => (
            <li key={place.path}>
              <LinkTo place={place} />
            </li>
          ))}
        </ul>
      )}
    </li>
  );
}
