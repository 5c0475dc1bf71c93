import type { InferResponseType } from "hono/client";
import { useCallback, useEffect, useRef, useState } from "react";
import { ApiTrouble, boatNetwork, OutOfReach } from "../../api/client.ts";
import { announce } from "../../controls/announce.ts";

/** The bench's standing toward the boat's network, as it is told at the computer; times in ms since 1970. */
export type Network = InferResponseType<typeof boatNetwork.$get>;
export type Device = Network["devices"][number];

/** Somebody may be typing a code, or the bench is being opened at its terminal: what is shown follows. */
const POLL = 2_000;

/** Asks who is let in, again and again while it is shown; says who came. */
export function useBoatNetwork() {
  const [network, setNetwork] = useState<Network | null>(null);
  const [wrong, setWrong] = useState<string | null>(null);
  const known = useRef<ReadonlySet<string> | null>(null);

  /** Does something at the computer and looks again; what went wrong is told in one line. */
  const tried = useCallback(async (work: () => Promise<unknown>): Promise<void> => {
    try {
      await work();
      const now = await (await boatNetwork.$get()).json();
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
