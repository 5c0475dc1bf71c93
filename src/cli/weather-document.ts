/** The JSON answers of `weather`: SI, the unit in the field's name. */
import {
  assumptions,
  type Boat,
  type Conditions,
  type Disagreement,
  designLoadTables,
  disagreements,
  type Estimate,
  inertiaOf,
  type LoadLaw,
  type LoadWorth,
  type Prediction,
  type Shared,
  type Weather,
  type WindWorth,
} from "../sea/index.ts";

export const CAUTION =
  "These are estimates for planning, not a promise that a boat stays put: check the working load limits of the gear, and put the maker's limits, local rules and licensed practice first.";

export function weatherDocument(boat: Boat, answer: Weather, conditions: Conditions, engine?: LoadWorth) {
  const { wind, gust, windage, measured, current, surge, tables } = answer;
  return {
    format: "rodebench/weather@1",
    boat: boat.name,
    wind_m_per_s: wind,
    beaufort: answer.beaufort,
    ...(gust === undefined
      ? {}
      : { gust: { model: gust.model, speed_m_per_s: gust.speed, factor: gust.factor, intensity: gust.intensity } }),
    ...(windage === undefined
      ? {}
      : {
          windage: {
            at: "bow, horizontal",
            steady_N: shared(windage.steady),
            ...(windage.gust === undefined ? {} : { gust_N: shared(windage.gust) }),
            wind: {
              along_N: windage.force.along,
              across_N: windage.force.across,
              bySurface: windage.force.bySurface.map((s) => ({ name: s.name, along_N: s.along, across_N: s.across })),
            },
            ...(windage.veered === undefined
              ? {}
              : {
                  swinging: {
                    mean_N: { value: windage.veered.mean, u: windage.veered.mean * windage.veered.relativeU },
                    largest_N: { value: windage.veered.largest, u: windage.veered.largest * windage.veered.relativeU },
                    at_deg: degrees(windage.veered.at),
                    turnRate_deg_per_s: degrees(windage.veered.turnRate),
                    bowSpeed_m_per_s: windage.veered.bowSpeed,
                  },
                }),
          },
        }),
    measured: measured.map(({ at, calibration, mean, peak }) => ({
      at,
      law: law(calibration.mean),
      mean_N: prediction(mean),
      ...(peak === undefined || calibration.peak === undefined
        ? {}
        : { peakLaw: law(calibration.peak), peak_N: prediction(peak) }),
    })),
    ...(current === undefined
      ? {}
      : {
          current: {
            form_N: current.form,
            friction_N: current.friction,
            along_N: current.along,
            across_N: current.across,
            resultant_N: current.resultant,
          },
        }),
    ...(surge === undefined
      ? {}
      : {
          surge: {
            deviation_m: surge.deviation,
            significantAmplitude_m: surge.significantAmplitude,
            largestAmplitude_m: surge.largestAmplitude,
            speedDeviation_m_per_s: surge.speedDeviation,
            largestSpeed_m_per_s: surge.largestSpeed,
            period_s: surge.period,
            waves: surge.waves,
          },
        }),
    ...(engine === undefined ? {} : { engine: worth(engine) }),
    inertia: inertia(boat),
    tables: tables.map(({ table, row }) => ({
      name: table.name,
      source: table.source,
      standing: table.standing,
      holds: table.holds,
      rowLength_m: row.length,
      loads: row.loads.map(({ wind: speed, load }) => ({ wind_m_per_s: speed, load_N: load })),
    })),
    disagreements: disagreements(designLoadTables).map(disagreement),
    assumed: assumptions(boat, conditions),
    caution: CAUTION,
  };
}

export function worthDocument(boat: Boat, answer: LoadWorth, conditions: Conditions) {
  return {
    format: "rodebench/wind-worth@1",
    boat: boat.name,
    ...worth(answer),
    assumed: assumptions(boat, conditions),
    caution: CAUTION,
  };
}

function worth(answer: LoadWorth) {
  return {
    load_N: answer.load,
    ...(answer.windage === undefined ? {} : { windage: windWorth(answer.windage) }),
    ...(answer.windageInGust === undefined ? {} : { windageInGust: windWorth(answer.windageInGust) }),
    measured: answer.measured.map(({ at, calibration, mean, peak }) => ({
      at,
      law: law(calibration.mean),
      mean_m_per_s: band(mean),
      ...(peak === undefined ? {} : { peak_m_per_s: band(peak) }),
    })),
  };
}

function windWorth(answer: WindWorth) {
  switch (answer.kind) {
    case "wind":
      return { kind: answer.kind, wind_m_per_s: shared(answer.wind), beaufort: answer.beaufort };
    case "currentAlone":
      return { kind: answer.kind, current_N: answer.load };
    case "noWindage":
      return answer;
  }
}

function disagreement(found: Disagreement) {
  const length_m = found.length;
  return found.about === "load"
    ? {
        about: found.about,
        length_m,
        wind_m_per_s: found.wind,
        printed: found.printed.map(({ name, load }) => ({ name, load_N: load })),
      }
    : {
        about: found.about,
        length_m,
        load_N: found.load,
        printed: found.printed.map(({ name, wind }) => ({ name, wind_m_per_s: wind })),
      };
}

function inertia(boat: Boat) {
  const { surge, sway, yaw } = inertiaOf(boat);
  return { surge_kg: surge, sway_kg: sway, yaw_kg_m2: yaw };
}

function law({ wind, load, exponent, exponentFrom, setAside, scatter, dof, residuals }: LoadLaw) {
  return {
    wind_m_per_s: wind,
    load_N: load,
    exponent: { ...exponent, from: exponentFrom, ...(setAside === undefined ? {} : { setAside }) },
    scatter,
    dof,
    residuals,
  };
}

function prediction({ newReading, ...rest }: Prediction) {
  return { ...band(rest), newReading };
}

function band({ value, u, low, high }: Estimate) {
  return { value, u, low, high };
}

function shared({ shares, ...rest }: Shared) {
  return { ...band(rest), shares };
}

function degrees(angle: number): number {
  return (angle * 180) / Math.PI;
}
