/** The JSON answers of `weather`: SI, the unit in the field's name. */
import { DEGREES } from "../quantity/index.ts";
import {
  assumptions,
  type Boat,
  type Conditions,
  type Disagreement,
  designLoadTables,
  disagreements,
  type Estimate,
  type Guess,
  inertiaOf,
  type LoadLaw,
  type Prediction,
  roadsBeside,
  type Shared,
  tablesBeside,
  type Weather,
  type WindForLoad,
  type WindsForLoad,
} from "../sea/index.ts";
import { assumptionLine, derivationWords, PLANNING_CAUTION } from "../words/index.ts";

export function weatherDocument(boat: Boat, answer: Weather, conditions: Conditions, engine?: WindsForLoad) {
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
    ...besides(answer),
    assumed: assumptions(boat, conditions).map(assumptionLine),
    caution: PLANNING_CAUTION,
  };
}

/** How her own points lie to her windage and to the tables. */
function besides({ measured, windage, tables, wind }: Weather) {
  const table = tablesBeside(measured, tables, wind.value);
  return {
    roads: roadsBeside({ measured, ...(windage === undefined ? {} : { windage }) }).map((one) => ({
      at: one.at,
      windage_N: one.windage,
      swinging: one.swinging,
      points_N: one.points,
      agree: one.agree,
    })),
    ...(table === undefined
      ? {}
      : {
          tablesBeside: {
            wind_m_per_s: table.wind,
            printed_N: table.printed,
            points_N: table.own,
            agree: table.agree,
          },
        }),
  };
}

export function windForLoadDocument(boat: Boat, answer: WindsForLoad, conditions: Conditions) {
  return {
    format: "rodebench/wind-worth@1",
    boat: boat.name,
    ...worth(answer),
    assumed: assumptions(boat, conditions).map(assumptionLine),
    caution: PLANNING_CAUTION,
  };
}

function worth(answer: WindsForLoad) {
  return {
    load_N: answer.load,
    ...(answer.windage === undefined ? {} : { windage: windForLoad(answer.windage) }),
    ...(answer.windageInGust === undefined ? {} : { windageInGust: windForLoad(answer.windageInGust) }),
    measured: answer.measured.map(({ at, calibration, mean, peak }) => ({
      at,
      law: law(calibration.mean),
      mean_m_per_s: band(mean),
      ...(peak === undefined ? {} : { peak_m_per_s: band(peak) }),
    })),
  };
}

function windForLoad(answer: WindForLoad) {
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
  const told = ({ value, from }: Guess) => ({ value, how: derivationWords(from) });
  return { surge_kg: told(surge), sway_kg: told(sway), yaw_kg_m2: told(yaw) };
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
  return angle * DEGREES;
}
