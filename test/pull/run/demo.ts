/** Runs for the tests, as files a tester would write. */
import { type Run, readRun } from "../../../src/pull/index.ts";
import type { Rig } from "../../../src/rode/index.ts";

export function given(text: string): { run: Run; rig: Rig } {
  const { run, rig } = readRun(text, "run.yaml");
  if (rig.kind !== "within") throw new Error("the rig is expected within the run");
  return { run, rig: rig.rig };
}

export interface Loads {
  readonly at?: "anchor" | "bow";
  readonly setting?: string;
  readonly line?: string;
  readonly rigUncertainty?: string;
  readonly u?: string;
  readonly loads: readonly number[];
}

/** A run of loads alone, for carrying: 30 m of rigid 2.3 kg/m line over a rise of 9 m in air. */
export function loads({
  at = "bow",
  setting = "{ medium: air, rise: 9 m }",
  line = "{ name: chain, length: 30 m, massPerLength: 2.3 kg/m, density: 7850 kg/m3 }",
  rigUncertainty = "",
  u = "",
  loads: newtons,
}: Loads): { run: Run; rig: Rig } {
  return given(`format: rodebench/run@1
rig:
  format: rodebench/rig@1
  name: Rig
  setting: ${setting}
  rode: [{ line: ${line} }]
${rigUncertainty === "" ? "" : `  uncertainty: ${rigUncertainty}`}
loadCellAt: ${at}
${u === "" ? "" : `uncertainty: ${u}`}
readings: [${newtons.map((load) => `{ load: "${load} N", angle: 0 }`).join(", ")}]
`);
}
