import { randomBytes } from "node:crypto";
import { open, rename, rm } from "node:fs/promises";

/** Writes a whole file or nothing: through a temporary beside it, on the disk before it takes its name. */
export async function writeWhole(target: string, content: string | Uint8Array): Promise<void> {
  const beside = `${target}.${randomBytes(4).toString("hex")}.part`;
  try {
    const file = await open(beside, "wx");
    try {
      await file.writeFile(content);
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(beside, target);
  } catch (error) {
    await rm(beside, { force: true });
    throw error;
  }
}
