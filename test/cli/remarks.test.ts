import { describe, expect, it } from "vitest";
import { rodebench, unfolded } from "../support/command-line.ts";

const rig = (current: string, diameter = "") => `format: rodebench/rig@1
name: Stream
setting: { medium: water, depth: 6 m, rollerHeight: 1 m, current: ${current} }
rode:
  - line: { length: 20 m, massPerLength: 2.3 kg/m, density: 7850 kg/m3, diameter: 10 mm }
  - line: { name: warp, length: 20 m, massPerLength: 0.4 kg/m, density: 1140 kg/m3${diameter} }
`;
const settle = ["settle", "-", "--pull", "2 kN", "--at", "bow"];

describe("a line in a current without a diameter", () => {
  it("is said to be dragged as the circle of its displaced volume, in text and JSON", async () => {
    const files = { "-": rig("1 kn") };
    const text = await rodebench(settle, files);
    // π d²/4 = 0.4/1140 m².
    expect(unfolded(text.out)).toContain(
      "part 2, warp, states no diameter; in the current it is dragged as 21.1 mm, the circle of its displaced volume\n",
    );
    expect(unfolded((await rodebench([...settle, "--units", "us"], files)).out)).toContain("dragged as 0.832 in,");
    const { remarks } = JSON.parse((await rodebench([...settle, "--json"], files)).out);
    expect(remarks).toEqual([
      { rig: "Stream", about: "diameterAssumed", part: 2, name: "warp", diameter_m: expect.any(Number) },
    ]);
    expect(Math.abs(remarks[0].diameter_m - Math.sqrt((4 * 0.4) / (Math.PI * 1140)))).toBeLessThan(1e-15);
  });

  it.each([
    ["in still water", rig("0 kn")],
    ["where the diameter is stated", rig("1 kn", ", diameter: 24 mm")],
  ])("is not spoken of %s", async (_, file) => {
    const { out, status } = await rodebench(settle, { "-": file });
    expect(status).toBe(0);
    expect(out).not.toContain("diameter");
    expect(JSON.parse((await rodebench([...settle, "--json"], { "-": file })).out)).not.toHaveProperty("remarks");
  });
});
