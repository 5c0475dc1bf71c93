/** A clip with alpha of a sequence of pictures, by ffmpeg where it is installed. */
import { spawn, spawnSync } from "node:child_process";
import { InputError, quoted } from "../quantity/index.ts";

/** Codecs that keep alpha and that film programs read, by the name a user knows them by. */
export const CODECS = {
  prores: ["-c:v", "prores_ks", "-profile:v", "4444", "-pix_fmt", "yuva444p10le", "-vendor", "apl0"],
  qtrle: ["-c:v", "qtrle", "-pix_fmt", "argb"],
} as const;

/** @throws InputError in one line where there is no ffmpeg, or the file is none it can hold alpha in */
export function checkClip(file: string): void {
  if (!/\.mov$/i.test(file)) throw new InputError("--clip", quoted(file), "a file name that ends in .mov is expected");
  if (spawnSync("ffmpeg", ["-version"], { stdio: "ignore" }).error !== undefined)
    throw new InputError(
      "--clip",
      "ffmpeg is not installed",
      "ffmpeg (apt-get install ffmpeg), or the sequence of pictures alone, is expected",
    );
}

/** @param rate frames a second as ffmpeg reads it: `30000/1001` */
export async function writeClip(
  frames: string,
  rate: string,
  codec: keyof typeof CODECS,
  file: string,
  stop: AbortSignal,
): Promise<void> {
  const argv = [
    "-nostdin",
    "-y",
    "-v",
    "error",
    "-framerate",
    rate,
    "-start_number",
    "0",
    "-i",
    frames,
    ...CODECS[codec],
  ];
  const encoder = spawn("ffmpeg", [...argv, "-movflags", "+write_colr", file], { stdio: ["ignore", "ignore", "pipe"] });
  let told = "";
  encoder.stderr.on("data", (piece: Buffer) => {
    told = `${told}${piece.toString("utf8")}`.slice(-2000);
  });
  const end = (): void => void encoder.kill();
  stop.addEventListener("abort", end, { once: true });
  const status = await new Promise<number | null>((done, fail) => {
    encoder.on("error", fail);
    encoder.on("close", done);
  });
  stop.removeEventListener("abort", end);
  if (status !== 0 && !stop.aborted) {
    const last = told.trim().split("\n").at(-1) ?? "";
    throw new InputError("--clip", `ffmpeg ended with ${status}: ${last}`, "an ffmpeg with that codec is expected");
  }
}
