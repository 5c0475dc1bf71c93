/**
 * The places of the bench. This list is all that joins them: the bar, the routes and the journeys follow it.
 *
 * HOW TO ADD A PLACE
 *
 * 1. A folder `src/web/<place>/` with `place.tsx`, which exports `function Place()`; one idea a file, CSS in
 *    `<idea>.module.css` beside it, colours and sizes only from theme/tokens.css (`var(--computed)` …). Then one entry
 *    below. Places load when first opened: whatever is heavy (zod, yaml, uPlot, Plot) stays in the place or behind an
 *    `import()` of its own, never in `main.tsx`, `shell/`, `state/` or `controls/`.
 *
 * 2. State: one plain value in a store, `const store = createStore<MyState>(usual)` (state/store.ts), read by
 *    `useStore(store)`, changed by `store.set(next, { label, stroke })`; a drag gives each of its changes one
 *    `newStroke()`, so that it is one step of undo. Call `useUndoable(store)` (state/undoable.ts) in Place: ctrl-z and
 *    the header's buttons then work it. A place whose changes go to the book hands in its own `Undoable`.
 *
 * 3. Address: a `Codec` (state/address.ts) turns the state into text fields and back; `useAddress(store, codec)` in
 *    Place ties the two, and keeps the state on this device. A rig goes into fields by `rigFields` and `readRigFields`
 *    (rig/address.ts); the rig on the bench is `rigStore` (rig/state.ts). Units and theme are the device's, never part
 *    of an address.
 *
 * 4. Shown: `QuantityField` (typed as people write, error in place, unit chosen in the field), `Reading` (a value with
 *    its ±; kind "measured" or "computed"), `Panel`, `Button`, `Choice`, `Curve` (controls/), every figure in a
 *    `FigureFrame`, one of the figure room in a `DrawnFigure` (figure/), `announce(sentence)` for
 *    screen readers when an answer changed. Every number goes through formatQuantity with `useUnits().unitOf(field,
 *    dimension)`. Targets are at least var(--touch) high. First-use hints: `useHint("name")`, one line in place.
 *    Layouts: phone up to 43.75rem (700px), tablet up to 68.75rem (1100px), desk above.
 *
 * 5. Heavy work goes to the worker: add a `later(…)` to work/bench-worker.ts, ask it by `useNewest(question)`
 *    (work/worker.ts), which keeps the newest answer, or by `useInterruptible` what takes seconds; show what came instead
 *    of an answer by `FaultNote`.
 *
 * 6. The book: `book` (api/client.ts) asks the server; `ApiTrouble` has one line. What is written goes through
 *    `writeRecords` (api/outbox.ts): it reaches the book at once when it can, else it waits on this device and is
 *    joined later, each transaction once. `useOutbox()` tells how many wait.
 *
 * 7. Page policy: no inline script or style text; React's `style={{}}` is fine, `dangerouslySetInnerHTML` with <style>
 *    is not. Nothing is fetched from elsewhere.
 *
 * 8. Tests: logic in test/web/<place>.test.ts (no DOM); the real thing in test/journeys/<place>.test.ts with
 *    `openedBench` and `sizes` of test/journeys/harness.ts: it serves the built app on a new book and checks with axe.
 */
import type { ComponentType } from "react";

export interface PlaceEntry {
  /** Its address: "/rig". */
  readonly path: `/${string}`;
  readonly name: string;
  /** What one does there, for the tool tip and the title. */
  readonly about: string;
  /** The `d` of a 24 × 24 line drawing. */
  readonly sign: string;
  /** Within reach of a thumb: the bar of a phone has room for four beside "More". */
  readonly near?: true;
  readonly load: () => Promise<{ Place: ComponentType }>;
}

/** In the order of the bar, which is that of the work: before, on the water, after; the first is where the bench opens. */
export const places: readonly PlaceEntry[] = [
  {
    path: "/rig",
    name: "Rig",
    about: "A rode from the seabed to the boat, taken hold of",
    sign: "M3 20h18M4 18c8 0 12-5 15-13M16 5h6l-1 3h-4zM4 16l2 2-2 2-2-2z",
    near: true,
    load: () => import("./rig/place.tsx"),
  },
  {
    path: "/match",
    name: "Match",
    about: "Two setups side by side, moved until their anchors feel the same",
    sign: "M3 20h18M5 18C9 18 10 9 11 5M13 18c5 0 6-4 8-9M8 7h5M11 5l2 2-2 2",
    load: () => import("./match/place.tsx"),
  },
  {
    path: "/weather",
    name: "Weather",
    about: "Wind, current and sea as load on the rode, and what must give",
    sign: "M3 8h11a3 3 0 1 0-3-3M3 12h15a3 3 0 1 1-3 3M3 16h7a2.5 2.5 0 1 1-2.5 2.5",
    near: true,
    load: () => import("./weather/place.tsx"),
  },
  {
    path: "/series",
    name: "Series",
    about: "A day planned: what can be had, in which order, how many pulls",
    sign: "M5 4h14v17H5zM9 2v4M15 2v4M8 10h2M8 14h2M8 18h2M13 10h4M13 14h4M13 18h2",
    load: () => import("./series/place.tsx"),
  },
  {
    path: "/deck",
    name: "Deck",
    about: "A pull under way: one hand, wet, in sun, without network",
    sign: "M3 17l2 3h14l2-3zM12 3v11M12 4l6 8h-6M7 9h3M4 13h6",
    near: true,
    load: () => import("./deck/place.tsx"),
  },
  {
    path: "/days",
    name: "Days",
    about: "The book: sites, days, pulls, and their logs",
    sign: "M4 5h16v15H4zM4 10h16M8 3v4M16 3v4M7 16l3-2 2 1.5L17 13",
    near: true,
    load: () => import("./days/place.tsx"),
  },
  {
    path: "/readings",
    name: "Readings",
    about: "What was read on a rig, against theory as it grows",
    sign: "M4 4v16h16M7 15l3-4 3 2 5-8M7 19.5v0M12 9.5a1 1 0 1 0 0 .1zM17 12a1 1 0 1 0 0 .1z",
    load: () => import("./readings/place.tsx"),
  },
  {
    path: "/holding",
    name: "Holding",
    about: "Which anchor holds more, said no louder than the pulls allow",
    sign: "M4 20V5M4 20h16M7 9h6M17 9l3 0M17 7l3 2-3 2M7 14l3 0M12 14a1 1 0 1 0 0 .1z",
    load: () => import("./holding/place.tsx"),
  },
  {
    path: "/publish",
    name: "Publish",
    about: "What leaves the bench: a page for viewers, a report, open data, a film overlay",
    sign: "M12 15V3M7 8l5-5 5 5M4 13v7h16v-7",
    load: () => import("./publish/place.tsx"),
  },
];
