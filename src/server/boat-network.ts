import { InputError, quoted } from "../quantity/index.ts";
import { Attempts } from "./attempts.ts";
import { boatAddresses } from "./boat-addresses.ts";
import { type Authority, certify } from "./certificate/authority.ts";
import type { Devices } from "./devices.ts";
import { exposure } from "./exposure.ts";
import { type Certificate, type Fetching, type Listener, listen } from "./listen.ts";
import { OneTimeCode } from "./one-time-code.ts";
import type { Gate } from "./pairing.ts";
import { type StrangerLimits, strangerLimits } from "./strangers.ts";

/** Whether what travels is encrypted, and whose word devices have for it. */
export type Encryption =
  | { readonly kind: "none" }
  /** By a certificate of the user's own. */
  | { readonly kind: "given"; readonly certificate: Certificate }
  /** By this computer's own authority, which each device is told to trust. */
  | { readonly kind: "authority"; readonly authority: Authority };

/** How the bench is opened to the boat's network. */
export interface OpeningOptions {
  readonly encryption: Encryption;
  /** One private address of this computer; absent: every one it has. */
  readonly address?: string;
  /** Port there; 0 or absent: any free one. */
  readonly port?: number;
  /** What connections without a key may claim; usual ones when absent. */
  readonly strangers?: StrangerLimits;
}

/** What is said at the computer when the bench has been opened. Times in ms since 1970. */
export interface Opened {
  readonly addresses: readonly string[];
  readonly code: string;
  readonly codeUntil: number;
  readonly exposes: readonly string[];
  /** SHA-256 of the authority to trust, to be compared on the device; absent without one. */
  readonly fingerprint?: string;
}

/**
 * The bench's standing toward the boat's network: closed until `open` is called, which only the computer's user can do.
 */
export class BoatNetwork implements Gate {
  #devices: Devices;
  readonly code: OneTimeCode;
  readonly attempts: Attempts;
  readonly #ownAddresses: () => string[];
  #listeners: Listener[] = [];
  #encryption: Encryption = { kind: "none" };
  readonly #now: () => number;

  /**
   * @param now milliseconds since 1970
   * @param ownAddresses this computer's addresses on private networks
   */
  constructor(devices: Devices, now: () => number, ownAddresses: () => string[] = boatAddresses) {
    this.#devices = devices;
    this.#ownAddresses = ownAddresses;
    this.#now = now;
    this.code = new OneTimeCode(now);
    this.attempts = new Attempts(now);
  }

  get devices(): Devices {
    return this.#devices;
  }

  /** Another book is served from now on: those let in to it come in, nobody else, and a code given for the one before ends. */
  turnTo(devices: Devices): void {
    this.#devices = devices;
    this.code.end();
  }

  get addresses(): string[] {
    return this.#listeners.map((listener) => listener.address);
  }

  get exposes(): readonly string[] {
    return exposure(this.#listeners.length === 0 ? "undecided" : this.#encryption.kind);
  }

  /** The authority a device is to trust, as PEM; undefined when there is none. */
  get authority(): string | undefined {
    return this.#encryption.kind === "authority" ? this.#encryption.authority.cert : undefined;
  }

  /** SHA-256 of that authority, to be compared on the device before it is trusted. */
  get fingerprint(): string | undefined {
    return this.#encryption.kind === "authority" ? this.#encryption.authority.fingerprint : undefined;
  }

  /**
   * Opens listeners on this computer's private addresses and makes the first code.
   * @throws InputError when it has none, the one asked for is public, or it is open already
   */
  async open(app: Fetching, options: OpeningOptions): Promise<Opened> {
    if (this.#listeners.length > 0) throw new InputError("boat network", "open already", "it can be opened once");
    const listeners: Listener[] = [];
    try {
      const addresses = addressesFor(options.address, this.#ownAddresses());
      const certificate = certificateFor(options.encryption, addresses, this.#now());
      let port = options.port ?? 0;
      for (const address of addresses) {
        const place = {
          via: "boat",
          address,
          port,
          alsoCalled: [],
          strangers: options.strangers ?? strangerLimits,
          ...(certificate ? { certificate } : {}),
        } as const;
        const listener = await listen(app, place);
        // The same port on each of the computer's addresses, whatever the first one found.
        port = listener.port;
        listeners.push(listener);
      }
    } catch (error) {
      await Promise.all(listeners.map((listener) => listener.close(0)));
      throw error;
    }
    this.#listeners = listeners;
    this.#encryption = options.encryption;
    const { code, until } = this.code.issue();
    const opened = { addresses: this.addresses, code, codeUntil: until, exposes: this.exposes };
    return this.fingerprint === undefined ? opened : { ...opened, fingerprint: this.fingerprint };
  }

  /** Closes what was opened; the keys stay for the next time. */
  async close(grace: number): Promise<void> {
    const listeners = this.#listeners;
    this.#listeners = [];
    this.code.end();
    await Promise.all(listeners.map((listener) => listener.close(grace)));
  }
}

function certificateFor(encryption: Encryption, addresses: readonly string[], now: number): Certificate | undefined {
  if (encryption.kind === "none") return undefined;
  return encryption.kind === "given" ? encryption.certificate : certify(encryption.authority, addresses, now);
}

function addressesFor(asked: string | undefined, own: string[]): string[] {
  if (own.length === 0) {
    throw new InputError(
      "boat network",
      "this computer has no address on a private network",
      "join the boat's network first",
    );
  }
  if (asked === undefined) return own;
  if (own.includes(asked)) return [asked];
  const expected = `one of this computer's addresses on a private network: ${own.join(", ")}`;
  throw new InputError("boat network", quoted(asked), expected);
}
