import { spawn } from "node:child_process";

/** The program that opens an address in the user's browser, by system. */
export function browserCommand(platform: NodeJS.Platform, address: string): readonly [string, readonly string[]] {
  if (platform === "win32") return ["cmd", ["/c", "start", '""', address]];
  if (platform === "darwin") return ["open", [address]];
  return ["xdg-open", [address]];
}

/** Attempts to open an address in the user's browser; where there is none, the printed address serves. */
export function openInBrowser(address: string): void {
  const [program, parameters] = browserCommand(process.platform, address);
  const child = spawn(program, parameters, { stdio: "ignore", detached: true });
  child.on("error", () => undefined);
  child.unref();
}
