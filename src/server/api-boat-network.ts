import { Hono } from "hono";
import { quoted } from "../quantity/index.ts";
import { atTheComputerOnly } from "./at-the-computer.ts";
import type { BoatNetwork } from "./boat-network.ts";
import { Refusal } from "./refusals.ts";
import type { BenchEnv } from "./request-context.ts";

const atTheComputer = atTheComputerOnly("boat network");

/** Who is let in, new codes and withdrawing: at the computer only, whatever key a device holds. */
export function boatNetworkTopic(network: BoatNetwork) {
  return new Hono<BenchEnv>()
    .use("/boat-network/*", atTheComputer)
    .get("/boat-network", atTheComputer, (c) =>
      c.json({
        open: network.addresses.length > 0,
        addresses: network.addresses,
        codeUntil: network.code.until ?? null,
        exposes: network.exposes,
        fingerprint: network.fingerprint ?? null,
        devices: network.devices.list(),
      }),
    )
    .delete("/boat-network", atTheComputer, async (c) => {
      await network.close(2_000);
      return c.json({ open: false });
    })
    .post("/boat-network/code", (c) => {
      if (network.addresses.length === 0) {
        throw new Refusal(409, "boat network", "closed", "open it first, with `rodebench open --boat-network`");
      }
      return c.json(network.code.issue());
    })
    .delete("/boat-network/devices/:id", (c) => {
      const id = c.req.param("id");
      if (!network.devices.withdraw(id)) throw new Refusal(404, "device", quoted(id), "a device that is let in");
      return c.json({ withdrawn: id });
    });
}
