import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { type ModelInput, readPullsTable, type SamplingPlan, USUAL_PRIORS } from "../../src/holding/index.ts";
import { readRig } from "../../src/rode/index.ts";
import { readBoat } from "../../src/sea/index.ts";
import type { Chain } from "../../src/statistics/index.ts";
import { chainPool, type DrawChain, withShare } from "../../src/web/holding/chain-pool.ts";
import { drawnChain, holdingInquiry } from "../../src/web/holding/work.ts";
import { rodebench } from "../support/command-line.ts";

const read = (path: string): string => readFileSync(path, "utf8");
const table = "data/examples/holding/three-anchors.csv";
const plan: SamplingPlan = { chains: 4, warmUp: 10, draws: 10, seed: 1, acceptance: 0.9 };
const input = {} as ModelInput;

/** A worker that answers when told to, and counts how many chains it draws at once. */
function slowWorker() {
  const waiting: (() => void)[] = [];
  let most = 0;
  let now = 0;
  const draw: DrawChain = async (_input, _plan, chain) => {
    most = Math.max(most, ++now);
    await new Promise<void>((go) => waiting.push(go));
    now--;
    return { length: chain } as Chain;
  };
  return { draw, waiting, most: () => most };
}

describe("chains of a question, drawn by several workers", () => {
  it("go each to the next worker that is free, never two to one at once", async () => {
    const workers = [slowWorker(), slowWorker()];
    const pool = chainPool(workers.map(({ draw }) => draw));
    const drawn = Promise.all([0, 1, 2, 3].map((chain) => pool(input, plan, chain, () => {})));
    let answered = 0;
    while (answered < 4) {
      await Promise.resolve();
      for (const { waiting } of workers) {
        const go = waiting.shift();
        if (go === undefined) continue;
        answered++;
        go();
      }
    }
    expect((await drawn).map(({ length }) => length)).toEqual([0, 1, 2, 3]);
    expect(workers.map(({ most }) => most())).toEqual([1, 1]);
  });

  it("of which one fails fail the question and leave their worker to the next", async () => {
    let asked = 0;
    const pool = chainPool([
      async (_input, _plan, chain) => {
        if (++asked === 1) throw new Error("the worker ended");
        return { length: chain } as Chain;
      },
    ]);
    await expect(pool(input, plan, 0, () => {})).rejects.toThrow("the worker ended");
    expect((await pool(input, plan, 1, () => {})).length).toBe(1);
  });

  it("tell the share of all of them that is done", async () => {
    const told: number[] = [];
    const draw = withShare(
      async (_input, _plan, chain, tell) => {
        tell(10);
        tell(20);
        return { length: chain } as Chain;
      },
      4,
      (share) => told.push(share),
    );
    for (const chain of [0, 1]) await draw(input, plan, chain, () => {});
    // Four models of four chains.
    expect(told.map((share) => 32 * share)).toEqual([1, 2, 2, 3, 4, 4]);
  });

  it("conclude to the last digit what the command does from the same seed", async () => {
    const said = await rodebench(["compare", table, "--seed", "3", "--json"]);
    const command = JSON.parse(said.out) as {
      posterior: { law: string; rHatWorst: number; divergent: number };
      pairs: { moreInTheMean: number; moreInOnePull: number }[];
    };
    const { pulls } = readPullsTable(
      read(table)
        .trim()
        .split("\n")
        .map((line) => line.split(",")),
      table,
    );
    const asked = {
      pulls,
      names: pulls.map((_, i) => `pull ${i}`),
      ...{ chance: 0.9, angle: null, mass: null, load: null, priors: USUAL_PRIORS, seed: 3, units: "metric" as const },
      wind: {
        boat: readBoat(read("data/boats/marsh-tern.yaml"), "boat"),
        rig: readRig(read("data/demo/marsh-tern-rode.yaml"), "rig"),
        winds: [],
      },
    };
    const worker: DrawChain = async (...given) => drawnChain(...given);
    const pool = chainPool([worker, worker, worker]);
    const { concluded } = await holdingInquiry(asked, (...given) => pool(...given, () => {}));
    expect(concluded!.law).toBe(command.posterior.law);
    expect(concluded!.rHat).toBe(command.posterior.rHatWorst);
    expect(concluded!.pairs.map(({ moreInTheMean, moreInOnePull }) => ({ moreInTheMean, moreInOnePull }))).toEqual(
      command.pairs.map(({ moreInTheMean, moreInOnePull }) => ({ moreInTheMean, moreInOnePull })),
    );
  });
});
