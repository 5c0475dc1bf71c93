import { afterAll, expect, it } from "vitest";
import { benchWithBook, refused } from "./in-process.ts";

const { ask, send, newId, book, faults } = benchWithBook();
afterAll(() => {
  expect(faults).toEqual([]);
  book.close();
});

const deepText = "- ".repeat(100_000);

it("a file text nested by the thousand is refused, however often it is sent, and the bench goes on", async () => {
  const rig = newId();
  await send("PUT", `/api/1/records/rig/${rig}`, { expected: null, set: { name: "Quay rig" } });
  for (const field of ["rigVersion", "rigVersion", "boat", "boat"]) {
    const set = field === "boat" ? { name: "Boat", file: deepText } : { rig, file: deepText };
    const answer = await send("PUT", `/api/1/records/${field}/${newId()}`, { expected: null, set });
    expect(await refused(answer)).toBe(`400 ${field}.file: nested too deeply; at most 64 levels are expected`);
  }
  expect((await ask("/api/1/book")).status).toBe(200);
});

it("a body nested by the thousand is refused", async () => {
  const body = `{"expected":null,"set":{"name":${"[".repeat(200_000)}${"]".repeat(200_000)}}}`;
  const init = { method: "PUT", headers: { "content-type": "application/json" }, body };
  expect(await refused(await ask(`/api/1/records/site/${newId()}`, init))).toBe(
    "400 body: nested too deeply; at most 64 levels are expected",
  );
});
