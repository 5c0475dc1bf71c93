/**
 * The tables that are the same for every kind of record, as the newest version keeps them. A transaction of the history
 * is a row of `act`: the name the file has had from its first version.
 */
export interface Tables {
  meta: { key: string; value: string };
  act: {
    seq: number;
    id: string;
    stamp: string;
    device: string;
    who: string;
    at: string;
    manner: string;
    label: string;
    reverts: string | null;
    crc: number;
  };
  change: {
    act: string;
    stamp: string;
    kind: string;
    record: string;
    field: string;
    was: string | null;
    value: string | null;
  };
  purged: { record: string; kind: string; stamp: string; device: string; who: string; at: string };
  file: { sha256: string; size: number; bytes: Uint8Array };
  log_content: { log: string; rows: number; position: number; state: string | null; finished: number };
  log_chunk: {
    log: string;
    n: number;
    rows: number;
    tMin: number;
    tMax: number;
    crc: number;
    bins: Uint8Array;
    times: Uint8Array;
  };
  log_column: {
    log: string;
    n: number;
    channel: string;
    vMin: number | null;
    vMax: number | null;
    crc: number;
    bins: Uint8Array;
    readings: Uint8Array;
  };
  log_overview: { log: string; channel: string; n: number; bins: Uint8Array };
  log_live: { log: string; n: number; t: number; crc: number; readings: Uint8Array };
}
