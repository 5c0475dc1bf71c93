import { afterEach, describe, expect, it, vi } from "vitest";
import type { Io } from "../../src/cli/io.ts";
import { workLine } from "../../src/cli/progress.ts";
import { terminalIo } from "../../src/cli/terminal-io.ts";

function drawn(isTerminal: boolean): { readonly io: Io; readonly lines: string[] } {
  const lines: string[] = [];
  const io = { ...terminalIo(), isTerminal, redraw: (line: string) => lines.push(line) } as unknown as Io;
  return { io, lines };
}

afterEach(() => {
  vi.useRealTimers();
});

describe("the line of a calculation", () => {
  it("says nothing in its first second, then how far it is, and is taken away at its end", () => {
    vi.useFakeTimers({ now: 0 });
    const { io, lines } = drawn(true);
    const line = workLine("13000 loads", io);
    line.show(1, 4);
    vi.setSystemTime(999);
    line.show(2, 4);
    expect(lines).toEqual([]);
    vi.setSystemTime(1001);
    line.show(3, 4);
    line.show(3, 4);
    line.end();
    expect(lines).toEqual(["13000 loads: 75 %; ctrl-c stops", ""]);
  });

  it("says nothing where no terminal looks on, nor of what took no second", () => {
    vi.useFakeTimers({ now: 0 });
    for (const isTerminal of [true, false]) {
      const { io, lines } = drawn(isTerminal);
      const line = workLine("loads", io);
      if (!isTerminal) vi.setSystemTime(60_000);
      line.show(1, 2);
      line.end();
      expect(lines).toEqual([]);
    }
  });
});

describe("ctrl-c", () => {
  it("is left to the system, which ends a command at once and quietly, until a command asks to be told of it", () => {
    const before = process.listenerCount("SIGINT");
    const io = terminalIo();
    expect(process.listenerCount("SIGINT")).toBe(before);
    expect(io.stop.aborted).toBe(false);
    expect(io.stop.aborted).toBe(false);
    expect(process.listenerCount("SIGINT")).toBe(before + 1);
    process.removeAllListeners("SIGINT");
  });
});
