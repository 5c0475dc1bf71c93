/**
 * Cables and anchor lines of the books. Where a source poses what no rode is (two level supports), the check is of the
 * closed form every rode is made of, `advance` of piece.ts, with a Newton of this file's own around it; where it is an
 * anchor line, of `settle`. The digits called "computed" were solved from the same inputs apart from this project.
 */
import { describe, expect, it } from "vitest";
import { compile, type LinePart, type Pull, type Rig, type Settled, settle } from "../../src/rode/index.ts";
import { advance, DX, DZ, piece } from "../../src/rode/piece.ts";

/** Half of the last digit printed: all that a printed number says. */
function printed(found: number, expected: string): void {
  const decimals = /\.(\d*)/.exec(expected)?.[1]?.length ?? 0;
  // The rounding of the comparison itself, 1e-13 relative, comes on top.
  const half = 0.5 * 10 ** -decimals + 1e-13 * Math.abs(Number(expected));
  expect(Math.abs(found - Number(expected)), `${found} against ${expected}`).toBeLessThanOrEqual(half);
}

/** Newton with differences for as many equations as unknowns; each step is cut to half of the unknown. */
function solveFor(start: readonly number[], off: (at: readonly number[]) => number[]): number[] {
  let at = [...start];
  for (let turn = 0; turn < 60; turn++) {
    const f = off(at);
    const columns = at.map((value, j) => {
      const h = 1e-7 * (Math.abs(value) + 1e-3);
      const more = off(at.with(j, value + h));
      const less = off(at.with(j, value - h));
      return more.map((each, i) => (each - less[i]!) / (2 * h));
    });
    const step = eliminate(f.map((each, i) => [...columns.map((column) => column[i]!), -each]));
    const next = at.map(
      (value, j) => value + Math.sign(step[j]!) * Math.min(Math.abs(step[j]!), 0.5 * Math.abs(value)),
    );
    const settled = next.every((value, j) => Math.abs(value - at[j]!) <= 1e-14 * Math.abs(value));
    at = next;
    if (settled) break;
  }
  return at;
}

function eliminate(rows: number[][]): number[] {
  const n = rows.length;
  for (let i = 0; i < n; i++) {
    const pivot = rows.slice(i).reduce((best, row) => (Math.abs(row[i]!) > Math.abs(best[i]!) ? row : best));
    rows.splice(rows.indexOf(pivot), 1);
    rows.splice(i, 0, pivot);
    for (const row of rows) {
      if (row === pivot) continue;
      const factor = row[i]! / pivot[i]!;
      for (let j = i; j <= n; j++) row[j] = row[j]! - factor * pivot[j]!;
    }
  }
  return rows.map((row, i) => row[n]! / row[i]!);
}

/** A cable from its low point up to a support: half of one between level supports. */
function half(H: number, w: number, l: number, stiffness = Number.POSITIVE_INFINITY): { span: number; sag: number } {
  advance(H, 0, w, l, 0, 1 / stiffness);
  return { span: piece[DX]!, sag: piece[DZ]! };
}

/**
 * A cable between level supports, from two things said of it.
 * @returns its horizontal force, length, span, sag, greatest tension and H/w
 */
function levelCable(
  w: number,
  said: Partial<Record<"span" | "sag" | "length" | "tension" | "H", number>>,
  stiffness = Number.POSITIVE_INFINITY,
) {
  const of = (H: number, l: number) => {
    const { span, sag } = half(H, w, l, stiffness);
    return { H, length: 2 * l, span: 2 * span, sag, tension: Math.hypot(H, w * l), a: H / w };
  };
  const length = said.length ?? (said.span ?? 4 * said.sag!) * 1.1;
  const H0 = said.H ?? (said.tension === undefined ? 0.5 * w * length : 0.95 * said.tension);
  const [H, l] = solveFor([H0, 0.5 * length], (at) => {
    const found = of(at[0]!, at[1]!);
    return Object.entries(said).map(([what, value]) => found[what as keyof typeof said] / value - 1);
  });
  return of(H!, l!);
}

describe("Michalos & Birnstiel 1962, O'Brien & Francis 1964, Jayaraman & Knudson 1981: a point load on a hanging cable", () => {
  // Inputs as the later papers repeat them: recalled. Level supports, which a rode has not: posed on `advance`.
  const span = 304.8;
  const w = 46.12;
  const stiffness = 131e9 * 548.4e-6;
  const load = 35586;

  /** The two pieces from the left support, a load P between them. */
  const laid = (H: number, V: number, L1: number, L2: number, P: number) => {
    advance(H, V, w, L1, 0, 1 / stiffness);
    const [x, z] = [piece[DX]!, piece[DZ]!];
    advance(H, V + w * L1 + P, w, L2, 0, 1 / stiffness);
    return { x, z, endX: x + piece[DX]!, endZ: z + piece[DZ]! };
  };
  const settledUnder = (L1: number, L2: number, P: number) => {
    const [H, V] = solveFor([P > 0 ? 9e4 : 18e3, P > 0 ? -3e4 : -7e3], ([H, V]) => {
      const { endX, endZ } = laid(H!, V!, L1, L2, P);
      return [endX / span - 1, endZ / span];
    });
    return { H: H!, V: V!, ...laid(H!, V!, L1, L2, P) };
  };

  describe("by the sag under its own weight, 29.276 m at 121.92 m", () => {
    const [, , L1, L2] = solveFor([18e3, -7e3, 125, 187], ([H, V, L1, L2]) => {
      const { x, z, endX, endZ } = laid(H!, V!, L1!, L2!, 0);
      return [x / 121.92 - 1, z / 29.276 + 1, endX / span - 1, endZ / span];
    }) as [number, number, number, number];
    const dead = settledUnder(L1, L2, 0);
    const loaded = settledUnder(L1, L2, load);

    it("moves -5.626 m down and -0.859 m across (elastic catenary element; recalled)", () => {
      printed(loaded.z - dead.z, "-5.626");
      printed(loaded.x - dead.x, "-0.859");
    });
    it("has these lengths, forces and movements (computed)", () => {
      printed(L1, "125.84701162");
      printed(L2, "186.85526160");
      printed(dead.H, "17796.664");
      printed(loaded.H, "89442.555");
      printed(loaded.z - dead.z, "-5.625598");
      printed(loaded.x - dead.x, "-0.859366");
    });
  });

  it("by the rounded lengths 125.88 and 186.85 m moves these, which are not the published ones (computed)", () => {
    const dead = settledUnder(125.88, 186.85, 0);
    const loaded = settledUnder(125.88, 186.85, load);
    printed(-dead.z, "29.329");
    printed(dead.H, "17766.214");
    printed(loaded.H, "89297.758");
    printed(loaded.z - dead.z, "-5.631277");
    printed(loaded.x - dead.x, "-0.861452");
    printed(-loaded.V, "28695.258");
    printed(Math.hypot(loaded.H, loaded.V), "93795.03");
  });
});

describe("EDF, Code_Aster validation V6.02.114 (SSNL114): a heavy elastic cable between fixed ends", () => {
  const L = 162.5;
  const w = 2844.23 * 9.81 * 2.2783e-4;
  const stiffness = 5.7e10 * 2.2783e-4;
  const at = (kelvin: number) => levelCable(w, { span: 2 * L, length: 2 * L * (1 + 2.3e-5 * kelvin) }, stiffness);

  it("hangs 6.352 m at 0 K (seen)", () => printed(-at(0).sag, "-6.352"));
  it("hangs so with these digits at 0 K (computed)", () => {
    printed(at(0).a, "2077.46888");
    printed(-at(0).sag, "-6.35216147");
  });
  it("hangs so at 39.26 K more (computed)", () => {
    printed(at(39.26).a, "1611.12314");
    printed(-at(39.26).sag, "-8.19545175");
  });
});

describe("EDF, Code_Aster reference R3.08.05: an inextensible cable of 100 m span under an end tension", () => {
  const cable = levelCable(30, { span: 100, tension: 5000 });
  it("sags 7.941 m (seen)", () => printed(cable.sag, "7.941"));
  it("sags so with these digits, the shallow of two roots (computed)", () => {
    // The iteration that gave 158.72612963 stopped a unit of its last digit short (a cosh(50/a) = 5000/30 gives ...62030).
    expect(Math.abs(cable.a - 158.72612963)).toBeLessThan(1e-8);
    expect(Math.abs((cable.a * Math.cosh(50 / cable.a) * 30) / 5000 - 1)).toBeLessThan(1e-13);
    printed(cable.sag, "7.94053705");
  });
});

describe("EDF, Code_Aster validation V6.02.100 (SSNL100): two equal spans of 100 m with 10 m paid in", () => {
  const cable = levelCable(30, { span: 100, length: 105 }, 5e7);
  it("sag 13.930 m each by ten straight elements a span (seen)", () => {
    // Ten chords for a curve err by up to 1/10² of the sag; a tenth of that is asked.
    expect(Math.abs(cable.sag / 13.93 - 1)).toBeLessThan(1e-3);
  });
  it("sag so by the curve itself (computed)", () => {
    // As above: bisection of the textbook's two equations gives 13.93919335, half a unit and a little below the digits.
    expect(Math.abs(cable.sag - 13.939194)).toBeLessThan(1e-6);
    printed(cable.H, "2757.1078");
    const H = cable.H;
    expect(Math.abs((H / 30) * Math.asinh((30 * 52.5) / H) + (H * 52.5) / 5e7 - 50)).toBeLessThan(1e-11);
  });
});

describe("textbook catenaries that do not stretch", () => {
  describe("Beer & Johnston, Vector Mechanics: Statics, sample problem: 3 lb/ft over 500 ft with 100 ft of sag", () => {
    const cable = levelCable(3, { span: 500, sag: 100 });
    it("c 328 ft, 984 lb to 1284 lb, 550 ft long (recalled)", () => {
      printed(cable.a, "328");
      printed(cable.H, "984");
      printed(cable.tension, "1284");
      printed(cable.length, "550");
    });
    it("with these digits (computed)", () => {
      printed(cable.a, "327.931293");
      printed(cable.H, "983.793880");
      printed(cable.tension, "1283.793880");
      printed(cable.length, "549.859104");
    });
  });

  describe("Hibbeler, Statics, cable under its own weight: 5 N/m over 20 m with 6 m of sag", () => {
    const cable = levelCable(5, { span: 20, sag: 6 });
    it("45.9 N to 75.9 N, 24.2 m long, 9.19 [cosh(0.109 x) - 1] (recalled)", () => {
      printed(cable.H, "45.9");
      printed(cable.tension, "75.9");
      printed(cable.length, "24.2");
      printed(cable.a, "9.19");
      printed(1 / cable.a, "0.109");
    });
    it("with these digits (computed)", () => {
      printed(cable.a, "9.188941402");
      printed(cable.H, "45.944707");
      printed(cable.length, "24.188203");
      printed(cable.tension, "75.944707");
    });
  });

  describe("university lecture 6.7 Cables: Catenaries, example 1: 140 m of 3 kg/m over 120 m", () => {
    const cable = levelCable(3 * 9.81, { span: 120, length: 140 });
    it("c 61.45 m, sag 31.70 m (seen)", () => {
      printed(cable.a, "61.45");
      printed(cable.sag, "31.70");
    });
    it("with these digits (computed)", () => {
      printed(cable.a, "61.44573045");
      printed(cable.sag, "31.69705129");
      printed(cable.tension, "2741.192067");
    });
  });

  describe("Karnovsky & Lebed, Advanced Methods of Structural Analysis, example 5.3: 1.25 kN/m over 20 m", () => {
    const cable = levelCable(1.25, { span: 20, H: 5.6 });
    it("with 5.6 kN across: a 4.48 m, y(10) 21.11 m, f 16.63 m (seen)", () => {
      printed(cable.a, "4.48");
      // The book cuts its digits off instead of rounding them: a whole last digit.
      expect(Math.abs(cable.a + cable.sag - 21.11)).toBeLessThan(0.01);
      expect(Math.abs(cable.sag - 16.63)).toBeLessThan(0.01);
    });
    it("with these digits (computed)", () => {
      printed(cable.a + cable.sag, "21.11673534");
      printed(cable.sag, "16.63673534");
      printed(cable.length, "41.27207828");
      printed(cable.tension, "26.39591917");
    });
    it("with 42 m of it (computed)", () => {
      const longer = levelCable(1.25, { span: 20, length: 42 });
      printed(longer.a, "4.42006212");
      printed(longer.H, "5.52507765");
      printed(longer.sag, "17.04006251");
    });
  });

  describe("Beer & Johnston 10e, problems (statements seen, answers computed)", () => {
    it("7.127: a 25 ft chain of 30 lb with 10 ft of sag", () => {
      const cable = levelCable(30 / 25, { length: 25, sag: 10 });
      printed(cable.span, "12.35938825");
      printed(cable.tension, "15.375");
      printed(cable.a, "2.8125");
    });
    it("7.128: 500 ft of 2.8 lb/ft with 125 ft of sag", () => {
      const cable = levelCable(2.8, { length: 500, sag: 125 });
      printed(cable.span, "411.97960825");
      // Exact: T = w (l²/4 + f²)/(2 f).
      expect(Math.abs(cable.tension / 875 - 1)).toBeLessThan(1e-12);
    });
    it("7.130: a 50 m tape of 1.6 kg pulled with 60 N", () => {
      printed(levelCable((1.6 * 9.81) / 50, { length: 50, tension: 60 }).span, "49.85607089");
    });
  });
});

/** Standard gravity, CGPM 1901: what a mass is divided by here to have a stated weight. */
const g = 9.80665;

/** An anchor line of a stated weight per length, as a rode in air that weighs so. */
function anchorLine(w: number, length: number, rise: number, stiffness?: number, friction = 0): Rig {
  return {
    name: "anchor line",
    setting: { medium: "air", rise, bottomSlope: 0, bottomFriction: friction },
    rode: [
      {
        kind: "line",
        name: "line",
        length,
        massPerLength: w / g,
        density: 7850,
        stretch: stiffness === undefined ? { kind: "rigid" } : { kind: "linear", stiffness },
      },
    ],
    uncertainty: {},
  };
}

function settled(rig: Rig, pull: Pull): Settled {
  const answer = settle(rig, pull);
  if (answer.kind !== "settled") throw new Error(answer.cause);
  return answer;
}

describe("Faltinsen, Sea Loads, ch. 8; MIT OpenCourseWare 2.019, lecture 13: an anchor line under 1510 kN", () => {
  const line = settled(anchorLine(828, 400, 25), { at: "bow", newtons: 1.51e6 });
  it("lifts 300.93 m of line (seen)", () => printed(line.lifted, "300.93"));
  it("lifts so with these digits (computed)", () => {
    printed(line.lifted, "300.92951813");
    printed(line.horizontal, "1489300");
    printed(line.span - line.grounded, "299.54300240");
    printed(line.bow.tension * Math.sin(line.bow.angle), "249169.641");
    expect(line.anchor.angle).toBe(0);
  });
});

/** Three lines 120° apart on a platform moved by (surge, heave): the forces they put on it. */
interface Platform {
  readonly w: number;
  readonly length: number;
  readonly rise: number;
  readonly stiffness: number;
  readonly anchorRadius: number;
  readonly fairleadRadius: number;
  readonly friction: number;
  /** Bearings of the lines from surge, rad. */
  readonly bearings: readonly number[];
}

function forcesOn(platform: Platform, surge: number, heave: number): { F1: number; F3: number } {
  const { w, length, rise, stiffness, anchorRadius, fairleadRadius, friction, bearings } = platform;
  const rig = anchorLine(w, length, rise + heave, stiffness, friction);
  let [F1, F3] = [0, 0];
  for (const bearing of bearings) {
    const x = (anchorRadius - fairleadRadius) * Math.cos(bearing) - surge;
    const y = (anchorRadius - fairleadRadius) * Math.sin(bearing);
    const line = settled(rig, { at: "span", metres: Math.hypot(x, y) });
    F1 += (line.horizontal * x) / Math.hypot(x, y);
    F3 -= line.bow.tension * Math.sin(line.bow.angle);
  }
  return { F1, F3 };
}

/** Central differences over half a metre either way, N/m. */
const linear = (platform: Platform) => ({
  C11: forcesOn(platform, -0.5, 0).F1 - forcesOn(platform, 0.5, 0).F1,
  C33: forcesOn(platform, 0, -0.5).F3 - forcesOn(platform, 0, 0.5).F3,
});
const third = (2 * Math.PI) / 3;

describe("OC3-Hywind mooring, NREL/TP-500-47535 (Jonkman 2010)", () => {
  // Length, weight, stiffness and places seen, quoted from the report.
  const spar: Platform = {
    w: 698.094,
    length: 902.2,
    rise: 320 - 70,
    stiffness: 384_243_000,
    anchorRadius: 853.87,
    fairleadRadius: 5.2,
    friction: 0,
    bearings: [0, third, -third],
  };

  it("weighs 698.0945 N/m in water by its mass and diameter (computed; both seen)", () => {
    const area = (Math.PI / 4) * 0.09 ** 2;
    const line: LinePart = {
      kind: "line",
      name: "line",
      length: 1,
      massPerLength: 77.7066,
      density: 77.7066 / area,
      stretch: { kind: "rigid" },
    };
    const setting = {
      medium: "water",
      depth: 250,
      rollerHeight: 0,
      waterDensity: 1025,
      bottomSlope: 0,
      bottomFriction: 0,
      current: 0,
    } as const;
    printed(compile({ name: "", setting, rode: [line], uncertainty: {} }).low[0]!, "698.0945");
  });

  it("spans these by hand when wholly lifted, V = H = 1.1 L w at the fairlead (seen: a unit test's hand values)", () => {
    const { w, length, stiffness } = spar;
    const pull = 1.1 * length * w;
    advance(pull, pull - length * w, w, length, 0, 0);
    printed(piece[DX]!, "784.5965853");
    printed(piece[DZ]!, "406.9813526");
    const [x, z] = [piece[DX]!, piece[DZ]!];
    advance(pull, pull - length * w, w, length, 0, 1 / stiffness);
    printed(piece[DX]! - x, "1.626695524");
    printed(piece[DZ]! - z, "0.887288467");
    printed(piece[DX]!, "786.223281");
    printed(piece[DZ]!, "407.868641");
  });
  it("spans so with these digits (computed)", () => {
    const { w, length, stiffness } = spar;
    const pull = 1.1 * length * w;
    advance(pull, pull - length * w, w, length, 0, 1 / stiffness);
    printed(piece[DX]!, "786.22328083");
    printed(piece[DZ]!, "407.86864107");
  });

  it("pulls so by each line at rest (computed)", () => {
    const { w, length, rise, stiffness, anchorRadius, fairleadRadius } = spar;
    const line = settled(anchorLine(w, length, rise, stiffness), { at: "span", metres: anchorRadius - fairleadRadius });
    printed(line.horizontal, "736938.3");
    printed(line.bow.tension * Math.sin(line.bow.angle), "535727.5");
    printed(line.bow.tension, "911088.4");
    printed((line.bow.angle * 180) / Math.PI, "36.0158");
    printed(line.grounded, "134.7855");
  });

  it("pulls down with 1,607,000 N and is as stiff as 41,180 and 11,940 N/m by three lines (recalled)", () => {
    // Four digits each: half of the last.
    expect(Math.abs(forcesOn(spar, 0, 0).F3 + 1_607_000)).toBeLessThan(500);
    const { C11, C33 } = linear(spar);
    expect(Math.abs(C11 - 41_180)).toBeLessThan(5);
    expect(Math.abs(C33 - 11_940)).toBeLessThan(5);
  });
  it("does so with these digits (computed)", () => {
    printed(forcesOn(spar, 0, 0).F3, "-1607182");
    const { C11, C33 } = linear(spar);
    printed(C11, "41184.7");
    printed(C33, "11941.5");
  });
  it.each([
    [10, "-380666", "-1627086"],
    [20, "-741752", "-1684813"],
    [30, "-1204533", "-1826690"],
  ])("holds %d m of surge with %s N and pulls with %s N (computed)", (surge, F1, F3) => {
    const found = forcesOn(spar, surge, 0);
    printed(found.F1, F1);
    printed(found.F3, F3);
  });
});

describe("OC4-DeepCwind mooring, NREL/TP-5000-60601 (Robertson et al. 2014)", () => {
  // Diameter, mass and stiffness seen, geometry recalled.
  const floating = (friction: number): Platform => ({
    // The independent solution took g = 9.81.
    w: 108.63 * 9.81,
    length: 835.5,
    rise: 200 - 14,
    stiffness: 753.6e6,
    anchorRadius: 837.6,
    fairleadRadius: 40.868,
    friction,
    bearings: [0.5 * third, 1.5 * third, 2.5 * third],
  });
  const oneLine = (friction: number) => {
    const { w, length, rise, stiffness, anchorRadius, fairleadRadius } = floating(friction);
    return settled(anchorLine(w, length, rise, stiffness, friction), {
      at: "span",
      metres: anchorRadius - fairleadRadius,
    });
  };

  it("pulls so by one line without friction (computed)", () => {
    const line = oneLine(0);
    printed(line.horizontal, "900931.9");
    printed(line.bow.tension * Math.sin(line.bow.angle), "629176.8");
    printed(line.bow.tension, "1098882");
    printed(line.grounded, "245.090");
  });
  it("pulls and holds so by three lines without friction (computed)", () => {
    printed(forcesOn(floating(0), 0, 0).F3, "-1887531");
    const { C11, C33 } = linear(floating(0));
    printed(C11, "70158");
    printed(C33, "19087");
  });
  it("pulls so by one line with a friction of 1, and holds so by three (computed)", () => {
    const line = oneLine(1);
    printed(line.bow.tension, "1100813");
    printed(line.anchor.tension, "642288");
    printed(linear(floating(1)).C11, "70039");
  });
});

describe("scope: a straight rode pulls its anchor at asin(1/scope) (computed, exact)", () => {
  it.each([
    [3, "19.471"],
    [4, "14.478"],
    [5, "11.537"],
    [7, "8.213"],
    [8, "7.181"],
    [10, "5.739"],
  ])("%d: %s degrees, which a rode of any weight comes near only from below", (scope, degrees) => {
    const rise = 10;
    const angleAt = (share: number) => {
      const w = 20;
      const rig = anchorLine(w, scope * rise, rise);
      const { anchor } = settled(rig, { at: "horizontal", newtons: w * scope * rise * share });
      return (anchor.angle * 180) / Math.PI;
    };
    const bound = (Math.asin(1 / scope) * 180) / Math.PI;
    printed(bound, degrees);
    const angles = [0.1, 1, 3, 10, 100, 1e4].map(angleAt);
    for (const [i, angle] of angles.entries()) {
      expect(angle).toBeLessThan(bound);
      if (i > 0) expect(angle).toBeGreaterThanOrEqual(angles[i - 1]!);
    }
    // The last millionth is what the weight still bends.
    expect(bound - angleAt(1e6)).toBeLessThan((1e-6 * 180) / Math.PI);
  });
});
