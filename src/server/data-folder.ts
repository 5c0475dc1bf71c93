import { join } from "node:path";

/** What the place of a user's data depends on. */
export interface Surroundings {
  readonly platform: NodeJS.Platform;
  readonly home: string;
  readonly env: Readonly<Record<string, string | undefined>>;
}

/**
 * The folder for a user's own data, by the habit of the system: the embedded book, the devices let in, the authority.
 * @source XDG Base Directory Specification 0.8 (recalled): an XDG_DATA_HOME that is not absolute is ignored
 */
export function dataFolder({ platform, home, env }: Surroundings): string {
  if (platform === "win32") return join(env.APPDATA || join(home, "AppData", "Roaming"), "rodebench");
  if (platform === "darwin") return join(home, "Library", "Application Support", "rodebench");
  const given = env.XDG_DATA_HOME ?? "";
  return join(given.startsWith("/") ? given : join(home, ".local", "share"), "rodebench");
}
