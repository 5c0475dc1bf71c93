import { describe, expect, it } from "vitest";
import { ABOUT, idMaker, isId } from "../../src/record/index.ts";

const ports = (times: number[], random = (count: number) => new Uint8Array(count).fill(0xff)) => ({
  clock: () => times.shift()!,
  random,
});

describe("an id", () => {
  it("is a UUID of version 7: 48 bits of ms, version, counter, variant, chance (RFC 9562, 5.7; recalled)", () => {
    const asked: number[] = [];
    const random = (count: number) => {
      asked.push(count);
      return Uint8Array.from({ length: count }, (_, i) => 0x10 * (i + 1) + i);
    };
    expect(idMaker(ports([0x0123_4567_89ab], random))()).toBe("01234567-89ab-7000-9021-324354657687");
    expect(asked).toEqual([8]);
    // Two bits of the variant are set, whatever chance says.
    expect(idMaker(ports([1], () => new Uint8Array(8)))()).toBe("00000000-0001-7000-8000-000000000000");
    expect(idMaker(ports([1]))()).toBe("00000000-0001-7000-bfff-ffffffffffff");
  });

  it("counts up within a millisecond, and goes on into the next when the counter is full", () => {
    const make = idMaker(ports(Array.from({ length: 5000 }, () => 7.9)));
    const made = Array.from({ length: 4098 }, make);
    expect(made[1]!.slice(0, 18)).toBe("00000000-0007-7001");
    expect(made[4095]!.slice(0, 18)).toBe("00000000-0007-7fff");
    expect(made[4096]!.slice(0, 18)).toBe("00000000-0008-7000");
    expect(made[4097]!.slice(0, 18)).toBe("00000000-0008-7001");
    expect([...made].sort()).toEqual(made);
  });

  it("sorts after those before also when the clock is set back, or before 1970", () => {
    const make = idMaker(ports([1000, 500, 1001, -5]));
    const made = [make(), make(), make(), make()];
    expect([...made].sort()).toEqual(made);
    expect(made.map((id) => id.slice(9, 18))).toEqual(["03e8-7000", "03e8-7001", "03e9-7000", "03e9-7001"]);
    expect(idMaker(ports([-5]))().slice(0, 18)).toBe("00000000-0000-7001");
  });

  it.each([ABOUT, "01970001-0000-7000-8000-000000000000", "01970001-0000-7fff-bfff-ffffffffffff"])("may be %s", (id) =>
    expect(isId(id)).toBe(true),
  );
  it.each([
    "",
    "01970001-0000-4000-8000-000000000000",
    "01970001-0000-7000-7000-000000000000",
    "01970001-0000-7000-c000-000000000000",
    "01970001-0000-7000-8000-00000000000",
    "01970001-0000-7000-8000-0000000000000",
    "x01970001-0000-7000-8000-000000000000",
    "01970001-0000-7000-8000-000000000000\n",
    "01970001-0000-7000-8000-00000000000A",
    "0197000100007000800000000000000000",
    "../../../x",
    7,
    null,
    undefined,
    // Each of these reads as an id once it is made a text.
    [ABOUT],
    new String(ABOUT),
    { toString: () => ABOUT },
  ])("cannot be %j", (text) => expect(isId(text)).toBe(false));
});
