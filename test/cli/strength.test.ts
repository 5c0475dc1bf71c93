import { describe, expect, it } from "vitest";
import { rodebench, unfolded } from "../support/command-line.ts";

const RIG = `format: rodebench/rig@1
name: Weak
setting: { medium: water, depth: 8 m, rollerHeight: 1 m }
rode:
  - line: { length: 45 m, massPerLength: 2 kg/m, density: 7850 kg/m3, workingLoad: 2 kN, breakingLoad: 8 kN, name: thin chain }
  - weight: { mass: 1 kg, density: 7850 kg/m3, name: bare joint }
`;
const FILES = { "rig.yaml": RIG };

interface Strength {
  part: number;
  load_N: number;
  past: string | null;
}

describe("strength", () => {
  it("is told by settle: past the working load, then past what breaks", async () => {
    const at = (load: string) => rodebench(["settle", "rig.yaml", "--pull", load, "--at", "bow"], FILES);
    expect((await at("1.5 kN")).out).not.toMatch(/overloaded|breaks/);
    expect(unfolded((await at("3 kN")).out)).toMatch(
      /^overloaded {8}part 1, thin chain: \d+ N is past its working load limit of 2000 N$/m,
    );
    expect(unfolded((await at("9 kN")).out)).toMatch(
      /^breaks {12}part 1, thin chain: \d+ N is past its minimum breaking load of 8000 N$/m,
    );
  });

  it("stands in every JSON answer, a row a part, with the load that breaks it", async () => {
    const ask = async (...argv: string[]) => JSON.parse((await rodebench([...argv, "--json"], FILES)).out);
    const holds = (strength: Strength[], load: number, past: string | null) => {
      expect(strength.map(({ part }) => part)).toEqual([1, 2]);
      expect(strength[0]!.past).toBe(past);
      expect(strength[1]!.past).toBeNull();
      // Nothing but the joint's kilogram (less the water it displaces) lies between the top of the line and the bow.
      expect(Math.abs(strength[0]!.load_N - load)).toBeLessThan(10);
    };
    holds((await ask("settle", "rig.yaml", "--pull", "9 kN", "--at", "bow")).strength, 9000, "breakingLoad");
    const { rows } = await ask("ladder", "rig.yaml", "--pull", "1..9/4kN", "--at", "bow");
    for (const [i, past] of [null, "workingLoad", "breakingLoad"].entries())
      holds(rows[i].strength, 1000 + 4000 * i, past);
    const found = await ask(
      "find",
      "rig.yaml",
      "--unknown",
      "length:1",
      "--anchor-angle",
      "4 deg",
      "--pull",
      "9 kN",
      "--at",
      "bow",
    );
    holds(found.settled.strength, 9000, "breakingLoad");
    const matched = await ask("match", "rig.yaml", "rig.yaml", "--pull", "9 kN", "--at", "bow");
    holds(matched.rig.strength, 9000, "breakingLoad");
    holds(matched.other.strength, 9000, "breakingLoad");
    holds(matched.reverse.rig.strength, 9000, "breakingLoad");
  });

  it("is told of what a search finds, also where no strength is stated", async () => {
    const { out } = await rodebench(["find", "rig.yaml", "--unknown", "pull", "--anchor-angle", "10.5 deg"], FILES);
    expect(out).toMatch(/^breaks {12}part 1, thin chain/m);
    expect(unfolded(out)).toMatch(
      /^strength {10}part 2, bare joint: no strength is stated, so the answer may lie beyond what breaks$/m,
    );
  });

  it("is told of a ladder once, with the row from which it holds", async () => {
    const { out } = await rodebench(["ladder", "rig.yaml", "--pull", "1..9/2kN", "--at", "bow"], FILES);
    expect(out.match(/^overloaded /gm)).toHaveLength(1);
    expect(out.match(/^breaks /gm)).toHaveLength(1);
    expect(unfolded(out)).toMatch(/^breaks .* 8000 N, first with 8\d\d\d N at the anchor$/m);
  });
});

describe("a scope to be found", () => {
  it("is the whole length over the rise, its longest line paid out, and settles at the angle asked", async () => {
    const argv = ["find", "rig.yaml", "--unknown", "scope", "--anchor-angle", "4 deg", "--pull", "3 kN", "--at", "bow"];
    const found = JSON.parse((await rodebench([...argv, "--json"], FILES)).out);
    expect(found).toMatchObject({ unknown: "scope", unit: "1" });
    expect(Math.abs(found.settled.scope - found.value)).toBeLessThan(1e-9);
    expect(Math.abs(found.settled.anchor.angle_deg - 4)).toBeLessThan(1e-6);
    const byLength = JSON.parse(
      (await rodebench([...argv.map((a) => (a === "scope" ? "length:1" : a)), "--json"], FILES)).out,
    );
    // 9 m from the anchor to the roller.
    expect(Math.abs(byLength.value / 9 - found.value)).toBeLessThan(1e-9);
    expect((await rodebench(argv, FILES)).out).toMatch(/^scope {13}[\d.]+ : 1$/m);
  });
});
