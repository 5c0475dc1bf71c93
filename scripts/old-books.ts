// Makes data/books/vN.book: books as each earlier version of the tables left them, for the tests of the migrations.
// A fixture is made once, when its version is superseded, and never again: this script writes only those not there yet.
import { createHash } from "node:crypto";
import { existsSync, mkdirSync } from "node:fs";
import { openBetterSqlite } from "../src/book/better-sqlite-driver.ts";
import { asColumn } from "../src/book/column.ts";
import type { SqlDriver } from "../src/book/driver.ts";
import { extremes } from "../src/book/log-bins.ts";
import { bytesOf, crcOf, packReadings, packTimes } from "../src/book/log-codec.ts";
import { migrate } from "../src/book/migrate.ts";
import { timestampOf } from "../src/record/hybrid-timestamp.ts";
import { fieldOf, type Kind } from "../src/record/schema.ts";

const id = (n: number): string => `0197${String(n).padStart(4, "0")}-0000-7000-8000-000000000000`;
const ABOUT = "00000000-0000-7000-8000-000000000000";
const START = Date.parse("2031-05-17T08:00:00Z");

/** What the fixtures hold, as acts of [kind, record, field, value]; each version has the first ones its tables know. */
const story: { version: number; label: string; changes: [Kind, string, string, unknown][] }[] = [
  {
    version: 1,
    label: "new book",
    changes: [
      ["about", ABOUT, "title", "Ebb Cove trials (invented)"],
      ["about", ABOUT, "simulated", true],
    ],
  },
  {
    version: 1,
    label: "add site",
    changes: [
      ["site", id(1), "name", "Ebb Cove"],
      ["site", id(1), "latitude_deg", 10.5],
      ["site", id(1), "longitude_deg", -20.25],
    ],
  },
  {
    version: 1,
    label: "add seabed",
    changes: [
      ["seabed", id(2), "site", id(1)],
      ["seabed", id(2), "name", "north side"],
      ["seabed", id(2), "grain", "iso-14688:fine-sand"],
    ],
  },
  {
    version: 1,
    label: "add anchor",
    changes: [
      ["anchor", id(3), "name", "Fifteen"],
      ["anchor", id(3), "shape", "scoop"],
      ["anchor", id(3), "mass_kg", 15],
    ],
  },
  {
    version: 1,
    label: "add rig",
    changes: [
      ["rig", id(4), "name", "Quay rig"],
      ["rigVersion", id(5), "rig", id(4)],
      ["rigVersion", id(5), "file", "format: rodebench/rig@1\nname: Quay rig\n"],
    ],
  },
  {
    version: 1,
    label: "add day",
    changes: [
      ["day", id(6), "date", "2031-05-17"],
      ["day", id(6), "site", id(1)],
      ["day", id(6), "wind_m_per_s", 4.5],
    ],
  },
  {
    version: 1,
    label: "add pull",
    changes: [
      ["pull", id(7), "day", id(6)],
      ["pull", id(7), "anchor", id(3)],
      ["pull", id(7), "rigVersion", id(5)],
      ["pull", id(7), "depth_m", 6],
      ["pull", id(7), "steps", [{ load_N: 1000 }]],
      ["pull", id(7), "result", { kind: "heldTo", load_N: 4000 }],
      ["pull", id(7), "endedBy", "engine limit"],
    ],
  },
  { version: 1, label: "edit pull", changes: [["pull", id(7), "depth_m", 6.5]] },
  {
    version: 1,
    label: "add note",
    changes: [
      ["note", id(8), "about", id(7)],
      ["note", id(8), "text", "dug in at once"],
    ],
  },
  { version: 1, label: "hide site", changes: [["site", id(9), "name", "wrong one"]] },
  {
    version: 2,
    label: "add picture",
    changes: [
      ["picture", id(10), "about", id(7)],
      ["picture", id(10), "type", "text/plain"],
      ["picture", id(10), "copy", createHash("sha256").update("a picture").digest("hex")],
    ],
  },
  {
    version: 3,
    label: "add log",
    changes: [
      ["log", id(11), "pull", id(7)],
      ["log", id(11), "name", "cell"],
      ["log", id(11), "fingerprint", "f"],
      ["log", id(11), "channels", [{ name: "load", quantity: "force", unit: "N", precision: "single" }]],
    ],
  },
  {
    version: 3,
    label: "add mark",
    changes: [
      ["mark", id(12), "log", id(11)],
      ["mark", id(12), "kind", "peak"],
      ["mark", id(12), "from_s", 1.9e9],
      ["mark", id(12), "origin", "automatic"],
    ],
  },
];

function writeStory(driver: SqlDriver, version: number): void {
  const now = new Map<string, unknown>();
  story
    .filter((a) => a.version <= version)
    .forEach(({ label, changes }, i) => {
      const act = id(100 + i);
      const ms = START + i * 60_000;
      driver.run(
        "INSERT INTO act (id, stamp, device, who, at, manner, label, reverts) VALUES (?, ?, ?, ?, ?, 'edit', ?, NULL)",
        [act, timestampOf(ms), id(99), "Ada", new Date(ms).toISOString(), label],
      );
      const made = new Set<string>();
      const write = (kind: Kind, record: string, field: string, value: unknown, was: unknown) => {
        driver.run("INSERT INTO change (act, stamp, kind, record, field, was, value) VALUES (?, ?, ?, ?, ?, ?, ?)", [
          act,
          timestampOf(ms),
          kind,
          record,
          field,
          was === null ? null : JSON.stringify(was),
          JSON.stringify(value),
        ]);
      };
      for (const [kind, record, field, value] of changes) {
        if (!now.has(record) && !made.has(record)) {
          driver.run(`INSERT INTO "${kind}" (id) VALUES (?)`, [record]);
          write(kind, record, "hidden", false, true);
          made.add(record);
          now.set(record, true);
        }
        write(kind, record, field, value, now.get(`${record} ${field}`) ?? null);
        now.set(`${record} ${field}`, value);
        driver.run(`UPDATE "${kind}" SET "${field}" = ? WHERE id = ?`, [
          asColumn(fieldOf(kind, field)!, JSON.stringify(value)),
          record,
        ]);
      }
    });
}

function writeContents(driver: SqlDriver, version: number): void {
  driver.run("INSERT INTO meta (key, value) VALUES ('device', ?)", [id(99)]);
  driver.run("INSERT INTO purged (record, kind, stamp, device, who, at) VALUES (?, 'site', ?, ?, 'Ada', ?)", [
    id(13),
    timestampOf(START + 3.6e6),
    id(99),
    new Date(START + 3.6e6).toISOString(),
  ]);
  const picture = new TextEncoder().encode("a picture");
  if (version >= 2)
    driver.run("INSERT INTO file (sha256, size, bytes) VALUES (?, ?, ?)", [
      createHash("sha256").update(picture).digest("hex"),
      picture.length,
      picture,
    ]);
  if (version >= 3) {
    const rows = 1000;
    const times = Float64Array.from({ length: rows }, (_, i) => Math.round((1.9e9 + i / 10) * 10) / 10);
    const load = Float64Array.from(times, (_, i) => Math.fround(4000 * Math.sin(i / 300)));
    const timeBins = bytesOf(extremes(times));
    const packedTimes = packTimes(times);
    const span = [times[0]!, times.at(-1)!] as const;
    driver.run("INSERT INTO log_chunk (log, n, rows, tMin, tMax, crc, bins, times) VALUES (?, 0, ?, ?, ?, ?, ?, ?)", [
      id(11),
      rows,
      ...span,
      crcOf(bytesOf(Float64Array.of(rows, ...span)), timeBins, packedTimes),
      timeBins,
      packedTimes,
    ]);
    const loadBins = bytesOf(extremes(load));
    const packedLoad = packReadings(load, true);
    const range = [Math.min(...load), Math.max(...load)] as const;
    driver.run(
      "INSERT INTO log_column (log, n, channel, vMin, vMax, crc, bins, readings) VALUES (?, 0, 'load', ?, ?, ?, ?, ?)",
      [id(11), ...range, crcOf(bytesOf(Float64Array.of(...range)), loadBins, packedLoad), loadBins, packedLoad],
    );
    const waiting = bytesOf(Float64Array.of(12));
    driver.run("INSERT INTO log_live (log, n, t, crc, readings) VALUES (?, ?, ?, ?, ?)", [
      id(11),
      rows,
      1.9e9 + 100,
      crcOf(bytesOf(Float64Array.of(1.9e9 + 100)), waiting),
      waiting,
    ]);
    driver.run(
      "INSERT INTO log_content (log, rows, position, state, finished) VALUES (?, ?, 4096, '{\"line\":1000}', 0)",
      [id(11), rows + 1],
    );
  }
}

mkdirSync("data/books", { recursive: true });
for (const version of [1, 2, 3, 4, 5, 6, 7]) {
  const path = `data/books/v${version}.book`;
  if (existsSync(path)) continue;
  const driver = openBetterSqlite(path, { readOnly: false, patience_ms: 0 });
  driver.exec("PRAGMA page_size = 1024");
  // Version 4 is version 3 with checksums, 5 that with an overview of its logs, 6 that with the length paid out,
  // 7 that with conclusions: they come of their own steps.
  migrate(driver, Math.min(version, 3));
  driver.transaction(() => {
    writeStory(driver, version);
    writeContents(driver, version);
  });
  migrate(driver, version);
  driver.exec("VACUUM");
  driver.close();
  process.stdout.write(`${path}\n`);
}
