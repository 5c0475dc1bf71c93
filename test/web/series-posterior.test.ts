/** The place's answer from the book's pulls is the command's from the same pulls: one model, one seed, one simulation. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readPullsTable } from "../../src/holding/index.ts";
import { drawnChain } from "../../src/web/holding/work.ts";
import { seriesPosterior } from "../../src/web/series/series-work.ts";
import { rodebench } from "../support/command-line.ts";

const TEXT = readFileSync("data/series/creek-trial.yaml", "utf8");
/** Invented: eight pulls of the two anchors. */
const TABLE = [
  "anchor,heldTo_N,gaveWayBy_N,anchorAngle_deg",
  ...["Plough A,1500,1500,5", "Plough A,1700,1700,3", "Plough A,1400,1400,8", "Plough A,1800,,2"],
  ...["Scoop B,2100,2100,5", "Scoop B,1900,1900,8", "Scoop B,2400,,3", "Scoop B,2200,2200,4"],
  "",
].join("\n");

const rowsOf = (text: string) =>
  text
    .trim()
    .split("\n")
    .map((line) => line.split(","));

describe("how many pulls would tell, by the book's pulls", () => {
  it("is what the command works out from the same pulls, each chain drawn by whoever is asked", async () => {
    const { pulls } = readPullsTable(rowsOf(TABLE), "held.csv");
    const chains: number[] = [];
    const answer = await seriesPosterior(TEXT, pulls, async (input, plan, chain) => {
      chains.push(chain);
      return drawnChain(input, plan, chain, () => {});
    });
    if (answer.kind !== "drawn" || answer.power.kind !== "told") throw new Error("an answer is expected");
    expect(chains.slice(0, 4).sort()).toEqual([0, 1, 2, 3]);
    const { out, err } = await rodebench(["series", "s.yaml", "--book", "held.csv", "--posterior", "--json"], {
      "s.yaml": TEXT,
      "held.csv": TABLE,
    });
    expect(err).toBe("");
    const told = JSON.parse(out) as { power: { from: string; enough: number | null; rows: { share: number }[] } };
    expect(answer.power.from).toBe("posterior");
    expect(told.power.from).toBe("posterior");
    expect(answer.power.rows.map(({ share }) => share)).toEqual(told.power.rows.map(({ share }) => share));
    expect(answer.power.enough).toBe(told.power.enough);
    expect(answer.next.length).toBeGreaterThan(0);
  });

  it("is refused where the book holds no pull of these anchors", async () => {
    const { pulls } = readPullsTable(rowsOf("anchor,heldTo_N,gaveWayBy_N\nAnother,1500,1500\n"), "held.csv");
    const never = () => Promise.reject(new Error("no chain is expected"));
    expect(await seriesPosterior(TEXT, pulls, never)).toEqual({ kind: "noPulls" });
  });
});
