import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { type GustModel, gust, readBoat } from "../../src/sea/index.ts";
import { kn } from "./demo.ts";

const page = readFileSync(new URL("../../docs/weather.md", import.meta.url), "utf8");

describe("docs/weather.md", () => {
  it("shows a boat file that reads", () => {
    const [, yaml] = /```yaml\n([\s\S]*?)```/.exec(page)!;
    const boat = readBoat(yaml!, "docs/weather.md");
    expect(boat.windage).toMatchObject({ kind: "shapes", shapes: [{ kind: "hull" }, {}, {}, {}, {}] });
    expect(boat.measured).toHaveLength(1);
  });

  it("tells the gust factors as they are", () => {
    const models: readonly GustModel[] = [
      { kind: "froya" },
      { kind: "kaimal", turbulence: "A" },
      { kind: "kaimal", turbulence: "B" },
      { kind: "kaimal", turbulence: "C" },
      { kind: "ochi-shin" },
    ];
    const factors = models.map((model) =>
      gust(model, { wind: 20 * kn, height: 10, averaging: 600, duration: 3 }).factor.toFixed(2),
    );
    expect(page).toContain(`they give ${factors.slice(0, -1).join(", ")} and ${factors.at(-1)} times the mean`);
  });
});
