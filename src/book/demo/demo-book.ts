import { existsSync, linkSync, readFileSync, renameSync, rmSync } from "node:fs";
import type { Channel, FieldsOf } from "../../record/index.ts";
import { idMaker } from "../../record/index.ts";
import { type Rng, rng } from "../../statistics/index.ts";
import type { Book } from "../book.ts";
import { writeMeta } from "../migrate.ts";
import { newBook, type OpenOptions, openBook, systemPorts } from "../open.ts";
import type { Draft } from "../records.ts";
import { BookTrouble } from "../trouble.ts";
import { round, type SimulatedPull, simulateLog, simulatePull } from "./simulate.ts";
import { type SeabedKey, story } from "./story.ts";

const CHANNELS: Channel[] = [
  { name: "load", quantity: "force", unit: "N", precision: "single" },
  { name: "depth", quantity: "length", unit: "m", precision: "single" },
  { name: "wind", quantity: "speed", unit: "m/s", precision: "single" },
  { name: "latitude", quantity: "angle", unit: "deg", precision: "double" },
  { name: "longitude", quantity: "angle", unit: "deg", precision: "double" },
];

/** What the demonstration book is called. */
export const DEMO_TITLE: string = story.title;

/**
 * Makes the demonstration book: an invented scenario, its readings simulated from a stated model with a fixed seed, and
 * said so in the book itself. The same each time but for the device that goes on to write in it.
 */
export function createDemoBook(path: string, options: OpenOptions = {}): Book {
  if (existsSync(path))
    throw new BookTrouble("exists", path, "there is a file already", "a name not yet taken is expected");
  const part = `${path}.${idMaker(options.ports ?? systemPorts)()}.part`;
  try {
    const stream = rng(story.seed);
    const ports = {
      now: Date.parse("2024-05-14T06:00:00Z"),
      clock: () => ports.now,
      random: (count: number) => Uint8Array.from({ length: count }, () => stream.integer(256)),
    };
    const { title, description, script } = story;
    const book = newBook(part, { title, description, simulated: true }, { ports, who: script });
    tell(book, stream, (ms) => {
      ports.now = ms;
    });
    // Whoever goes on writes as a device of their own.
    writeMeta(book.context.driver, "device", idMaker(options.ports ?? systemPorts)());
    book.context.driver.exec("PRAGMA wal_checkpoint(TRUNCATE)");
    book.close();
    try {
      linkSync(part, path);
    } catch {
      renameSync(part, path);
    }
  } finally {
    rmSync(part, { force: true });
  }
  return openBook(path, options);
}

function tell(book: Book, stream: Rng, setClock: (ms: number) => void): void {
  const one = (draft: Draft): string => book.write([draft], `add ${draft.kind}`).ids[0]!;
  const boat = one({
    kind: "boat",
    set: {
      name: "Marsh Tern (invented)",
      file: readFileSync(new URL("../../../data/boats/marsh-tern.yaml", import.meta.url), "utf8"),
    },
  });
  const sites = Object.fromEntries(
    Object.entries(story.sites).map(([key, set]) => [key, one({ kind: "site", set: { ...set } })]),
  );
  const seabeds = new Map(
    story.seabeds.map(({ key, at, ...set }) => [
      key as SeabedKey,
      one({ kind: "seabed", set: { ...set, site: sites[at]! } }),
    ]),
  );
  const anchors = story.anchors.map(({ name, shape, mass_kg, flukeArea_m2 }) => ({
    ...story.anchors.find((a) => a.name === name)!,
    id: one({ kind: "anchor", set: { name, shape, mass_kg, flukeArea_m2, make: "none: invented" } }),
  }));
  const rig = one({ kind: "rig", set: { name: story.rig.name } });
  const first = one({ kind: "rigVersion", set: { rig, file: story.rig.first } });
  const second = one({ kind: "rigVersion", set: { rig, file: story.rig.second, reason: story.rig.reason } });
  const series = one({ kind: "series", set: { ...story.series } });

  for (const [i, { seabed, depth_m, ...weather }] of story.days.entries()) {
    const begins = Date.parse(`${weather.date}T08:00:00Z`);
    setClock(begins);
    const at = story.seabeds.find((s) => s.key === seabed)!.at;
    const day = one({ kind: "day", set: { ...weather, site: sites[at]!, boat, testers: story.testers } });
    const factor = Math.exp(0.1 * stream.normal());
    const order = shuffled(
      stream,
      anchors.flatMap((a) => Array.from({ length: story.pullsPerAnchor }, () => a)),
    );
    for (const [n, anchor] of order.entries()) {
      const startedAt = begins + n * 22 * 60_000;
      setClock(startedAt + 15 * 60_000);
      const pull = simulatePull(stream, anchor.median[seabed], anchor.spread, factor);
      const id = one({
        kind: "pull",
        set: {
          ...fieldsOfPull(stream, pull, depth_m),
          day,
          series,
          anchor: anchor.id,
          seabed: seabeds.get(seabed)!,
          rigVersion: i === 2 ? second : first,
          number: n + 1,
          startedAt: new Date(startedAt).toISOString(),
        },
      });
      if (n < 2)
        addLog(book, stream, pull, { pull: id, day, name: `load cell, pull ${n + 1}` }, startedAt / 1000, {
          ...story.sites[at],
          depth_m,
          wind_m_per_s: weather.wind_m_per_s,
        });
      if (pull.result.kind === "neverSet")
        one({ kind: "note", set: { about: id, text: "Skated over the bottom; never took hold." } });
    }
  }
  addSketch(book, book.list("pull")[0]!.id);
}

function fieldsOfPull(stream: Rng, pull: SimulatedPull, depth_m: number): FieldsOf<"pull"> {
  return {
    depth_m: round(depth_m + 0.1 * stream.normal(), 10),
    scope: 5,
    heading_deg: round(90 + 6 * stream.normal()),
    loadAt: "bow",
    steps: pull.steps,
    result: pull.result,
    endedBy: pull.endedBy,
    setDistance_m: pull.moved_m,
  };
}

function addLog(
  book: Book,
  stream: Rng,
  pull: SimulatedPull,
  set: FieldsOf<"log">,
  start_s: number,
  at: Parameters<typeof simulateLog>[3],
): void {
  const rows = simulateLog(stream, pull, start_s, at);
  const { log } = book.logs.open({ ...set, channels: CHANNELS, source: `simulated, seed ${story.seed}` });
  book.logs.append(log, rows, { from: 0, to: rows.times.length });
  book.logs.finish(log);
  book.write(
    [
      {
        kind: "mark",
        set: { log, kind: "video", from_s: start_s + 20, origin: "by hand", remarks: "camera started (invented)" },
      },
    ],
    "mark video",
  );
}

/** A drawing rather than a photograph: nothing was there to be photographed. */
function addSketch(book: Book, pull: string): void {
  const sketch = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 120 40" role="img"><title>Sketch of a furrow (invented)</title><path d="M0 26 H120" stroke="currentColor" fill="none"/><path d="M18 26 C34 34 60 36 84 31 L84 26" stroke="currentColor" fill="none"/></svg>\n`;
  book.addPicture(
    { about: pull, type: "image/svg+xml", caption: "Sketch of the furrow after weighing (invented)" },
    new TextEncoder().encode(sketch),
  );
}

function shuffled<T>(stream: Rng, items: readonly T[]): T[] {
  const out = [...items];
  for (let i = out.length - 1; i > 0; i--) {
    const j = stream.integer(i + 1);
    [out[i], out[j]] = [out[j]!, out[i]!];
  }
  return out;
}
