import { Answering } from "./answering.ts";
import { boatNetworkTopic } from "./api-boat-network.ts";
import { type ReportWriter, reportTopic } from "./api-report.ts";
import { benchApp, type Topic } from "./bench-app.ts";
import { BoatNetwork, type Opened, type OpeningOptions } from "./boat-network.ts";
import { readBuiltApp } from "./built-app.ts";
import { Devices } from "./devices.ts";
import { type Fetching, listen } from "./listen.ts";

/** What a bench is opened with. */
export interface BenchOptions {
  /** What is served under `/api/1/`, by topic: `bookTopics(book)`. */
  readonly topics: readonly Topic[];
  /** Writes reports as PDF; absent: none are written. */
  readonly reportPdf?: ReportWriter;
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
  /**
   * Serves another book at the same addresses from the next request on: with its own devices, and without a code waiting.
   * @returns when every request of the book before is answered, or has had its while
   * @throws InputError when the file of its devices is damaged; the book before is served on
   */
  turnTo(served: Pick<BenchOptions, "topics" | "devicesFile">): Promise<void>;
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
  const { now, fault, grace = GRACE } = options;
  const network = new BoatNetwork(new Devices(options.devicesFile, now), now, options.ownAddresses);
  const builtApp = readBuiltApp(options.builtFolder);
  const ownTopic: Topic = (api) => void api.route("/", boatNetworkTopic(network));
  const { reportPdf } = options;
  const ownTopics: readonly Topic[] =
    reportPdf === undefined ? [ownTopic] : [ownTopic, (api) => void api.route("/", reportTopic(reportPdf))];
  const serving = (topics: readonly Topic[]) =>
    new Answering(benchApp({ builtApp, gate: network, topics: [...ownTopics, ...topics], fault }));
  let here = serving(options.topics);
  const app: Fetching = { fetch: (request, context) => here.fetch(request, context) };
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
    turnTo: ({ topics, devicesFile }) => {
      network.turnTo(new Devices(devicesFile, now));
      const before = here;
      here = serving(topics);
      return before.answered(grace);
    },
    newCode: () => network.code.issue(),
    close: async () => {
      await Promise.all([network.close(grace), own.close(grace)]);
    },
  };
}
