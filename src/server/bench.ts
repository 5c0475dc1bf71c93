import { boatNetworkTopic } from "./api-boat-network.ts";
import { benchApp, type Topic } from "./bench-app.ts";
import { BoatNetwork, type Opened, type OpeningOptions } from "./boat-network.ts";
import { readBuiltApp } from "./built-app.ts";
import { Devices } from "./devices.ts";
import { listen } from "./listen.ts";

/** What a bench is opened with. */
export interface BenchOptions {
  /** What is served under `/api/1/`, by topic: `bookTopics(book)`. */
  readonly topics: readonly Topic[];
  /** The folder the web app was built into. */
  readonly builtFolder: string;
  /** The file of the devices let in to this book; empty: none are kept past this process. */
  readonly devicesFile: string;
  /** Port on the loopback; 0: any free one. */
  readonly port: number;
  /** Milliseconds since 1970. */
  readonly now: () => number;
  /** This computer's addresses on private networks; absent: as the machine tells them. */
  readonly ownAddresses?: () => string[];
  /** How long requests under way may still take when the bench is closed, ms; two seconds when absent. */
  readonly grace?: number;
  /** Told of faults of the program. */
  readonly fault: (error: unknown) => void;
}

/** A bench taking requests. */
export interface Bench {
  /** The one address to open at this computer. */
  readonly address: string;
  /** Whether the web app was there to serve. */
  readonly hasApp: boolean;
  /** Opens it to the boat's network: a deliberate act of the user at the computer. */
  openToBoatNetwork(options: OpeningOptions): Promise<Opened>;
  /** A fresh one-time code, to be shown at the computer. */
  newCode(): { readonly code: string; readonly until: number };
  /** Takes no new request, lets those under way finish for at most so long, and closes. */
  close(): Promise<void>;
}

const GRACE = 2_000;

/**
 * Opens the bench on the loopback, and only there.
 * @throws InputError when the port is taken or the file of devices is damaged
 */
export async function openBench(options: BenchOptions): Promise<Bench> {
  const network = new BoatNetwork(new Devices(options.devicesFile, options.now), options.now, options.ownAddresses);
  const builtApp = readBuiltApp(options.builtFolder);
  const topics = [(api: Parameters<Topic>[0]) => void api.route("/", boatNetworkTopic(network)), ...options.topics];
  const app = benchApp({ builtApp, gate: network, topics, fault: options.fault });
  const own = await listen(app, {
    via: "computer",
    address: "127.0.0.1",
    port: options.port,
    alsoCalled: ["localhost"],
  });
  return {
    address: own.address,
    hasApp: builtApp !== undefined,
    openToBoatNetwork: (opening) => network.open(app, opening),
    newCode: () => network.code.issue(),
    close: async () => {
      const { grace = GRACE } = options;
      await Promise.all([network.close(grace), own.close(grace)]);
    },
  };
}
