import { places } from "../places.ts";
import { cameByHistory } from "../state/location.ts";

let before: string | null = null;

/** A place is drawn: the window is named for it, and it is shown from its top unless it is come back to. */
export function arrived(path: string): void {
  const place = places.find((one) => one.path === path);
  document.title = place === undefined ? "rodebench" : `${place.name} · rodebench`;
  if (before !== null && before !== path) {
    if (!cameByHistory()) window.scrollTo({ top: 0 });
    // Whoever cannot see the page hears of the change of place: the focus goes there.
    if (document.activeElement?.closest("nav")) document.getElementById("place")?.focus();
  }
  before = path;
  intoTheBar();
}

/** On a phone the bar of places is drawn sideways: the place one is at stands in its middle. */
function intoTheBar(): void {
  const link = document.querySelector<HTMLElement>('nav a[aria-current="page"]');
  const bar = link?.closest("ul");
  if (link && bar) bar.scrollLeft = link.offsetLeft - bar.offsetLeft - (bar.clientWidth - link.offsetWidth) / 2;
}
