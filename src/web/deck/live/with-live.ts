import { type DeckEvent, type DeckPull, standing } from "../pull.ts";
import { type LiveReading, loadIn } from "./reading.ts";

/** Loads of the instruments among what was touched and typed, all by their time: to be looked at, never to be sent. */
export function withLive(pull: Pick<DeckPull, "events">, rows: readonly LiveReading[]): { events: DeckEvent[] } {
  if (rows.length === 0) return { events: [...pull.events] };
  const live = rows.flatMap((row): DeckEvent[] => {
    const newtons = loadIn(row);
    return newtons === null ? [] : [{ kind: "load", newtons, at: row.at, n: LIVE }];
  });
  return { events: [...standing(pull), ...live].sort((a, b) => a.at - b.at) };
}

/** In place of an event's own number: a reading of an instrument has none, and nothing takes it back. */
const LIVE = -1;
