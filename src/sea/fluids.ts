/** Air and water as used where a file or an option says nothing else. */

/** Air at 15 °C and 1013.25 hPa, kg/m³. @source ISO 2533 standard atmosphere at sea level (recalled). */
export const AIR_DENSITY = 1.225;
/** Sea water, kg/m³: the default of the rig file as well. */
export const SEA_WATER_DENSITY = 1025;
/** Kinematic viscosity of sea water at about 15 °C, m²/s. @source the value of the worked check beside UFC 4-159-03 eq. 20. */
export const SEA_WATER_VISCOSITY = 1.19e-6;
/** Euler's constant γ, for the mean of the largest of many. */
export const EULER = 0.5772156649015329;
