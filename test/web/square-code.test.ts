import { describe, expect, it } from "vitest";
import { addressCode } from "../../src/cli/address-code.ts";
import { squareCode } from "../../src/web/days/devices/square-code.ts";
import { readSquareCode } from "../support/read-square-code.ts";

const SCALE = 4;

/** What an independent reader makes of dark modules on white; null when it finds no code. */
function read(size: number, dark: (x: number, y: number) => boolean): string | null {
  const side = size * SCALE;
  const pixels = new Uint8ClampedArray(side * side * 4).fill(255);
  for (let y = 0; y < side; y++)
    for (let x = 0; x < side; x++)
      if (dark(Math.floor(x / SCALE), Math.floor(y / SCALE)))
        pixels.fill(0, (y * side + x) * 4, (y * side + x) * 4 + 3);
  return readSquareCode(pixels, side, side);
}

const addresses = [
  "http://192.168.7.20:7633",
  "https://192.168.7.20:7633",
  "https://10.0.0.1:65535",
  "http://169.254.255.254:49152",
  "https://172.31.255.255:7633",
];

describe("an address as a QR code", () => {
  it.each(addresses)("%s is read by another program's reader from the drawn path", (address) => {
    const { size, path } = squareCode(address);
    const dark = new Set<number>();
    for (const [, x, y, length] of path.matchAll(/M(\d+) (\d+)h(\d+)v1h-\3z/g))
      for (let i = 0; i < Number(length); i++) dark.add(Number(y) * size + Number(x) + i);
    expect(path.replace(/M\d+ \d+h(\d+)v1h-\1z/g, "")).toBe("");
    expect(read(size, (x, y) => dark.has(y * size + x))).toBe(address);
    // Four light modules all round.
    const places = [...dark].map((at) => [at % size, Math.floor(at / size)] as const);
    for (const [x, y] of places) for (const at of [x, y]) expect(at >= 4 && at < size - 4).toBe(true);
    expect(Math.min(...places.map(([x]) => x))).toBe(4);
  });
  it.each(addresses)("%s is read from what a terminal shows, which is dark on light by its own colours", (address) => {
    const lines = addressCode(address).trimEnd().split("\n");
    const rows = lines.flatMap((line) => {
      expect(line.startsWith("\u001b[30;107m") && line.endsWith("\u001b[0m")).toBe(true);
      const cells = [...line.slice("\u001b[30;107m".length, -"\u001b[0m".length)];
      return [cells.map((cell) => "█▀".includes(cell)), cells.map((cell) => "█▄".includes(cell))];
    });
    const size = rows[0]!.length;
    expect(read(size + 1, (x, y) => rows[y]?.[x] ?? false)).toBe(address);
    // A terminal of 80 columns holds it.
    expect(size).toBeLessThan(60);
  });
  it("a drop on the screen, among the modules of the address, leaves it readable", () => {
    const { size, path } = squareCode(addresses[1]!);
    const dark = new Set<number>();
    for (const [, x, y, length] of path.matchAll(/M(\d+) (\d+)h(\d+)/g))
      for (let i = 0; i < Number(length); i++) dark.add(Number(y) * size + Number(x) + i);
    // All light where the drop lies; some of it was dark.
    const under = (x: number, y: number) => x >= 13 && x < 18 && y >= 13 && y < 17;
    expect([...dark].filter((at) => under(at % size, Math.floor(at / size))).length).toBeGreaterThan(4);
    expect(read(size, (x, y) => !under(x, y) && dark.has(y * size + x))).toBe(addresses[1]);
  });
});
