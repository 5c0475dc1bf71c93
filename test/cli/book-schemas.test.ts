import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { formats } from "../../src/cli/schemas/index.ts";
import { type Kind, kindNames } from "../../src/record/index.ts";
import { folder } from "../book/folder.ts";
import { rodebench } from "../support/command-line.ts";
import { schemaTroubles } from "../support/schema-troubles.ts";

/** A terminal in a folder that holds every answer it gets to the schema of its format, and remembers which it met. */
function heldTerminal(cwd: string) {
  const met = new Set<string>();
  const type = async (...argv: string[]) => {
    const { out, err, status } = await rodebench([...argv, "--json"], {}, { cwd });
    expect([status, err], argv.join(" ")).toEqual([0, ""]);
    const document = JSON.parse(out);
    const name = String(document.format).replace("rodebench/", "");
    met.add(name);
    expect(schemaTroubles(name, document), argv.join(" ")).toEqual([]);
    const { format: _, ...nameless } = document;
    expect(schemaTroubles(name, nameless), argv.join(" ")).not.toEqual([]);
    return document;
  };
  return { type, met };
}

describe("answers of a book hold to their schemas", () => {
  it("over all that is done with one", async () => {
    const at = folder();
    const { type, met } = heldTerminal(at);
    await type("book", "demo", "demo.book");
    await type("book", "new", "mine.book", "--title", "Mine");
    await type("book", "list", "demo.book");
    const first = new Map<Kind, string>();
    for (const kind of kindNames) {
      const { records } = await type("book", "list", "demo.book", kind, "--hidden");
      if (records.length > 0) first.set(kind, records[0].id);
    }
    for (const id of first.values()) await type("book", "show", "demo.book", id);
    const { id } = await type("book", "add", "mine.book", "pull", "--set", "paidOut_m=32.5");
    expect(await type("book", "edit", "mine.book", id, "--set", "paidOut_m=32.5")).toMatchObject({ transaction: null });
    await type("book", "edit", "mine.book", id, "--set", "paidOut_m=30");
    await type("book", "history", "mine.book");
    expect((await type("book", "undo", "mine.book")).kind).toBe("reverted");
    expect((await type("book", "redo", "mine.book")).kind).toBe("reverted");
    expect((await type("book", "redo", "mine.book")).kind).toBe("nothing");
    writeFileSync(join(at, "a.csv"), "Time (s),Load (kN)\n0,1\n1,2\n2,3\n");
    writeFileSync(
      join(at, "places.geojson"),
      JSON.stringify({
        type: "FeatureCollection",
        features: [
          {
            type: "Feature",
            properties: { name: "Ebb Cove" },
            geometry: { type: "Point", coordinates: [-20, 10] },
          },
        ],
      }),
    );
    await type("log", "a.csv", "--into", "mine.book");
    await type("log", "a.csv", "--into", "mine.book");
    await type("book", "import", "mine.book", "places.geojson");
    await type("book", "export", "mine.book", "open");
    expect(schemaTroubles("book@1", JSON.parse(readFileSync(join(at, "open", "book.json"), "utf8")))).toEqual([]);
    expect(schemaTroubles("book@1", { format: "rodebench/book@1" })).not.toEqual([]);
    await type("book", "import", "copy.book", "open");
    await type("book", "merge", "copy.book", "demo.book", "--even-simulated", "--yes");
    await type("book", "backup", "mine.book");
    await type("book", "check", "mine.book");
    await type("book", "hide", "mine.book", id);
    const { token } = await type("book", "purge", "mine.book", id);
    await type("book", "purge", "mine.book", id, "--confirm", token);
    expect(readdirSync(join(at, "mine.book.backups")).length).toBeGreaterThan(0);
    await type("book", "restore", "mine.book", "--yes");
    await type("schema");
    // What is left is held where it is printed: a live log, and the bench that is open.
    const elsewhere = ["live@1", "log-guess@1", "opened@1", "devices-listed@1"];
    const ofBooks = Object.entries(formats).filter(([, { about }]) => /^(book|log|open|schema)\b/.test(about));
    const unmet = ofBooks.map(([name]) => name).filter((name) => name !== "book@1" && !met.has(name));
    expect(unmet.sort()).toEqual(elsewhere.sort());
  });

  it("refuses a record with a field of another type, and one of another kind", () => {
    const site = { id: "x", hidden: false, name: "Ebb Cove", latitude_deg: 1, longitude_deg: 2, description: null };
    const shown = { format: "rodebench/record@1", kind: "site", record: site };
    expect(schemaTroubles("record@1", shown)).toEqual([]);
    expect(schemaTroubles("record@1", { ...shown, record: { ...site, latitude_deg: "1" } })).not.toEqual([]);
    expect(schemaTroubles("record@1", { ...shown, kind: "day" })).not.toEqual([]);
  });
});
