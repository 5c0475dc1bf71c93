import { expect, it } from "vitest";
import { commandNamed, commands } from "../../src/cli/commands.ts";
import type { Io } from "../../src/cli/io.ts";
import { rodebench } from "../support/command-line.ts";

it("each command is listed by the name it answers to", async () => {
  const silent = { out: () => undefined, err: () => undefined } as unknown as Io;
  expect(Object.keys(commands).length).toBeGreaterThan(10);
  for (const [name, { about }] of Object.entries(commands)) {
    const command = await commandNamed(name, silent);
    expect(command.name()).toBe(name);
    expect(command.description()).toBe(about);
  }
  // Every command's file is read here; on a busy machine that takes its time.
}, 300_000);

it("help lists every command in that order, and a wrong one is told with where they stand", async () => {
  const { out } = await rodebench(["--help"]);
  const listed = [...out.split("Exit status")[0]!.matchAll(/^ {2}(\w+) /gm)]
    .map(([, name]) => name)
    .filter((name) => name !== "help");
  expect(listed).toEqual(Object.keys(commands));
  for (const line of out.split("\n")) expect(line.length, line).toBeLessThanOrEqual(80);
  for (const status of [0, 1, 2, 3, 4]) expect(out).toMatch(new RegExp(`^  ${status}  `, "m"));
  expect(await rodebench(["setle"])).toMatchObject({ status: 2 });
  expect((await rodebench(["toString"])).err).toContain("unknown command 'toString'");
  expect((await rodebench([])).status).toBe(2);
});
