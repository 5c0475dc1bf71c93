import { readdirSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { createDemoBook, openBook } from "../../src/book/index.ts";
import { readRig } from "../../src/rode/index.ts";
import { readBoat } from "../../src/sea/index.ts";
import { folder } from "./folder.ts";

describe("the demonstration book", () => {
  it("says that it is simulated, is sound, and is the same each time", () => {
    const at = folder();
    const one = createDemoBook(join(at, "one.book"), { who: "reader" });
    const two = createDemoBook(join(at, "two.book"), { who: "reader" });
    expect(one.about()).toMatchObject({ simulated: true, description: expect.stringContaining("simulated") });
    expect(one.list("log").every((log) => log.source?.startsWith("simulated"))).toBe(true);
    expect(one.check()).toMatchObject({
      kind: "sound",
      counts: { records: { pull: 36, anchor: 4, seabed: 3, day: 3, log: 6 } },
    });
    expect(two.digest()).toBe(one.digest());
    expect(two.context.device).not.toBe(one.context.device);
    expect(one.undo()).toEqual({ kind: "nothing" });
    one.close();
    two.close();
    expect(readdirSync(at).filter((name) => name.endsWith(".part"))).toEqual([]);
    expect(openBook(join(at, "one.book")).notices).toEqual([]);
  });

  it("holds files that the rest of the program reads", () => {
    const book = createDemoBook(join(folder(), "demo.book"));
    for (const version of book.list("rigVersion")) expect(readRig(version.file!, "rig").name).toBe("Trial rode");
    expect(readBoat(book.list("boat")[0]!.file!, "boat").name).toBe("Marsh Tern");
    book.close();
  });

  it("has pulls that gave way and pulls that only the engine ended, a third of all or more of each", () => {
    const book = createDemoBook(join(folder(), "demo.book"));
    const all = book.list("pull");
    expect(
      all.filter((p) => p.endedBy === "engine limit" && p.result?.kind === "heldTo").length,
    ).toBeGreaterThanOrEqual(12);
    expect(all.filter((p) => p.result?.kind === "gaveWay").length).toBeGreaterThanOrEqual(12);
    expect(new Set(all.map((p) => p.endedBy)).size).toBeGreaterThanOrEqual(3);
    book.close();
  });
});
