/** Logs of sentences, deltas and tracks composed by chance, each with what is true of it and what of it is open. */
import type { Composed } from "./composed-tables.ts";
import { Chance, pullOf, two } from "./dice.ts";

const START = Date.UTC(2023, 7, 9, 10, 20, 0) / 1000;

/** `$body*hh`: the exclusive or of the bytes between. */
function sentence(body: string, sign = "$"): string {
  let sum = 0;
  for (const c of body) sum ^= c.charCodeAt(0);
  return `${sign}${body}*${sum.toString(16).toUpperCase().padStart(2, "0")}`;
}

const dm = (degrees: number, width: number) => {
  const whole = Math.floor(Math.abs(degrees));
  return `${String(whole).padStart(width, "0")}${((Math.abs(degrees) - whole) * 60).toFixed(5).padStart(8, "0")}`;
};
const clock = (t: number) => {
  const d = new Date((START + t) * 1000);
  return `${two(d.getUTCHours())}${two(d.getUTCMinutes())}${two(d.getUTCSeconds())}.00`;
};
const stamp = (t: number) => new Date((START + t) * 1000).toISOString();

interface Walk {
  readonly latitude: number[];
  readonly longitude: number[];
}

function walk(dice: Chance, rows: number, latitude: number, longitude: number): Walk {
  let [a, b] = [latitude, longitude];
  const all: Walk = { latitude: [], longitude: [] };
  for (let i = 0; i < rows; i++) {
    all.latitude.push(Number(a.toFixed(6)));
    all.longitude.push(Number(b.toFixed(6)));
    a += (dice.next() - 0.4) * 1e-5;
    b += (dice.next() - 0.4) * 1e-5;
  }
  return all;
}

export function composeSentences(seed: number): Composed {
  const dice = new Chance(seed);
  const rows = 20 + dice.below(30);
  const [latitude, longitude] = [(dice.next() - 0.5) * 120, (dice.next() - 0.5) * 340];
  const own = walk(dice, rows, latitude, longitude);
  const other = walk(dice, rows, latitude + 0.0004, longitude - 0.0003);
  const { newtons } = pullOf(dice, rows);
  const loads = newtons.map((load) => Math.round(load));
  const talker = dice.pick(["GP", "GN", "GL"]);
  const kind = dice.pick([
    "one",
    "one",
    "twoReceivers",
    "repeater",
    "twoCells",
    "others",
    "broken",
    "standIn",
  ] as const);
  const out: string[] = [];
  const fix = (who: string, walked: Walk, i: number, type: string) => {
    const [lat, lon] = [walked.latitude[i]!, walked.longitude[i]!];
    const where = `${dm(lat, 2)},${lat < 0 ? "S" : "N"},${dm(lon, 3)},${lon < 0 ? "W" : "E"}`;
    if (type === "GLL") return sentence(`${who}GLL,${where},${clock(i)},A,A`);
    return sentence(`${who}RMC,${clock(i)},A,${where},0.2,90.0,090823,,,A`);
  };
  const load: [number, number][] = [];
  for (let i = 0; i < rows; i++) {
    out.push(fix(talker, own, i, "RMC"));
    if (kind === "twoReceivers") out.push(fix(talker === "GP" ? "GN" : "GP", other, i, "RMC"));
    if (kind === "repeater") out.push(fix("II", other, i, "GLL"));
    if (kind === "others")
      out.push(
        "!AIVDM,1,1,,B,15M67FC000G?ufbE`FepT@3n00Sa,0*5C",
        sentence("RATTM,01,0.2,190.8,T,12.1,109.7,T,0.1,0.5,N,TGT01,T,,100021.00,A"),
      );
    if (kind === "broken" && i % 7 === 3) out.push(fix(talker, own, i, "RMC").slice(0, 20), "log opened");
    const stands = kind === "standIn" && i === 9;
    out.push(sentence(`YXXDR,N,${stands ? 32767 : loads[i]},N,${kind === "twoCells" ? "PORT" : "CELL"}`));
    if (kind === "twoCells") out.push(sentence(`YXXDR,N,${Math.round(loads[i]! / 2)},N,STBD`));
    if (!stands) load.push([START + i, loads[i]!]);
  }
  const asked = { twoReceivers: /2 sources/, repeater: /2 sources/, twoCells: /2 transducers/ }[kind as "repeater"];
  const told = kind === "twoCells" ? ["--load-path", "PORT"] : asked ? ["--source", talker] : [];
  const places = (list: readonly number[]) => list.map((value, i): [number, number] => [START + i, value]);
  return {
    name: `sentences ${seed}: ${kind}, ${talker}`,
    bytes: new TextEncoder().encode(`${out.join(dice.pick(["\n", "\r\n"]))}\n`),
    must: asked ? [asked] : [],
    may: [],
    told,
    truth: { clock: "utc", load, more: { latitude: places(own.latitude), longitude: places(own.longitude) } },
    says: kind === "broken" ? [/lines not read/] : kind === "standIn" ? [/stands for no reading/] : [],
  };
}

export function composeDeltas(seed: number): Composed {
  const dice = new Chance(seed);
  const rows = 20 + dice.below(30);
  const own = walk(dice, rows, 41.5, -71.3);
  const { newtons } = pullOf(dice, rows);
  const loads = newtons.map((value) => Math.round(value * 10) / 10);
  const kind = dice.pick(["one", "twoSources", "vessels", "hello", "unsaid", "panel", "openPath", "twoPaths"] as const);
  const id = "vessels.urn:mrn:imo:mmsi:230000001";
  const context =
    { one: undefined, hello: id, unsaid: id }[kind as "one"] ?? (kind === "vessels" ? "vessels.self" : undefined);
  const path =
    kind === "openPath" ? "sensors.three.load" : dice.pick(["anchor.rode.load", "bow.cell.tension", "mooring.pull"]);
  const out: string[] = kind === "hello" ? [JSON.stringify({ name: "server", self: id, version: "2.1.0" })] : [];
  const delta = (i: number, values: object, source: string, of = context) =>
    JSON.stringify({
      ...(of === undefined ? {} : { context: of }),
      updates: [
        {
          $source: source,
          timestamp: stamp(i),
          values: Object.entries(values).map(([name, value]) => ({ path: name, value })),
        },
      ],
    });
  const place = (i: number, off = 0) => ({
    "navigation.position": { latitude: own.latitude[i]! + off, longitude: own.longitude[i]! },
  });
  for (let i = 0; i < rows; i++) {
    out.push(delta(i, place(i), "gps.a"));
    if (kind === "twoSources") out.push(delta(i, place(i, 0.0004), "gps.b"));
    if (kind === "vessels" || kind === "hello" || kind === "unsaid")
      out.push(delta(i, place(i, 0.1), "ais.c", `vessels.urn:mrn:imo:mmsi:23099999${i % 3}`));
    out.push(delta(i, { [path]: loads[i] }, "cell.d"));
    if (kind === "panel")
      out.push(delta(i, { "electrical.batteries.house.load": 12, "electrical.solar.1.load": 40 }, "bus.e"));
    if (kind === "twoPaths") out.push(delta(i, { "anchor.second.load": loads[i]! / 3 }, "cell.f"));
  }
  const open: Partial<Record<typeof kind, [RegExp, string[]]>> = {
    twoSources: [/2 sources/, ["--source", "gps.a"]],
    unsaid: [/vessels speak/, ["--context", id]],
    openPath: [/may or may not be the load/, ["--load-path", path]],
    twoPaths: [/2 paths hold a load/, ["--load-path", path]],
  };
  const at = (list: readonly number[]) => list.map((value, i): [number, number] => [START + i, value]);
  return {
    name: `deltas ${seed}: ${kind}, ${path}`,
    bytes: new TextEncoder().encode(`${out.join("\n")}\n`),
    must: open[kind] ? [open[kind][0]] : [],
    may: [],
    told: open[kind]?.[1] ?? [],
    truth: { clock: "utc", load: at(loads), more: { latitude: at(own.latitude), longitude: at(own.longitude) } },
    says: kind === "vessels" || kind === "hello" ? [/other sources left out/] : [],
  };
}

export function composeTrack(seed: number): Composed {
  const dice = new Chance(seed);
  const rows = 10 + dice.below(40);
  const own = walk(dice, rows, -33.2, 18.4);
  const kind = dice.pick(["whole", "cut", "cutTag", "nowhere", "untimed", "prefixed"] as const);
  const p = kind === "prefixed" ? "g:" : "";
  const point = (i: number, lat = own.latitude[i]!, lon = own.longitude[i]!) =>
    `<${p}trkpt lat="${lat}" lon="${lon}"><${p}ele>2.0</${p}ele><${p}time>${stamp(i)}</${p}time></${p}trkpt>`;
  const head = `<?xml version="1.0" encoding="UTF-8"?>\n<${p}gpx xmlns${p === "" ? "" : ":g"}="http://www.topografix.com/GPX/1/1" version="1.1">\n<${p}trk><${p}trkseg>\n`;
  const points = Array.from({ length: rows }, (_, i) => point(i));
  const tail =
    kind === "cut" ? "\n" : kind === "cutTag" ? `\n<trkpt lat="-33.` : `\n</${p}trkseg></${p}trk></${p}gpx>\n`;
  if (kind === "nowhere") points.splice(3, 0, point(3, 0, 0));
  if (kind === "untimed") points.splice(5, 0, `<trkpt lat="1" lon="1"></trkpt>`);
  const at = (list: readonly number[]) => list.map((value, i): [number, number] => [START + i, value]);
  const says = { cut: /cut off/, cutTag: /cut off/, nowhere: /no reading/, untimed: /not read/ }[kind as "cut"];
  return {
    name: `track ${seed}: ${kind}`,
    bytes: new TextEncoder().encode(head + points.join("\n") + tail),
    must: [],
    may: [],
    told: [],
    truth: { clock: "utc", more: { latitude: at(own.latitude), longitude: at(own.longitude) } },
    says: says ? [says] : [],
  };
}
