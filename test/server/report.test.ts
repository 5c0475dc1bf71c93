/** The door that writes a report as a PDF. */
import { describe, expect, it } from "vitest";
import { InputError } from "../../src/quantity/index.ts";
import { reportTopic } from "../../src/server/api-report.ts";
import { benchInProcess, refused } from "./in-process.ts";

const asked: [html: string, author: string][] = [];
const { ask } = benchInProcess([
  (api) =>
    void api.route(
      "/",
      reportTopic(async (html, author) => {
        asked.push([html, author]);
        if (author === "missing")
          throw new InputError("report.pdf", "PDF needs a package that is not installed", "that package is expected");
        return new Uint8Array([0x25, 0x50, 0x44, 0x46]);
      }),
    ),
]);
const post = (body: unknown, type = "application/json") =>
  ask("/api/1/report.pdf", {
    method: "POST",
    headers: { "content-type": type, origin: "http://127.0.0.1:4711" },
    body: typeof body === "string" ? body : JSON.stringify(body),
  });

describe("a report as a PDF, by the bench", () => {
  it("is what the writer makes of the page and the name sent, and is kept by nobody", async () => {
    const answer = await post({ html: "<p>\u202ehostile</p>", by: "=1+1" });
    expect(answer.status).toBe(200);
    expect(answer.headers.get("content-type")).toBe("application/pdf");
    expect(answer.headers.get("cache-control")).toBe("no-store");
    expect([...new Uint8Array(await answer.arrayBuffer())]).toEqual([0x25, 0x50, 0x44, 0x46]);
    expect(asked.at(-1)).toEqual(["<p>\u202ehostile</p>", "=1+1"]);
  });

  it("is refused in one line: another body, a field that is none, a package that is missing", async () => {
    expect(await refused(await post("<p></p>", "text/html"))).toMatch(/^415 Content-Type: /);
    expect(await refused(await post({ html: "", by: "" }))).toMatch(/^400 body\.?html: /);
    expect(await refused(await post({ html: "<p></p>", by: "", path: "/etc/passwd" }))).toMatch(/^400 body/);
    expect(await refused(await post({ html: "<p></p>", by: "missing" }))).toBe(
      "400 report.pdf: PDF needs a package that is not installed; that package is expected",
    );
  });
});
