import { type NetworkInterfaceInfo, networkInterfaces } from "node:os";

/**
 * This computer's addresses on private networks, as they may be typed into another device's browser.
 * Public addresses are left out: a boat's own network has none, and the bench must not stand open to the world.
 * IPv4 only, because an IPv6 link-local address cannot be typed into a browser.
 * @source IETF RFC 1918 (10/8, 172.16/12, 192.168/16) and RFC 3927 (169.254/16), recalled
 */
export function boatAddresses(
  interfaces: Readonly<Record<string, readonly NetworkInterfaceInfo[] | undefined>> = networkInterfaces(),
): string[] {
  return Object.values(interfaces)
    .flatMap((addresses) => addresses ?? [])
    .filter((one) => one.family === "IPv4" && !one.internal && isPrivate(one.address))
    .map((one) => one.address);
}

/** Whether an IPv4 address belongs to a private network. */
export function isPrivate(address: string): boolean {
  const parts = address.split(".").map(Number);
  if (parts.length !== 4 || parts.some((part) => !Number.isInteger(part) || part < 0 || part > 255)) return false;
  const [a, b] = parts as [number, number, number, number];
  return a === 10 || (a === 172 && b >= 16 && b <= 31) || (a === 192 && b === 168) || (a === 169 && b === 254);
}
