import { useCallback, useEffect, useRef, useState } from "react";
import { ApiTrouble, api, OutOfReach } from "../../api/client.ts";
import { announce } from "../../show/announce.ts";

/** A device that was let in. Times in ms since 1970. */
export interface Device {
  readonly id: string;
  readonly name: string;
  readonly addedAt: number;
  readonly seenAt: number;
}

/** The bench's standing toward the boat's network, as it is told at the computer. */
export interface Network {
  readonly open: boolean;
  readonly addresses: readonly string[];
  readonly codeUntil: number | null;
  readonly exposes: readonly string[];
  /** Of the authority a device is to trust; null without one. */
  readonly fingerprint: string | null;
  readonly devices: readonly Device[];
}

/** Somebody may be typing a code, or the bench is being opened at its terminal: what is shown follows. */
const POLL = 2_000;

/** Asks who is let in, again and again while it is shown; says who came. */
export function useBoatNetwork() {
  const [network, setNetwork] = useState<Network | null>(null);
  const [wrong, setWrong] = useState<string | null>(null);
  const known = useRef<ReadonlySet<string> | null>(null);

  /** Does something at the computer and looks again; what went wrong is told in one line. */
  const tried = useCallback(async (act: () => Promise<unknown>): Promise<void> => {
    try {
      await act();
      const now = await api.get<Network>("/boat-network");
      const before = known.current;
      if (before !== null) for (const { id, name } of now.devices) if (!before.has(id)) announce(`${name} is let in`);
      known.current = new Set(now.devices.map(({ id }) => id));
      setNetwork(now);
      setWrong(null);
    } catch (error) {
      if (error instanceof OutOfReach)
        setWrong("this asks the computer that holds the book, which is out of reach now");
      else if (error instanceof ApiTrouble) setWrong(error.message);
      else throw error;
    }
  }, []);
  useEffect(() => {
    void tried(async () => undefined);
    const timer = setInterval(() => {
      if (document.visibilityState === "visible") void tried(async () => undefined);
    }, POLL);
    return () => clearInterval(timer);
  }, [tried]);
  return { network, wrong, tried };
}
