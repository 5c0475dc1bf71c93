/** Follows the instruments of the pull under way for as long as its screen stands. */
import { useEffect, useRef } from "react";
import { newId } from "../../api/ids.ts";
import { createStore } from "../../state/store.ts";
import { useStore } from "../../state/use-store.ts";
import { keep } from "../keep.ts";
import type { DeckPull } from "../pull.ts";
import { showLive } from "./live-store.ts";
import { OWN_POSITION, ownPosition } from "./own-position.ts";
import { knownSerial, type Port } from "./port.ts";
import { followOwn, lineSource } from "./port-link.ts";
import type { LiveSource, Via } from "./reading.ts";
import { followByServer } from "./server-link.ts";

/** Ports opened in this visit, by name: a browser hands one out only after a touch; one chosen again is followed anew. */
const ports = createStore<ReadonlyMap<string, Port>>(new Map());

/** An instrument that is followed, until its signal. */
interface Followed {
  readonly stop: AbortController;
  readonly port: Port | undefined;
}

/** Each instrument once, however often the screen is drawn anew; one more leaves the others alone. */
export function useLive(pull: DeckPull): void {
  const names = (pull.live ?? []).map(({ via, name }) => `${via} ${name}`).join("\n");
  const id = pull.ids.pull;
  const opened = useStore(ports);
  const followed = useRef(new Map<string, Followed>());
  useEffect(() => {
    const asked = names === "" ? [] : names.split("\n");
    for (const [line, { stop }] of followed.current)
      if (!asked.includes(line)) {
        stop.abort();
        followed.current.delete(line);
      }
    for (const line of asked) {
      const [via, name] = [line.slice(0, line.indexOf(" ")) as Via, line.slice(line.indexOf(" ") + 1)];
      const before = followed.current.get(line);
      const port = opened.get(name);
      if (before !== undefined && before.port === port) continue;
      before?.stop.abort();
      const stop = new AbortController();
      followed.current.set(line, { stop, port });
      void follow(id, via, name, stop.signal);
    }
  }, [id, names, opened]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another pull follows its own
  useEffect(
    () => () => {
      for (const { stop } of followed.current.values()) stop.abort();
      followed.current.clear();
    },
    [id],
  );
}

async function follow(pull: string, via: Via, name: string, signal: AbortSignal): Promise<void> {
  if (via === "server") return followByServer(pull, name, signal);
  if (via === "position") return followOwn(pull, ownPosition, signal);
  const port = ports.get().get(name) ?? (via === "serial" ? await again(name) : null);
  if (port !== null) return followOwn(pull, lineSource(port), signal);
  showLive(pull, name, { state: "closed", why: "choose it again: this browser does not open it by itself" });
}

/** A serial port let before, where it is the one by that name. */
async function again(name: string): Promise<Port | null> {
  const port = await knownSerial(Number(/(\d+) baud$/.exec(name)?.[1] ?? 9600)).catch(() => null);
  return port?.name === name ? port : null;
}

/** Adds an instrument of the bench's server to the pull under way. */
export const addServer = (name: string): Promise<boolean> => add({ via: "server", name, log: null });

/** Adds the position of this device. */
export const addPosition = (): Promise<boolean> => add({ via: "position", name: OWN_POSITION, log: newId() });

/** Adds one that this device reads itself, or opens it again. */
export function addPort(port: Port): Promise<boolean> {
  ports.put(new Map([...ports.get(), [port.name, port]]));
  return add({ via: port.via, name: port.name, log: newId() });
}

const add = (source: Pick<LiveSource, "via" | "name" | "log">): Promise<boolean> =>
  keep((before) => {
    const { pull } = before;
    if (pull === null) return before;
    const others = (pull.live ?? []).filter(({ name }) => name !== source.name);
    const known = pull.live?.find(({ name }) => name === source.name);
    const made: LiveSource = known ?? { ...source, begin: newId(), clock: 0, channels: [] };
    return { ...before, pull: { ...pull, live: [...others, made] } };
  });
