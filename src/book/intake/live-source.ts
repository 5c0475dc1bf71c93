import { createReadStream } from "node:fs";
import { connect } from "node:net";
import { setTimeout as wait } from "node:timers/promises";
import { InputError } from "../../quantity/index.ts";

/** What comes from an instrument: bytes, or word that the line was lost and is tried again. */
export type LiveEvent =
  | { readonly kind: "bytes"; readonly bytes: Uint8Array }
  | { readonly kind: "lost"; readonly why: string };

/** An instrument that sends text. */
export interface LiveSource {
  readonly name: string;
  arrivals(signal: AbortSignal): AsyncGenerator<LiveEvent>;
}

/**
 * Reads where the live readings come from: `host:port` of a TCP stream, or the path of a device such as /dev/ttyUSB0,
 * whose speed is set outside (stty).
 */
export function liveSource(text: string): LiveSource {
  const address = /^\[?([^\]/\s]+?)\]?:(\d{1,5})$/.exec(text.trim());
  if (address && Number(address[2]) >= 1 && Number(address[2]) <= 65535)
    return tcpSource(address[1]!, Number(address[2]));
  if (/[/\\]/.test(text)) return deviceSource(text.trim());
  throw new InputError(
    "--live",
    JSON.stringify(text),
    "host:port of a TCP stream or the path of a device is expected, such as 192.168.1.20:10110 or /dev/ttyUSB0",
  );
}

/** A TCP stream; once it has been reached, it is reached again whenever it is lost, until the signal. */
export function tcpSource(host: string, port: number, again_ms = 1000): LiveSource {
  const name = `${host}:${port}`;
  return {
    name,
    async *arrivals(signal) {
      for (let reached = false; !signal.aborted; ) {
        const socket = connect({ host, port });
        const stop = () => socket.destroy();
        signal.addEventListener("abort", stop, { once: true });
        let why = "the other end closed it";
        try {
          for await (const chunk of socket) {
            reached = true;
            yield { kind: "bytes", bytes: chunk as Buffer };
          }
        } catch (error) {
          const code = (error as NodeJS.ErrnoException).code ?? String(error);
          if (!reached && !signal.aborted)
            throw new InputError(
              name,
              `cannot be reached (${code})`,
              "an instrument that sends text there is expected",
            );
          why = code;
        } finally {
          signal.removeEventListener("abort", stop);
          socket.destroy();
        }
        if (signal.aborted) return;
        yield { kind: "lost", why };
        await wait(again_ms, undefined, { signal }).catch(() => undefined);
      }
    },
  };
}

/** A device, or a file that grows no more: read as it stands until it ends. */
export function deviceSource(path: string): LiveSource {
  return {
    name: path,
    async *arrivals(signal) {
      const stream = createReadStream(path, { signal, highWaterMark: 4096 });
      try {
        for await (const chunk of stream) yield { kind: "bytes", bytes: chunk as Buffer };
      } catch (error) {
        if (signal.aborted) return;
        throw new InputError(
          path,
          `cannot be read (${(error as NodeJS.ErrnoException).code ?? String(error)})`,
          "a device that sends text is expected",
        );
      }
    },
  };
}
