import type { Server } from "node:http";
import type { Socket } from "node:net";

/** What connections may claim before a device's key was seen on them. */
export interface StrangerLimits {
  /** From the first byte of a request, or from the connection itself, to the key: ms. */
  readonly deadline: number;
  /** How many at once, of all addresses together and of one. */
  readonly most: number;
  readonly mostOfOne: number;
}

/** A form with a code is sent in a moment; a browser opens some six connections. */
export const strangerLimits: StrangerLimits = { deadline: 10_000, most: 128, mostOfOne: 16 };

interface Stranger {
  readonly socket: Socket;
  readonly address: string;
  timer: NodeJS.Timeout;
}

/**
 * The connections of a listener on which no key has been seen yet. Each has a short while to show one; past so many the
 * oldest makes room, first among those of the same address. So whoever has no key cannot take the listener from those
 * who have, whether by silence, by half a TLS handshake or by half a body.
 */
export class Strangers {
  readonly #limits: StrangerLimits;
  /** By the other end's address and port; in the order in which they came. */
  readonly #waiting = new Map<string, Stranger>();
  readonly #open = new Map<string, Socket>();

  constructor(server: Server, limits: StrangerLimits) {
    this.#limits = limits;
    // For https this is the bare connection, before its handshake.
    server.on("connection", (socket: Socket) => {
      const key = keyOf(socket);
      this.#open.set(key, socket);
      socket.once("close", () => {
        this.recognised(key);
        this.#open.delete(key);
      });
      this.#wait(key, socket);
    });
    // A key counts for one request: the next on the same connection shows its own.
    server.prependListener("request", ({ socket }: { socket: Socket }) => {
      const key = keyOf(socket);
      const open = this.#open.get(key);
      if (open !== undefined) this.#wait(key, open);
    });
  }

  /** A key was seen on the connection of this other end. */
  recognised(key: string): void {
    const stranger = this.#waiting.get(key);
    if (stranger === undefined) return;
    clearTimeout(stranger.timer);
    this.#waiting.delete(key);
  }

  #wait(key: string, socket: Socket): void {
    this.recognised(key);
    const address = socket.remoteAddress ?? "";
    const timer = setTimeout(() => socket.destroy(), this.#limits.deadline);
    this.#waiting.set(key, { socket, address, timer });
    const ofOne = [...this.#waiting.values()].filter((one) => one.address === address);
    if (ofOne.length > this.#limits.mostOfOne) ofOne[0]!.socket.destroy();
    else if (this.#waiting.size > this.#limits.most) this.#waiting.values().next().value!.socket.destroy();
  }
}

/** The other end of a connection, the same for a bare socket and for the encrypted one over it. */
export function keyOf(socket: Pick<Socket, "remoteAddress" | "remotePort">): string {
  return `${socket.remoteAddress} ${socket.remotePort}`;
}
