// The 27 models of the NIST StRD nonlinear sets, as printed in the files, and their reader.
import { readFileSync } from "node:fs";

export interface NistSet {
  readonly name: string;
  readonly level: string;
  readonly y: number[];
  /** Predictors of each observation. */
  readonly x: number[][];
  readonly starts: [number[], number[]];
  readonly certified: number[];
  readonly deviations: number[];
  readonly sum: number;
  readonly scatter: number;
  readonly dof: number;
}

type Model = (b: ArrayLike<number>, x: number[]) => number;

const misra: Model = (b, [x]) => b[0]! * -Math.expm1(-b[1]! * x!);
const chwirut: Model = (b, [x]) => Math.exp(-b[0]! * x!) / (b[1]! + b[2]! * x!);
const gauss: Model = (b, [x]) =>
  b[0]! * Math.exp(-b[1]! * x!) +
  b[2]! * Math.exp(-(((x! - b[3]!) / b[4]!) ** 2)) +
  b[5]! * Math.exp(-(((x! - b[6]!) / b[7]!) ** 2));
const lanczos: Model = (b, [x]) =>
  b[0]! * Math.exp(-b[1]! * x!) + b[2]! * Math.exp(-b[3]! * x!) + b[4]! * Math.exp(-b[5]! * x!);
const cubic: Model = (b, [x]) =>
  (b[0]! + x! * (b[1]! + x! * (b[2]! + x! * b[3]!))) / (1 + x! * (b[4]! + x! * (b[5]! + x! * b[6]!)));
const turn = 2 * Math.PI;

export const models: Record<string, Model> = {
  Bennett5: (b, [x]) => b[0]! * (b[1]! + x!) ** (-1 / b[2]!),
  BoxBOD: misra,
  Chwirut1: chwirut,
  Chwirut2: chwirut,
  DanWood: (b, [x]) => b[0]! * x! ** b[1]!,
  ENSO: (b, [x]) =>
    b[0]! +
    b[1]! * Math.cos((turn * x!) / 12) +
    b[2]! * Math.sin((turn * x!) / 12) +
    b[4]! * Math.cos((turn * x!) / b[3]!) +
    b[5]! * Math.sin((turn * x!) / b[3]!) +
    b[7]! * Math.cos((turn * x!) / b[6]!) +
    b[8]! * Math.sin((turn * x!) / b[6]!),
  Eckerle4: (b, [x]) => (b[0]! / b[1]!) * Math.exp(-0.5 * ((x! - b[2]!) / b[1]!) ** 2),
  Gauss1: gauss,
  Gauss2: gauss,
  Gauss3: gauss,
  Hahn1: cubic,
  Kirby2: (b, [x]) => (b[0]! + x! * (b[1]! + x! * b[2]!)) / (1 + x! * (b[3]! + x! * b[4]!)),
  Lanczos1: lanczos,
  Lanczos2: lanczos,
  Lanczos3: lanczos,
  MGH09: (b, [x]) => (b[0]! * x! * (x! + b[1]!)) / (x! * (x! + b[2]!) + b[3]!),
  MGH10: (b, [x]) => b[0]! * Math.exp(b[1]! / (x! + b[2]!)),
  MGH17: (b, [x]) => b[0]! + b[1]! * Math.exp(-x! * b[3]!) + b[2]! * Math.exp(-x! * b[4]!),
  Misra1a: misra,
  Misra1b: (b, [x]) => b[0]! * (1 - (1 + (b[1]! * x!) / 2) ** -2),
  Misra1c: (b, [x]) => b[0]! * (1 - (1 + 2 * b[1]! * x!) ** -0.5),
  Misra1d: (b, [x]) => (b[0]! * b[1]! * x!) / (1 + b[1]! * x!),
  Nelson: (b, [x1, x2]) => b[0]! - b[1]! * x1! * Math.exp(-b[2]! * x2!),
  Rat42: (b, [x]) => b[0]! / (1 + Math.exp(b[1]! - b[2]! * x!)),
  Rat43: (b, [x]) => b[0]! / (1 + Math.exp(b[1]! - b[2]! * x!)) ** (1 / b[3]!),
  Roszman1: (b, [x]) => b[0]! - b[1]! * x! - Math.atan(b[2]! / (x! - b[3]!)) / Math.PI,
  Thurber: cubic,
};

/** Reads a set as published. The model of Nelson is for log[y]. */
export function readNistSet(name: string): NistSet {
  const lines = readFileSync(new URL(`../../data/published/nist-strd/${name}.dat`, import.meta.url), "utf8").split(
    /\r?\n/,
  );
  const rows = lines.flatMap((line) => {
    const found = /^\s*b\d+\s*=\s*(.+)$/.exec(line);
    return found === null ? [] : [numbers(found[1]!)];
  });
  const data = lines.slice(60).flatMap((line) => (line.trim() === "" ? [] : [numbers(line)]));
  const text = lines.join("\n");
  const y = data.map((row) => (name === "Nelson" ? Math.log(row[0]!) : row[0]!));
  const set: NistSet = {
    name,
    level: /(Lower|Average|Higher) Level/.exec(text)![1]!,
    y,
    x: data.map((row) => row.slice(1)),
    starts: [rows.map((row) => row[0]!), rows.map((row) => row[1]!)],
    certified: rows.map((row) => row[2]!),
    deviations: rows.map((row) => row[3]!),
    sum: Number(/Residual Sum of Squares:\s+(\S+)/.exec(text)![1]),
    scatter: Number(/Residual Standard Deviation:\s+(\S+)/.exec(text)![1]),
    dof: Number(/Degrees of Freedom:\s+(\d+)/.exec(text)![1]),
  };
  const observations = Number(/Number of Observations:\s+(\d+)/.exec(text)![1]);
  if (data.length !== observations) throw new Error(`${name}: ${data.length} rows read of ${observations}`);
  return set;
}

function numbers(line: string): number[] {
  return line.trim().split(/\s+/).map(Number);
}
