import { stringify } from "yaml";
import { DEGREES } from "../../quantity/index.ts";
import { type Rig, rigToFields } from "../../rode/index.ts";
import { RUN_FORMAT, type Run } from "./run-file.ts";

/** A run with its rig inside, as a run file that reads back the same: SI, angles in degrees. */
export function writeRun(run: Run, rig: Rig): string {
  const { load, angle, movement, gaugeZero, tapeZero } = run.uncertainty;
  const stated = {
    ...(load > 0 ? { load: `${load} N` } : {}),
    ...(angle > 0 ? { angle: `${angle * DEGREES} deg` } : {}),
    ...(movement > 0 ? { movement: `${movement} m` } : {}),
    ...(gaugeZero > 0 ? { gaugeZero: `${gaugeZero * DEGREES} deg` } : {}),
    ...(tapeZero === undefined ? {} : { tapeZero: `${tapeZero} m` }),
  };
  return stringify(
    {
      format: RUN_FORMAT,
      name: run.name,
      rig: rigToFields(rig),
      loadCellAt: run.loadCellAt,
      angleAt: run.angleAt,
      units: { load: "N", angle: "deg", movement: "m" },
      ...(Object.keys(stated).length === 0 ? {} : { uncertainty: stated }),
      ...(run.readings.length === 0
        ? {}
        : {
            readings: run.readings.map((row) => ({
              load: row.load,
              ...(row.angle === undefined ? {} : { angle: row.angle * DEGREES }),
              ...(row.liftoff ? { event: "liftoff" } : {}),
            })),
          }),
      ...(run.release.length === 0 ? {} : { release: run.release.map(({ load, movement }) => ({ load, movement })) }),
    },
    { lineWidth: 0 },
  );
}
