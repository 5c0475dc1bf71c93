/** The words of an answer hold the numbers of its JSON: each row, in the order and the units they are told in. */
import { describe, expect, it } from "vitest";
import { formatQuantity, significant } from "../../src/quantity/index.ts";
import { rodebench } from "../support/command-line.ts";

/** Runs of blanks and line breaks are one blank: columns are set by their longest cell. */
const plain = (text: string): string => text.replace(/\s+/g, " ").trim();
const force = (value: number, u?: number) => formatQuantity(value, "force", u === undefined || !(u > 0) ? {} : { u });
const rough = (value: number, dimension: "force" | "length") => formatQuantity(value, dimension, { digits: 3 });
const degrees = (value: number) => formatQuantity((value * Math.PI) / 180, "angle", { digits: 2 });

describe("a pull's log in words", () => {
  // The log begins at 40 s of its clock, so that a time told from the first reading is another number.
  const rows = Array.from({ length: 1400 }, (_, i) => {
    const t = i / 10;
    const held = t < 15 || t > 125 ? 0 : t < 60 ? 1500 : t < 100 ? 2600 : 900;
    const wobble = 20 * Math.sin(2.1 * t) + 12 * Math.sin(5.3 * t);
    return `${(40 + t).toFixed(1)},${(held + (held > 0 ? wobble : wobble / 6) + (i === 700 ? 1500 : 0)).toFixed(2)}`;
  });
  const files = { "pull.csv": `time (s),load (N)\n${rows.join("\n")}\n` };
  const ask = (...options: string[]) => rodebench(["trace", "pull.csv", ...options], files);

  it("has every plateau, peak, sustained load and drag of the answer, times from the first reading", async () => {
    const {
      log,
      plateaus,
      peaks,
      sustained,
      drags,
      filter,
      zero,
      held,
      held: _,
    } = JSON.parse((await ask("--json")).out);
    const text = plain((await ask()).out);
    expect(log.from_s).toBe(40);
    const at = (t: number) => (t - 40).toFixed(1);
    expect(text).toContain(`pull.csv: 1400 readings of load in 139.9 s, 10 a second; read at the bow`);
    expect(plateaus.length).toBeGreaterThan(1);
    const found = plateaus.map(
      (p: Record<string, number>) => `${at(p.from_s!)} ${at(p.to_s!)} ${force(p.load_N!, p.u_N)} `,
    );
    for (const row of found) expect(text).toContain(row);
    for (let i = 1; i < found.length; i++) expect(text.indexOf(found[i]!)).toBeGreaterThan(text.indexOf(found[i - 1]!));
    // A minute's change in per cent of the load: sixty times the change in a second, a hundred times its share.
    for (const p of plateaus) {
      const row = text.slice(text.indexOf(`${at(p.from_s)} ${at(p.to_s)} ${force(p.load_N, p.u_N)}`));
      const [, value, u] = /± [\d.]+ N (−?-?[\d.]+) ± ([\d.]+) %/.exec(row)!;
      const [creep, sure] = [(6000 * p.creep_N_per_s) / p.load_N, (6000 * p.creepU_N_per_s) / p.load_N];
      expect(Math.abs(Number(u) / sure - 1)).toBeLessThan(0.06);
      expect(Math.abs(Number(value!.replace("−", "-")) - creep)).toBeLessThan(0.06 * sure + 1e-9);
    }
    expect(peaks.length).toBeGreaterThan(0);
    for (const p of peaks)
      expect(text).toContain(
        `${at(p.at_s)}${p.alone ? "?" : ""} ${force(p.load_N, p.u_N)} ${force(p.filtered_N)} ${p.above
          .map((a: { duration_s: number }) => significant(a.duration_s, 2))
          .join(" ")}`,
      );
    for (const s of sustained) expect(text).toContain(`${s.for_s} s ${force(s.load_N, s.u_N)} ${at(s.from_s)}`);
    expect(drags.length).toBeGreaterThan(0);
    for (const d of drags) expect(text).toContain(`${at(d.from_s)} ${at(d.to_s)} ${force(d.load_N, d.u_N)}`);
    expect(text).toContain(`half the power at ${significant(filter.bandwidth_Hz, 2)} Hz`);
    for (const k of filter.keeps) expect(text).toContain(`${Math.round(100 * k.share)} % at ${k.peak_s} s`);
    if (zero.kind === "drifting") expect(text).toContain(`Zero: ${force(zero.before.read_N, zero.before.u_N)} before`);
    expect(held.kind).toBe("gaveWay");
    expect(text).toContain(`It gave way at ${force(held.load_N, held.u_N)}, read at the bow`);
  });

  it("has each step of a protocol, by how much it was missed and which way", async () => {
    const { protocol } = JSON.parse((await ask("--json", "--steps", "1.4 kN:30 s,2.7 kN:60 s,9 kN:10 s")).out);
    const text = plain((await ask("--steps", "1.4 kN:30 s,2.7 kN:60 s,9 kN:10 s")).out);
    const steps = protocol.steps as { planned: Record<string, number>; outcome: Record<string, number | string> }[];
    expect(steps).toHaveLength(3);
    // 1500 and 2600 N were held.
    expect(text).toMatch(/1400 N 30(?:\.0)? s (?:held|cut short at) [\d.]+ s, (?:6\.\d|7\.\d) % above plan/);
    expect(text).toMatch(/2700 N 60(?:\.0)? s cut short at [\d.]+ s, (?:3\.\d|4\.\d) % below plan/);
    expect(text).toMatch(/9000 N 10(?:\.0)? s not reached/);
  });

  it("says the same in pounds", async () => {
    const { sustained } = JSON.parse((await ask("--json")).out);
    const text = plain((await ask("--units", "us")).out);
    for (const s of sustained)
      expect(text).toContain(`${s.for_s} s ${formatQuantity(s.load_N, "force", { system: "us", u: s.u_N })} `);
  });
});

describe("a ride in words", () => {
  const argv = (...options: string[]) => [
    ...["ride", "data/demo/marsh-tern-rode.yaml", "--boat", "data/boats/marsh-tern.yaml"],
    ...["--wind", "18 kn", "--hours", "0.04", "--seed", "3", ...options],
  ];
  it("has the loads, angles and ways of the answer, and its trace the same moments in degrees", async () => {
    const written = new Map<string, string>();
    const write = async (path: string, content: string | Uint8Array) => void written.set(path, String(content));
    const answer = JSON.parse((await rodebench(argv("--json", "--trace", "ride.csv"), {}, { write })).out);
    const text = plain((await rodebench(argv())).out);
    expect(text).toContain("mean wind 18 kn, gusts by froya, no sea; 2 min ridden, seed 3");
    for (const end of ["bow", "anchor"] as const) {
      const { mean_N, u_N, deviation_N, largest_N } = answer[end];
      expect(text).toContain(
        `at the ${end} mean ${force(mean_N, u_N)}, scatter ${rough(deviation_N, "force")}, largest ${rough(largest_N, "force")}`,
      );
    }
    const { largest_deg, atLargestLoad_deg } = answer.anchorAngle;
    expect(text).toContain(
      `angle at the anchor largest ${degrees(largest_deg)}; at the largest load ${degrees(atLargestLoad_deg)}`,
    );
    const share = 100 * answer.liftedShare;
    expect(text).toContain(`anchor's end lifted ${share.toFixed(share < 10 ? 1 : 0)} % of the time`);
    expect(text).toContain(`windage is known to ${(100 * answer.windage_u).toFixed(0)} %`);

    const rows = written
      .get("ride.csv")!
      .trim()
      .split("\n")
      .map((line) => line.split(","));
    const [names, ...moments] = rows as [string[], ...string[][]];
    const column = (name: string) => moments.map((row) => Number(row[names.indexOf(name)]));
    const [angle, bow, anchor] = [column("anchorAngle_deg"), column("bow_N"), column("anchor_N")];
    expect(Math.max(...angle) / largest_deg).toBeCloseTo(1, 3);
    expect(Math.max(...bow) / answer.bow.largest_N).toBeCloseTo(1, 6);
    expect(Math.max(...anchor) / answer.anchor.largest_N).toBeCloseTo(1, 6);
    // Between the two ends the pull turns upward; degrees, of a boat that heads about north.
    const last = moments.length - 1;
    expect(column("bowAngle_deg")[last]!).toBeGreaterThan(angle[last]!);
    expect(Math.max(...column("bowAngle_deg"))).toBeGreaterThan(10);
    expect(Math.max(...column("heading_deg").map(Math.abs))).toBeGreaterThan(5);
    const away = moments.map((_, i) => Math.hypot(column("x_m")[i]!, column("y_m")[i]!));
    expect(text).toContain(`sideways; ${rough(Math.max(...away), "length")} from the anchor at most`);
    expect(text).toContain(`${rough(Math.max(...column("y_m").map(Math.abs)), "length")} sideways`);
    expect(column("time_s").at(-1)! - column("time_s")[0]!).toBeCloseTo(answer.seconds_s, 0);
  });
});

describe("an equilibrium in words", () => {
  const sloping = `format: rodebench/rig@1
name: Down a slope
setting: { medium: water, depth: 6 m, rollerHeight: 1.2 m, bottomSlope: -4 deg, bottomFriction: 0.5 }
rode:
  - chain: { grade: "30", size: 10 mm, length: 30 m }
`;
  it.each([
    ["data/demo/gantry-rig.yaml", "anchor", "1200 N"],
    ["data/demo/gantry-rig-afloat.yaml", "bow", "1200 N"],
    ["slope.yaml", "bow", "500 N"],
    ["slope.yaml", "bow", "9 kN"],
  ])("%s, pulled at the %s by %s, holds the numbers of its JSON", async (rig, at, load) => {
    const argv = ["settle", rig, "--pull", load, "--at", at];
    const files = { "slope.yaml": sloping };
    const settled = JSON.parse((await rodebench([...argv, "--json"], files)).out);
    const text = plain((await rodebench(argv, files)).out);
    /** What a label is followed by, in SI; degrees as they are. */
    const after = (label: string): number[] => {
      const rest = text.slice(text.indexOf(label) + label.length);
      return [...rest.matchAll(/(?<![± \d.]{2})([−-]?[\d.]+)(?: ± [\d.]+)? ?(kN|N|mm|m|°|kJ|J|:)/g)]
        .slice(0, 3)
        .map(([, value, unit]) => Number(value!.replace("−", "-")) * ({ kN: 1e3, kJ: 1e3, mm: 1e-3 }[unit!] ?? 1));
    };
    const holds = (label: string, ...values: number[]) => {
      expect(text, label).toContain(label);
      const found = after(label);
      // A number is shown to the second digit of its ±, which here is some hundredths of it at the most.
      for (const [k, value] of values.entries())
        expect(Math.abs(found[k]! - value), `${label} ${k}: ${text}`).toBeLessThan(0.012 * Math.abs(value) + 0.06);
    };
    holds("at the anchor ", settled.anchor.tension_N, settled.anchor.angle_deg);
    holds("at the bow ", settled.bow.tension_N, settled.bow.angle_deg);
    holds("horizontal force ", settled.horizontal_N);
    holds("span ", settled.span_m);
    holds(rig.includes("gantry-rig.yaml") ? "on the ground " : "on the bottom ", settled.grounded_m, settled.lifted_m);
    holds("stretch ", settled.stretch_m);
    holds("sag ", settled.sag_m);
    holds("scope ", settled.scope);
    holds("energy ", settled.energy_J.lift, settled.energy_J.stretch);
    const told = / \(([−-]?[\d.]+)° to the bottom\)/.exec(text);
    if (rig !== "slope.yaml") expect(told).toBeNull();
    else expect(Math.abs(Number(told![1]!.replace("−", "-")) - settled.anchor.angleToBottom_deg)).toBeLessThan(0.05);
  });
});
