/** The overlay as the command writes it: pictures, their times, a clip by whatever ffmpeg is there. */
import { chmodSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import Papa from "papaparse";
import { afterAll, describe, expect, it } from "vitest";
import { rodebench, root } from "../support/command-line.ts";
import { schemaTroubles } from "../support/schema-troubles.ts";

const folder = mkdtempSync(join(tmpdir(), "overlay-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const LOG = join(root, "data/examples/logs/unit-column.csv");
const RIG = join(root, "data/examples/rigs/all-chain-afloat.yaml");

const machine = (stop?: AbortSignal, onWrite: (count: number) => void = () => undefined) => {
  let written = 0;
  return {
    cwd: folder,
    ...(stop === undefined ? {} : { stop }),
    write: async (path: string, content: string | Uint8Array) => {
      writeFileSync(resolve(folder, path), content);
      onWrite(++written);
    },
  };
};
const overlay = (...argv: string[]) => rodebench(["publish", "overlay", LOG, "--rig", RIG, ...argv], {}, machine());
const times = (into: string): Record<string, string>[] =>
  Papa.parse<Record<string, string>>(readFileSync(join(folder, into, "frames.csv"), "utf8"), {
    header: true,
    skipEmptyLines: true,
  }).data;

describe("publish overlay", () => {
  it("writes a transparent picture a frame, each at its time in clip and log, the same again", async () => {
    const argv = [
      "--clip-rate",
      "30000/1001",
      "--cuts",
      "0..2,300..303",
      "--mark",
      "0.5 s",
      "--mark-frame",
      "10",
      "--size",
      "640x360",
    ];
    const said = await overlay(...argv, "--to", "one", "--json");
    expect(said.err).toBe("");
    const told = JSON.parse(said.out) as object;
    expect(schemaTroubles("overlay-published@1", told)).toEqual([]);
    expect(told).toMatchObject({ frames: 5, of: 5, stopped: false, rate: { frames: 30000, per_s: 1001 }, clip: null });
    const pictures = readdirSync(join(folder, "one")).filter((name) => name.endsWith(".png"));
    expect(pictures).toEqual([0, 1, 2, 3, 4].map((frame) => `frame-00000${frame}.png`));
    for (const name of pictures) {
      const png = readFileSync(join(folder, "one", name));
      expect([png.readUInt32BE(16), png.readUInt32BE(20)]).toEqual([640, 360]);
      // Colour type 6: with alpha.
      expect(png[25]).toBe(6);
    }
    const rows = times("one");
    expect(rows.map(({ clipFrame }) => Number(clipFrame))).toEqual([0, 1, 300, 301, 302]);
    // Frame 300: 300 · 1001/30000 s of the clip, ten frames later than the mark at 0.5 s of the log.
    expect(rows[2]).toMatchObject({ clip_s: "10.010000000", log_s: "10.176333333" });
    // Before the log begins nothing is told, and nothing made up.
    expect(rows[0]).toMatchObject({ log_s: "0.166333333" });
    expect(Number(rows[2]!.load_N)).toBeGreaterThan(2000);
    await overlay(...argv, "--to", "two");
    for (const name of [...pictures, "frames.csv"])
      expect(readFileSync(join(folder, "two", name))).toEqual(readFileSync(join(folder, "one", name)));
  });

  it("stops when asked to, and says how far it came", async () => {
    const stop = new AbortController();
    const said = await rodebench(
      ["publish", "overlay", LOG, "--rig", RIG, "--clip-rate", "25", "--size", "320x180", "--to", "stopped", "--json"],
      {},
      machine(stop.signal, (count) => {
        if (count === 3) stop.abort();
      }),
    );
    const told = JSON.parse(said.out) as { frames: number; of: number; stopped: boolean; clip: null };
    expect(told.stopped).toBe(true);
    expect(told.frames).toBe(3);
    // A log of 19.5 s at 25 frames a second.
    expect(told.of).toBe(488);
    expect(times("stopped")).toHaveLength(3);
  });

  it("hands the pictures to ffmpeg with the rate as a fraction, and says in one line where there is none or it fails", async () => {
    const argv = ["--clip-rate", "29.97", "--frames", "2", "--size", "320x180"];
    const before = process.env.PATH;
    const bin = join(folder, "bin");
    mkdirSync(bin);
    try {
      process.env.PATH = bin;
      const none = await overlay(...argv, "--to", "none", "--clip", "o.mov");
      expect(none.err).toBe(
        "--clip: ffmpeg is not installed; ffmpeg (apt-get install ffmpeg), or the sequence of pictures alone, is expected\n",
      );
      expect(none.status).toBe(2);
      // A stand-in that notes what it is given: the encoder itself is no part of this program.
      const notes = join(folder, "notes");
      writeFileSync(join(bin, "ffmpeg"), `#!/bin/sh\necho "$@" >> '${notes}'\n`);
      chmodSync(join(bin, "ffmpeg"), 0o755);
      const made = await overlay(...argv, "--to", "made", "--clip", "o.mov", "--json");
      expect(made.err).toBe("");
      expect(JSON.parse(made.out)).toMatchObject({ clip: "o.mov", frames: 2 });
      const asked = readFileSync(notes, "utf8").trim().split("\n").at(-1)!;
      expect(asked).toContain(
        `-framerate 30000/1001 -start_number 0 -i ${join(folder, "made")}/frame-%06d.png -c:v prores_ks`,
      );
      expect(asked).toContain("yuva444p10le");
      writeFileSync(
        join(bin, "ffmpeg"),
        "#!/bin/sh\n[ \"$1\" = -version ] && exit 0\necho 'no such codec' >&2\nexit 1\n",
      );
      const failed = await overlay(...argv, "--to", "failed", "--clip", "o.mov");
      expect(failed.err).toBe("--clip: ffmpeg ended with 1: no such codec; an ffmpeg with that codec is expected\n");
    } finally {
      process.env.PATH = before;
    }
  });

  it("refuses what it cannot read, in one line", async () => {
    const cases: [argv: string[], line: string][] = [
      [
        ["--clip-rate", "fast"],
        '--clip-rate: "fast"; frames a second from 0.1 to 1000 are expected, such as 25 or 30000/1001\n',
      ],
      [
        ["--clip-rate", "25", "--size", "10x10"],
        '--size: "10x10"; a width and a height from 160 to 8192 pixels are expected, such as 1920x1080\n',
      ],
      [["--clip-rate", "25", "--share", "2 %"], '--share: "2 %"; a share from 10 % to 90 % is expected\n'],
      [
        ["--clip-rate", "25", "--mark", "900 s"],
        "--mark: the clip begins after the log ends; a mark within the log is expected\n",
      ],
      [["--clip-rate", "25", "--frames", "0"], '--frames: "0"; a number of frames above zero is expected\n'],
      [["--clip-rate", "25", "--frames", "9999999"], "--frames: 9999999; at most 1000000 frames are expected\n"],
      [["--clip-rate", "25", "--clip", "o.mp4"], '--clip: "o.mp4"; a file name that ends in .mov is expected\n'],
    ];
    for (const [argv, line] of cases) {
      const { err, status } = await overlay(...argv, "--to", "wrong");
      expect(err).toBe(line);
      expect(status).toBe(2);
    }
    mkdirSync(join(folder, "full"));
    writeFileSync(join(folder, "full", "mine.txt"), "x");
    expect((await overlay("--clip-rate", "25", "--frames", "1", "--to", "full")).err).toBe(
      "full: there is something already; a new or empty folder is expected\n",
    );
  });
});
