/** Figures of the water supply that no code sets. */

/** Hoses as they are sold [ft]. Common practice, no source. */
export const stockHoses_ft = [4, 5, 6, 8, 10, 12] as const;

/** Pressure a new pressure-reducing valve is set to [psi]. Common practice, no source. */
export const regulatorSetting_psi = 60;

/** Density of cold water, 15 °C [kg/m³]. IAPWS-97, computed with a library: 999.10. */
export const coldWater_kg_m3 = 999.1;
