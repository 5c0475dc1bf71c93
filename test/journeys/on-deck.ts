/** Instruments on a boat that is not there: a load cell with a position, and an angle gauge, seeded. */
import type { Page } from "playwright-core";
import { rng } from "../../src/statistics/index.ts";
import { Instrument } from "../book/intake/instrument.ts";

/** A cell and a receiver that send Signal K deltas, and a gauge that sends sentences, ten times a second. */
export class Boat {
  readonly cell: Instrument;
  readonly gauge: Instrument;
  /** What the rode carries now, N. */
  load = 300;
  /** How far the bow has come back since the beginning, m. */
  back = 0;
  /** Loads sent, in order. */
  readonly sent: number[] = [];
  readonly #random = rng(16);
  readonly #timer: NodeJS.Timeout;

  private constructor(cell: Instrument, gauge: Instrument) {
    this.cell = cell;
    this.gauge = gauge;
    this.#timer = setInterval(() => void this.#tell(), 100);
  }

  static async start(): Promise<Boat> {
    return new Boat(await new Instrument().start(), await new Instrument().start());
  }

  get live(): string[] {
    return ["--live", this.cellName, "--live", this.gaugeName];
  }
  get cellName(): string {
    return `127.0.0.1:${this.cell.port}`;
  }
  get gaugeName(): string {
    return `127.0.0.1:${this.gauge.port}`;
  }

  async #tell(): Promise<void> {
    const load = Math.round(10 * (this.load + 4 * this.#random.normal())) / 10;
    this.sent.push(load);
    // A degree of latitude is some 111 km; the receiver wanders by half a metre.
    const north = -this.back + 0.5 * this.#random.normal();
    const values = [
      { path: "sensors.rode.load", value: load },
      { path: "navigation.position", value: { latitude: 54.2 + north / 111_300, longitude: 10.4 } },
    ];
    await this.cell.send(`${JSON.stringify({ context: "vessels.self", updates: [{ values }] })}\n`);
    await this.gauge.send(`${sentence(`IIXDR,A,${(12 + 0.3 * this.#random.normal()).toFixed(2)},D,RODE`)}\r\n`);
  }

  async stop(): Promise<void> {
    clearInterval(this.#timer);
    await Promise.all([this.cell.stop(), this.gauge.stop()]);
  }
}

/** NMEA 0183: the exclusive or of all signs behind it. */
function sentence(body: string): string {
  const sum = [...body].reduce((so, sign) => so ^ sign.charCodeAt(0), 0);
  return `$${body}*${sum.toString(16).toUpperCase().padStart(2, "0")}`;
}

/** What this device kept of instruments: row by row what was shown. */
export const shownRows = (page: Page) =>
  page.evaluate(
    () =>
      new Promise<{ n: number; values: Record<string, number> }[]>((done, fail) => {
        const opening = indexedDB.open("rodebench");
        opening.onerror = () => fail(opening.error);
        opening.onsuccess = () => {
          const asked = opening.result.transaction("readings").objectStore("readings").getAll();
          asked.onerror = () => fail(asked.error);
          asked.onsuccess = () => {
            opening.result.close();
            done(
              (asked.result as { rows: { n: number; values: Record<string, number> }[] }[]).flatMap(({ rows }) => rows),
            );
          };
        };
      }),
  );
